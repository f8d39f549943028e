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

/** For what is packed anew each time: a few milliseconds for the largest answer. */
const QUICK: Readonly<Record<Packing, number>> = { br: 3, gzip: 3 };

/** A body packed: tightly, for what is packed once, or quickly. */
export async function packed(
  body: Uint8Array,
  packing: Packing,
  care: "tight" | "quick" = "tight",
): Promise<Uint8Array> {
  if (packing === "gzip") return promisify(gzip)(body, care === "quick" ? { level: QUICK.gzip } : {});
  const quality = care === "quick" ? QUICK.br : BROTLI_QUALITY;
  return promisify(brotliCompress)(body, { params: { [constants.BROTLI_PARAM_QUALITY]: quality } });
}

/**
 * An answer of the interface packed for whoever can unpack it, so that a herd gets through where there is hardly a signal.
 *
 * For answers without a secret of the hub's only: how small one gets tells a little of what is in it.
 */
export async function packedAnswer(request: Request, response: Response): Promise<Response> {
  const { headers, status } = response;
  const bytes = Number(headers.get("content-length"));
  const packing = packingFor(request.headers.get("accept-encoding"), headers.get("content-type") ?? "", bytes);
  if (packing === undefined) return response;
  const body = await packed(new Uint8Array(await response.arrayBuffer()), packing, "quick");
  const sent = new Headers(headers);
  sent.set("content-encoding", packing);
  sent.set("content-length", String(body.byteLength));
  sent.set("vary", "accept-encoding");
  return new Response(new Uint8Array(body), { status, headers: sent });
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
