import type { TestWorthLine } from "@pollard/advice";
import type { Screens } from "@pollard/words";

/** Results rarer than this are left out of what a test could settle, as on the page of a pair. */
const SAID = 0.005;

/** What a test could say, the likeliest first; of a kid whose head waits to be read nothing is said before it is. */
export function settledSaid(s: Screens, { results }: Pick<TestWorthLine, "results">): string {
  const said = results
    .filter(({ chance }) => chance >= SAID)
    .toSorted((a, b) => b.chance - a.chance)
    .map(({ genotypes }) => genotypes.join(" + "));
  return said.length === 0 ? s.tests.settlesNothing : s.tests.settles([...new Set(said)].join(" / "));
}
