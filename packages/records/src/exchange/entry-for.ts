import { err, type Result } from "@pollard/base";
import { type Entry, entryJson, type TooNewEntry } from "../entry/entry.ts";
import type { HerdId } from "../entry/ids.ts";
import { parseEntry } from "../entry/parse.ts";
import type { Refusal } from "./exchange.ts";

/**
 * The entry that a piece of JSON is, if it is one of this herd and of a kind that may be written; entries that are too new
 * carry their herd and their kind as well.
 */
export function entryFor(
  herd: HerdId,
  json: unknown,
  mayWrite: (entry: Entry | TooNewEntry) => boolean = () => true,
): Result<Entry | TooNewEntry, Refusal> {
  const read = parseEntry(json);
  if (!read.ok) return read;
  const { herd: named, kind } = entryJson(read.value) as { readonly herd?: unknown; readonly kind?: unknown };
  if (named !== herd) return err({ code: "other-herd", herd: String(named).slice(0, 80) });
  return mayWrite(read.value) ? read : err({ code: "not-yours-to-write", kind: String(kind).slice(0, 80) });
}
