import type { TestWorthLine } from "@pollard/advice";
import type { Screens } from "@pollard/words";

/** Results rarer than this are left out of what a test could settle, as on the page of a pair. */
const SAID = 0.005;

/** What a test could say, the likeliest first; nothing of a kid whose head waits to be read. */
export function resultsSaid({ results }: Pick<TestWorthLine, "results">): string | undefined {
  const said = results
    .filter(({ chance }) => chance >= SAID)
    .toSorted((a, b) => b.chance - a.chance)
    .map(({ genotypes }) => genotypes.join(" + "));
  return said.length === 0 ? undefined : [...new Set(said)].join(" / ");
}

/** What a test would settle, in a sentence; of a kid whose head waits to be read nothing is said before it is. */
export function settledSaid(s: Screens, line: Pick<TestWorthLine, "results">): string {
  const said = resultsSaid(line);
  return said === undefined ? s.tests.settlesNothing : s.tests.settles(said);
}

export const TEST_COLUMNS = ["goat", "verdict", "settles", "saves", "price"] as const;
export type TestColumn = (typeof TEST_COLUMNS)[number];

const VERDICTS = ["worth-it", "not-worth-it", "known-already"] as const;

/** What a line of tests is sorted by in a column; of a goat that is known already there is nothing to weigh. */
export function testValue(line: TestWorthLine, column: TestColumn): string | number | undefined {
  const known = line.advice === "known-already";
  switch (column) {
    case "goat":
      return line.animals.map(({ name, tag }) => name ?? tag ?? "").join(" ");
    case "verdict":
      return VERDICTS.indexOf(line.advice);
    case "settles":
      return known ? undefined : resultsSaid(line);
    case "saves":
      return known ? undefined : line.worth;
    case "price":
      return known ? undefined : line.price;
  }
}
