import { Bug } from "@pollard/base";
import { entryId, ID_BYTES } from "../entry/entry-id.ts";
import type { EntryId } from "../entry/ids.ts";
import { sha1 } from "./sha1.ts";
import { utf8Bytes } from "./utf8.ts";

/** The name space of names that are made here: a UUID drawn once for this purpose. */
const SPACE = "6f1b1d0e-5a0c-4c8e-9b57-2f3d8a9c4e61";

/**
 * The name that a text has within a space of names: the same text gives the same name on every device. A UUID of version 5.
 *
 * Source: [rfc-9562] section 5.5.
 */
export function nameMadeOf(text: string, space: string = SPACE): string {
  const root =
    space
      .replaceAll("-", "")
      .match(/../g)
      ?.map((byte) => Number.parseInt(byte, 16)) ?? [];
  if (root.length !== 16) throw new Bug(`no space of names: ${space}`);
  const bytes = sha1([...root, ...utf8Bytes(text)]).slice(0, 16);
  bytes[6] = 0x50 | ((bytes[6] ?? 0) & 0x0f); // version
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f); // variant
  const hex = bytes.map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** An entry's id whose chance is drawn from a text, where there is no source of chance: never for two different entries. */
export const entryIdMadeOf = (text: string, nowMs: number): EntryId =>
  entryId(nowMs, Uint8Array.from(sha1(utf8Bytes(text)).slice(0, ID_BYTES)));
