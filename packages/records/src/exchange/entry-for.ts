import { err, type Result } from "@pollard/base";
import { type Entry, entryJson, type TooNewEntry } from "../entry.ts";
import type { HerdId } from "../ids.ts";
import { parseEntry } from "../parse.ts";
import type { Refusal } from "./exchange.ts";

/** The entry that a piece of JSON is, if it is one of this herd; entries that are too new carry their herd as well. */
export function entryFor(herd: HerdId, json: unknown): Result<Entry | TooNewEntry, Refusal> {
  const read = parseEntry(json);
  if (!read.ok) return read;
  const named = (entryJson(read.value) as { readonly herd?: unknown }).herd;
  return named === herd ? read : err({ code: "other-herd", herd: String(named).slice(0, 80) });
}
