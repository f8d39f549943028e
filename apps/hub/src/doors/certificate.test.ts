import { X509Certificate } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { connect, rootCertificates } from "node:tls";
import { afterAll, describe, expect, test } from "vitest";
import { openBeyond } from "./beyond-door.ts";
import { certificateIn, concernsAbout, isVouchedFor } from "./certificate.ts";
import { hubGauges } from "../observation/hub-gauges.ts";
import { openDatabase } from "../store/open-database.ts";
import { freePort } from "../testing/free-port.ts";
import { type TestCertificate, testCertificate } from "../testing/certificate.ts";

const NAME = "goats.example";
const folder = mkdtempSync(join(tmpdir(), "pollard-certificate-"));
afterAll(() => rmSync(folder, { recursive: true }));

const files = { cert: join(folder, "cert.pem"), key: join(folder, "key.pem") };
function put({ cert, key }: TestCertificate) {
  writeFileSync(files.cert, cert);
  writeFileSync(files.key, key);
}

/** A door with what lies in the files, at an hour that can be moved. */
async function doorAt(start: string) {
  const port = await freePort();
  let now = Date.parse(start);
  const said: string[] = [];
  const problems: string[] = [];
  const journal = {
    said: (text: string) => void said.push(text),
    problem: (text: string) => void problems.push(text),
    request: () => undefined,
  };
  const beyond = { reach: `https://${NAME}:${port}`, host: "127.0.0.1", port, certificate: files };
  const door = await openBeyond(beyond, () => new Response("here"), { journal, clock: () => new Date(now) });
  const shown = () =>
    new Promise<string>((settle, fail) => {
      const line = connect({ host: "127.0.0.1", port, servername: NAME, rejectUnauthorized: false });
      line.on("error", fail);
      line.on("secureConnect", () => {
        settle(line.getPeerCertificate().fingerprint256);
        line.destroy();
      });
    });
  return { door, shown, said, problems, pass: (hours: number) => (now += hours * 3_600_000) };
}
const printOf = ({ cert }: TestCertificate) => new X509Certificate(cert).fingerprint256;

describe("a certificate that is renewed", () => {
  test("[HU-100] is shown without a new start; halves of a pair, or what is none, are not, and the one before goes on", async () => {
    const [first, second] = [testCertificate(NAME), testCertificate(NAME)];
    put(first);
    const { door, shown, said, problems } = await doorAt("2026-03-01T06:00:00Z");
    expect(await shown()).toBe(printOf(first));
    await door.lookAgain();
    expect([said.length, problems]).toEqual([1, []]);
    writeFileSync(files.cert, second.cert); // and the key a moment later
    await expect(certificateIn(files)).rejects.toThrow("key values mismatch");
    await door.lookAgain();
    expect(await shown()).toBe(printOf(first));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain("the one before goes on");
    put(second);
    await door.lookAgain();
    expect(await shown()).toBe(printOf(second));
    expect(said.at(-1)).toBe("A new certificate is shown to phones; it ends on 2049-01-01.");
    rmSync(files.cert);
    await door.lookAgain();
    expect(await shown()).toBe(printOf(second));
    expect(problems.join()).not.toMatch(/BEGIN|goats/);
    door.close();
  });

  test("[HU-101] one that ends is spoken of two weeks before, once a day, and no more when it was renewed", async () => {
    put(testCertificate(NAME, { to: "260401000000Z" }));
    const { door, problems, pass } = await doorAt("2026-03-01T06:00:00Z");
    const hours = async (count: number) => {
      for (let hour = 0; hour < count; hour++) {
        pass(1);
        await door.lookAgain();
      }
    };
    expect(problems).toEqual([]);
    pass(16 * 24);
    await hours(72);
    expect(problems).toEqual(Array.from({ length: 2 }, () => expect.stringContaining("ends on 2026-04-01") as string));
    expect(door.certificateEnds()?.toISOString()).toBe("2026-04-01T00:00:00.000Z");
    put(testCertificate(NAME));
    await hours(48);
    expect(problems).toHaveLength(2);
    door.close();
  });
});

describe("what phones will not like", () => {
  const at = new Date("2026-03-01T06:00:00Z");
  test.each([
    ["nothing", testCertificate(NAME), `https://${NAME}:8443`, []],
    ["another name", testCertificate("sheep.example"), `https://${NAME}`, ["not for the name"]],
    ["no name but an address", testCertificate(NAME), "https://[2001:db8::1]", ["not for the name"]],
    ["too early", testCertificate(NAME, { from: "260302000000Z" }), `https://${NAME}`, ["good from 2026-03-02"]],
    ["over", testCertificate(NAME, { to: "260228000000Z" }), `https://${NAME}`, ["ended on 2026-02-28"]],
    ["soon over", testCertificate(NAME, { to: "260310000000Z" }), `https://${NAME}`, ["ends on 2026-03-10"]],
    ["over in fifteen days", testCertificate(NAME, { to: "260316070000Z" }), `https://${NAME}`, []],
  ])("[HU-101] %s", (_, { cert }, reach, said) => {
    expect(concernsAbout(cert, reach, at)).toEqual(said.map((part) => expect.stringContaining(part) as string));
  });

  test("[HU-101] a public authority vouches for its own, for what it signed and for what that signed; for nothing else", () => {
    const root = testCertificate("root.example");
    const between = testCertificate("between.example", { by: { name: "root.example", key: root.key } });
    const leaf = testCertificate(NAME, { by: { name: "between.example", key: between.key } });
    const forged = testCertificate(NAME, { by: { name: "between.example", key: testCertificate("x").key } });
    const chain = `${leaf.cert}${between.cert}`;
    for (const pem of [root.cert, between.cert, chain, `${chain}${root.cert}`])
      expect(isVouchedFor(pem, [testCertificate("other.example").cert, root.cert])).toBe(true);
    for (const pem of [
      leaf.cert,
      `${leaf.cert}${root.cert}`,
      `${forged.cert}${between.cert}`,
      testCertificate(NAME).cert,
    ])
      expect(isVouchedFor(pem, [root.cert])).toBe(false);
    expect(isVouchedFor(chain)).toBe(false);
    expect(isVouchedFor(rootCertificates[0] ?? "")).toBe(true);
  });

  test("[HU-101] when it ends is among the figures of a hub that has one", async () => {
    const database = await openDatabase({ folder, address: undefined });
    const named = async (certificateEnds: Date | undefined) =>
      (await hubGauges(database, { certificateEnds })).filter(({ name }) => name.includes("certificate"));
    expect(await named(at)).toMatchObject([{ name: "pollard_certificate_ends_seconds", value: at.getTime() / 1000 }]);
    expect(await named(undefined)).toEqual([]);
    await database.close();
  });
});
