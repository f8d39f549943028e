/** How many backups of each span of time are kept. */
const KEPT = { days: 7, weeks: 4, months: 6 } as const;
const DAY_MS = 86_400_000;
/** 1 January 1970 was a Thursday; weeks begin on Monday. */
const DAYS_TO_MONDAY = 3;

const NAME = /^pollard-(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(\d{2})Z$/;

/** The name of a backup's folder: when it was made, UTC, so that names stand in order of time. */
export const backupName = (at: Date): string => `pollard-${at.toISOString().replace(/[-:]|\.\d+/g, "")}`;

/** When a backup was made, by the name of its folder; `undefined` for any other name. */
export function backupTime(name: string): Date | undefined {
  const [, ...parts] = NAME.exec(name) ?? [];
  if (parts.length === 0) return undefined;
  const [year, month, day, hour, minute, second] = parts.map(Number);
  const at = new Date(Date.UTC(year ?? 0, (month ?? 1) - 1, day, hour, minute, second));
  return backupName(at) === name ? at : undefined;
}

/**
 * Which of a folder's backups are to go when a new one has been made.
 *
 * Kept is the newest of each of the last seven days that have one, of the last four weeks and of the last six months. So
 * a mistake found late can still be undone, and a computer that was off for a year loses nothing by being switched on.
 *
 * Shape: names out of those given; what is no backup of ours is never among them.
 */
export function outdatedBackups(names: readonly string[]): readonly string[] {
  const made = names
    .flatMap((name) => {
      const at = backupTime(name);
      return at === undefined ? [] : [{ name, at }];
    })
    .sort((a, b) => b.at.getTime() - a.at.getTime());
  const kept = new Set<string>();
  const keepNewest = (spans: number, spanOf: (at: Date) => string | number): void => {
    const seen = new Set<string | number>();
    for (const { name, at } of made) {
      const span = spanOf(at);
      if (seen.has(span)) continue;
      if (seen.size === spans) return;
      seen.add(span);
      kept.add(name);
    }
  };
  const dayOf = (at: Date): number => Math.floor(at.getTime() / DAY_MS);
  keepNewest(KEPT.days, dayOf);
  keepNewest(KEPT.weeks, (at) => Math.floor((dayOf(at) + DAYS_TO_MONDAY) / 7));
  keepNewest(KEPT.months, (at) => at.toISOString().slice(0, 7));
  return made.map(({ name }) => name).filter((name) => !kept.has(name));
}
