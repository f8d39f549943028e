import { type Entry, isTooNew, type TooNewEntry } from "./entry.ts";
import type { Correction, Fact } from "./entry-kinds.ts";
import type { EntryId, Stamp } from "./ids.ts";

/**
 * The latest stamp that something has to come after so that it counts: a correction, what it corrects and every other
 * correction of that; a setting, those of the same name. `undefined` for what needs no order.
 *
 * Where clocks were right, it is never later than the stamps a device knows anyway. It matters where a clock was ahead: the
 * entries of that time are left out of the device's own time (`receiveStamp`), yet what a person says now comes after them.
 *
 * Cost:   two passes over the entries.
 * Source: rule RE-66.
 */
export function stampToFollow(entries: readonly (Entry | TooNewEntry)[], fact: Fact | Correction): Stamp | undefined {
  const known = entries.flatMap((entry) => (isTooNew(entry) ? [] : [entry]));
  if (fact.kind === "setting")
    return latest(known.filter((entry) => entry.kind === "setting" && entry.body.key === fact.body.key));
  if (!isCorrecting(fact)) return undefined;
  const byId = new Map(known.map((entry) => [entry.id, entry]));
  const up = new Set([fact.body.entry]);
  for (const id of up) {
    const above = correctedBy(byId.get(id));
    if (above !== undefined) up.add(above);
  }
  const tree = new Set([[...up].at(-1) ?? fact.body.entry]);
  const corrections = new Map<EntryId, EntryId[]>();
  for (const entry of known) {
    const corrected = correctedBy(entry);
    if (corrected !== undefined) corrections.set(corrected, [...(corrections.get(corrected) ?? []), entry.id]);
  }
  for (const id of tree) for (const below of corrections.get(id) ?? []) tree.add(below);
  return latest([...tree].flatMap((id) => byId.get(id) ?? []));
}

const isCorrecting = (of: Fact | Correction): of is Correction => of.kind === "replace" || of.kind === "strike";

const correctedBy = (entry: Entry | undefined): EntryId | undefined =>
  entry !== undefined && isCorrecting(entry) ? entry.body.entry : undefined;

const latest = (entries: readonly Entry[]): Stamp | undefined =>
  entries.reduce<Stamp | undefined>((last, { at }) => (last === undefined || at > last ? at : last), undefined);
