import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

/** How a body may be packed on its way, the tightest first. */
const PACKINGS = ["br", "gzip"] as const;
export type Packing = (typeof PACKINGS)[number];

/** Kinds of file that get smaller; pictures, fonts and the like are packed already. */
const PACKABLE = /^(?:text\/|application\/(?:json|javascript|wasm|manifest\+json|x-ndjson)|image\/svg)/;
/** Bodies below this are not worth it: they fit into one packet anyway. */
const SMALLEST_BYTES = 1000;
/** As tight as brotli gets within about a second for the largest file. */
const BROTLI_QUALITY = 9;

/**
 * How to pack a body for whoever asks, by what they say they can unpack; `undefined` leaves it as it is.
 *
 * Source: RFC 9110 12.5.3. A packing with `q=0` is refused by the asker; `*` is not taken up.
 */
export function packingFor(accepted: string | null, type: string, bytes: number): Packing | undefined {
  if (accepted === null || bytes < SMALLEST_BYTES || !PACKABLE.test(type)) return undefined;
  const willing = new Map(
    accepted.split(",").map((part) => {
      const [name = "", ...settings] = part.split(";").map((piece) => piece.trim().toLowerCase());
      const weight = settings.find((setting) => setting.startsWith("q="));
      return [name, weight === undefined ? 1 : Number(weight.slice(2))] as const;
    }),
  );
  return PACKINGS.find((packing) => (willing.get(packing) ?? 0) > 0);
}

/** A body packed. */
export async function packed(body: Uint8Array, packing: Packing): Promise<Uint8Array> {
  if (packing === "gzip") return promisify(gzip)(body);
  return promisify(brotliCompress)(body, { params: { [constants.BROTLI_PARAM_QUALITY]: BROTLI_QUALITY } });
}

/** Keeps packed bodies, so that each is packed once. `name` tells bodies apart, their version among it. */
export function packedOnce(): (name: string, body: Uint8Array, packing: Packing) => Promise<Uint8Array> {
  const kept = new Map<string, Promise<Uint8Array>>();
  return (name, body, packing) => {
    const key = `${packing} ${name}`;
    const work = kept.get(key) ?? packed(body, packing);
    kept.set(key, work);
    return work;
  };
}
