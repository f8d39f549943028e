import { addDays, type Day } from "@pollard/base";

/** How far the phone's day may lie before the last day on which anybody wrote, days: zones and a short night make one. */
const BEHIND_DAYS = 2;
/** For how long a herd may be silent before the phone's day is asked about, days. Our judgement. */
const SILENT_DAYS = 45;

/** What makes a phone's day doubtful. */
export type DayDoubt = "behind-entries" | "long-after-entries" | "before-made";

/** What the phone's day is held against. */
export interface KnownDays {
  /** On what day this app was made; `undefined` while it is being edited. */
  readonly made: Day | undefined;
  /** The last day, UTC, on which anything of the herd was written, by any phone's clock. */
  readonly lastWritten: Day | undefined;
}

/**
 * Whether this phone's day can hardly be right, and why.
 *
 * Source: rule UI-249; the limits are our judgement.
 *
 * @example
 * dayDoubt("2001-01-01", { made: "2026-03-01", lastWritten: undefined }); // "before-made"
 */
export function dayDoubt(today: Day, { made, lastWritten }: KnownDays): DayDoubt | undefined {
  if (lastWritten !== undefined && today < addDays(lastWritten, -BEHIND_DAYS)) return "behind-entries";
  if (made !== undefined && today < addDays(made, -1)) return "before-made";
  return lastWritten !== undefined && today > addDays(lastWritten, SILENT_DAYS) ? "long-after-entries" : undefined;
}

/** The pages on which something is entered that is no reading of a head: a question there would stand in its way. */
const ENTERING = /^\/(add|kidding|fact|service|seen|outcome|correct|care\/.+\/|vet\/.+\/)/;

/** May this page ask about the phone's day? */
export const mayAskDay = (address: string): boolean => ENTERING.test(address);
