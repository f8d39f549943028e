import { plainLetters } from "../../parts/answers/plain-letters.ts";
import type { Term } from "@pollard/words";

/** The terms that hold what was typed, in the word or in what it means; those whose word begins with it first. */
export function termsFor(terms: readonly Term[], typed: string): readonly Term[] {
  const wanted = plainLetters(typed.trim());
  if (wanted === "") return terms;
  const rank = ({ word, means }: Term): number =>
    plainLetters(word).startsWith(wanted)
      ? 0
      : plainLetters(word).includes(wanted)
        ? 1
        : plainLetters(means).includes(wanted)
          ? 2
          : 3;
  return terms
    .map((term) => ({ term, at: rank(term) }))
    .filter(({ at }) => at < 3)
    .sort((a, b) => a.at - b.at)
    .map(({ term }) => term);
}
