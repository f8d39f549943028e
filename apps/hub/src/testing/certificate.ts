import { generateKeyPairSync, randomBytes, sign } from "node:crypto";

/** A certificate and its key, PEM. */
export interface TestCertificate {
  readonly cert: string;
  readonly key: string;
}

/** What else a certificate may be: good from and to (as RFC 5280 writes times, UTC), signed by another instead of by itself. */
export interface TestCertificateWish {
  readonly from?: string;
  readonly to?: string;
  readonly by?: { readonly name: string; readonly key: string };
}

const piece = (tag: number, ...parts: readonly Buffer[]): Buffer => {
  const body = Buffer.concat(parts);
  const size = body.length;
  const length = size < 0x80 ? [size] : size < 0x100 ? [0x81, size] : [0x82, size >> 8, size & 0xff];
  return Buffer.concat([Buffer.from([tag, ...length]), body]);
};
const sequence = (...parts: readonly Buffer[]): Buffer => piece(0x30, ...parts);
/** An object identifier, by its octets. */
const oid = (hex: string): Buffer => piece(0x06, Buffer.from(hex, "hex"));

const ECDSA_SHA256 = sequence(oid("2a8648ce3d040302"));
const COMMON_NAME = "550403";
const BASIC_CONSTRAINTS = "551d13";
const ALTERNATIVE_NAMES = "551d11";

const time = (text: string): Buffer => piece(0x17, Buffer.from(text));
const named = (name: string): Buffer =>
  sequence(piece(0x31, sequence(oid(COMMON_NAME), piece(0x0c, Buffer.from(name)))));
const extension = (id: string, value: Buffer): Buffer => sequence(oid(id), piece(0x04, value));

/**
 * A certificate of its own for a name, made anew for each test, so that none runs out and no key lies in the project.
 *
 * Source: RFC 5280 for its parts; that they are right is seen by the TLS of Node and of a browser accepting it.
 */
export function testCertificate(
  name: string,
  { from = "200101000000Z", to = "490101000000Z", by }: TestCertificateWish = {},
): TestCertificate {
  const { publicKey, privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const spki = publicKey.export({ type: "spki", format: "der" });
  const signed = sequence(
    piece(0xa0, piece(0x02, Buffer.from([2]))),
    piece(0x02, Buffer.concat([Buffer.from([1]), randomBytes(8)])),
    ECDSA_SHA256,
    named(by?.name ?? name),
    sequence(time(from), time(to)),
    named(name),
    spki,
    piece(
      0xa3,
      sequence(
        extension(BASIC_CONSTRAINTS, sequence(piece(0x01, Buffer.from([0xff])))),
        extension(ALTERNATIVE_NAMES, sequence(piece(0x82, Buffer.from(name)))),
      ),
    ),
  );
  const signature = piece(0x03, Buffer.from([0]), sign("sha256", signed, by?.key ?? privateKey));
  const lines = sequence(signed, ECDSA_SHA256, signature)
    .toString("base64")
    .replaceAll(/.{64}(?=.)/g, "$&\n");
  return {
    cert: `-----BEGIN CERTIFICATE-----\n${lines}\n-----END CERTIFICATE-----\n`,
    key: privateKey.export({ type: "pkcs8", format: "pem" }) as string,
  };
}
