import { Bug } from "@pollard/base";
import type { EntryId } from "./ids.ts";

/** Bytes of chance in an id. */
export const ID_BYTES = 10;
const LATEST_MS = 2 ** 48 - 1;

/**
 * A fresh name for an entry, a herd or a device: a UUID of version 7, so that text order is order of making, to the millisecond.
 *
 * Units:  `nowMs` is milliseconds since 1970 UTC; `chance` holds ten bytes from the device's own source of chance.
 * Errors: Bug if the time or the bytes cannot be.
 * Source: [rfc-9562] section 5.7.
 *
 * @example
 * entryId(0x017f22e279b0, new Uint8Array(10)); // "017f22e2-79b0-7000-8000-000000000000"
 */
export function entryId(nowMs: number, chance: Uint8Array): EntryId {
  if (!Number.isSafeInteger(nowMs) || nowMs < 0 || nowMs > LATEST_MS) throw new Bug(`no time for an id: ${nowMs}`);
  if (chance.length !== ID_BYTES) throw new Bug(`bytes for an id: ${chance.length}`);
  const bytes = [...chance];
  bytes[0] = 0x70 | ((bytes[0] ?? 0) & 0x0f); // version
  bytes[2] = 0x80 | ((bytes[2] ?? 0) & 0x3f); // variant
  const hex = nowMs.toString(16).padStart(12, "0") + bytes.map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-") as EntryId;
}
