/** Wrong codes that are answered within a window; after them nobody joins until it is over. */
const MOST_WRONG = 20;
const WINDOW_MS = 10 * 60_000;

/**
 * Counts wrong codes, so that nobody tries them out: twenty in ten minutes against 10^12 codes.
 *
 * Counted for the whole hub, since a guesser may come from many addresses; a keeper then waits ten minutes at most.
 */
export function guessCounter(now: () => Date): { isOpen(): boolean; wrong(): void } {
  let wrongs: readonly number[] = [];
  const recent = (): readonly number[] => {
    const from = now().getTime() - WINDOW_MS;
    wrongs = wrongs.filter((at) => at > from);
    return wrongs;
  };
  return {
    isOpen: () => recent().length < MOST_WRONG,
    wrong: () => {
      wrongs = [...recent(), now().getTime()];
    },
  };
}
