import type { Journal } from "../observation/journal.ts";
import { plainError } from "../observation/plain-error.ts";

/** How often it is looked whether a backup is due, ms. A computer that slept makes up for it when it wakes. */
const LOOK_MS = 60_000;
/** How long after one that failed it is tried again at the earliest, ms. */
const AGAIN_MS = 3_600_000;

/** What a schedule is made of. */
export interface ScheduleParts {
  readonly everyMs: number;
  /** When the last backup was made, as far as is known at the start. */
  readonly last: Date | undefined;
  readonly clock: () => Date;
  /** Makes one and says in a sentence what was made. */
  readonly make: (at: Date) => Promise<string>;
  readonly journal: Pick<Journal, "said" | "problem">;
  /** Hears how each ended. */
  readonly onEnd: (end: "done" | "failed", at: Date) => void;
}

/**
 * Makes a backup whenever the last one is old enough, for as long as the hub runs; the first at once if it is due.
 *
 * One that fails is told, and tried again within the hour; the hub goes on.
 *
 * Shape: `look` is what its timer calls; `stop` ends the timer.
 */
export function scheduleBackups(parts: ScheduleParts): {
  readonly look: () => Promise<void>;
  readonly stop: () => void;
} {
  const { everyMs, clock, make, journal, onEnd } = parts;
  let due = parts.last === undefined ? 0 : parts.last.getTime() + everyMs;
  let isBusy = false;
  const look = async (): Promise<void> => {
    const at = clock();
    if (isBusy || at.getTime() < due) return;
    isBusy = true;
    try {
      journal.said(await make(at));
      due = at.getTime() + everyMs;
      onEnd("done", at);
    } catch (error) {
      due = at.getTime() + Math.min(everyMs, AGAIN_MS);
      journal.problem(`the backup failed: ${plainError(error)}`);
      onEnd("failed", at);
    } finally {
      isBusy = false;
    }
  };
  const timer = setInterval(() => void look(), LOOK_MS);
  timer.unref();
  void look();
  return { look, stop: () => clearInterval(timer) };
}
