import { err, ok } from "@pollard/base";
import { type HerdId, PHOTO_LIMIT, type PhotoPeer } from "@pollard/records";
import { askHub, herdUrl, hubRefusal } from "./hub-peer.ts";

/** How long one picture may take, ms: 300 kB at a poor 10 kB a second. */
const PATIENCE_MS = 30_000;

/** The hub that served this page, as the other side of an exchange of pictures. */
export function hubPhotos(herd: HerdId, base: string, token?: string): PhotoPeer {
  const ask = (name: string, sent?: Uint8Array): Promise<Response> =>
    fetch(herdUrl(herd, base, `photos/${encodeURIComponent(name)}`), {
      ...(sent === undefined ? {} : { method: "PUT", body: Uint8Array.from(sent) }),
      headers: {
        ...(sent === undefined ? {} : { "content-type": "application/octet-stream" }),
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      },
      signal: AbortSignal.timeout(PATIENCE_MS),
      cache: "no-store",
    });
  return {
    lacking: (names) => askHub(herdUrl(herd, base, "photos"), { method: "POST", json: { photos: names }, token }),
    async give(name, bytes) {
      try {
        const response = await ask(name, bytes);
        return response.ok ? ok(await response.json()) : err(await hubRefusal(response));
      } catch (cause) {
        return err({ code: "unreachable", cause });
      }
    },
    async ask(name) {
      try {
        const response = await ask(name);
        if (!response.ok) return err(await hubRefusal(response));
        const length = Number(response.headers.get("content-length") ?? 0);
        // What is longer than any picture may be is not read; that it is too large is then seen by its first byte too many.
        return ok(
          length > PHOTO_LIMIT ? new Uint8Array(PHOTO_LIMIT + 1) : new Uint8Array(await response.arrayBuffer()),
        );
      } catch (cause) {
        return err({ code: "unreachable", cause });
      }
    },
  };
}
