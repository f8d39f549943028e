import { type Entry, isTooNew, type TooNewEntry } from "@pollard/records";

/** The setting that says what a herd is called. */
export const HERD_NAME = "herd-name";

/** What a herd is called by the last of some entries that says so. */
export function herdNameIn(entries: readonly (Entry | TooNewEntry)[]): string | undefined {
  const names = entries.flatMap((entry) =>
    !isTooNew(entry) && entry.kind === "setting" && entry.body.key === HERD_NAME ? [String(entry.body.value)] : [],
  );
  return names.at(-1);
}
