import type { LearntOfParent, ReviewModel, SeenAgainstExpected, SireSeason, Surprise } from "@pollard/advice";
import type { PolledBelief } from "@pollard/genetics";

type Season = Extract<ReviewModel, { kind: "season" }>;

/** What of a season is set beside what was to be expected, in the order in which it is told. */
export const AGAINST = ["horned", "intersex", "bucks"] as const;
export type Against = (typeof AGAINST)[number];

/** One line of what was seen beside what was to be expected: of the whole season, or of one sire's kids. */
export interface SeenLine {
  readonly of: Against | SireSeason["buck"];
  readonly seen: SeenAgainstExpected;
}

export const seenLines = (season: Season): readonly SeenLine[] => AGAINST.map((of) => ({ of, seen: season[of] }));

export const sireLines = ({ sires }: Season): readonly SeenLine[] =>
  sires.map(({ buck, horned }) => ({ of: buck, seen: horned }));

export type SeenColumn = "seen" | "of" | "expected" | "verdict";

const VERDICTS = ["as-expected", "unusual", "very-unusual"] as const;

/** What such a line is sorted by in a column of figures; where no kid is known there is none. */
export function seenValue({ seen }: SeenLine, column: SeenColumn): number | undefined {
  if (seen.of === 0) return column === "of" ? 0 : undefined;
  switch (column) {
    case "seen":
      return seen.seen;
    case "of":
      return seen.of;
    case "expected":
      return seen.mean;
    case "verdict":
      return VERDICTS.indexOf(seen.verdict);
  }
}

/** The genotype that is likeliest. */
export const likeliest = (belief: PolledBelief): keyof PolledBelief =>
  (["PP", "Pp", "pp"] as const).reduce((a, b) => (belief[b] > belief[a] ? b : a));

export type LearntColumn = "goat" | "before" | "now" | "moved";

export function learntValue(learnt: LearntOfParent, column: LearntColumn): string | number | undefined {
  switch (column) {
    case "goat":
      return learnt.animal.name ?? learnt.animal.tag;
    case "before":
      return likeliest(learnt.before);
    case "now":
      return likeliest(learnt.now);
    case "moved":
      return learnt.moved;
  }
}

export type SurpriseColumn = "kid" | "head" | "chance" | "because";

export function surpriseValue(surprise: Surprise, column: SurpriseColumn): string | number | undefined {
  switch (column) {
    case "kid":
      return surprise.kid.name ?? surprise.kid.tag ?? surprise.kid.damName;
    case "head":
      return surprise.head;
    case "chance":
      return surprise.expected;
    case "because":
      return surprise.explanations[0]?.kind;
  }
}
