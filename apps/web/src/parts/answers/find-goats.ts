import type { AnimalLine } from "@pollard/advice";
import { byName } from "../lists/name-order.ts";
import { plainLetters } from "./plain-letters.ts";

/** Digits from which a chip number is looked through: fewer stand in half of all chips. Our judgement. */
const CHIP_FROM = 4;

/**
 * The goats that fit what was typed. Digits may stand anywhere in the tag, spaces and dashes in tags do not count, and a
 * tag that ends in them comes first, and four digits or more may stand in a chip number. A name fits by the beginning of any of
 * its words, with or without its accents, as does the mark of a goat that has neither name nor tag.
 *
 * Shape: the living herd before those that are gone; those that fit alike by name. In the given order while nothing is typed.
 */
export function findGoats(
  goats: readonly AnimalLine[],
  way: "tag" | "name" | "any",
  typed: string,
): readonly AnimalLine[] {
  const wanted = bare(typed);
  if (wanted === "") return goats;
  const rank = (goat: AnimalLine): number => {
    const tag = way === "name" ? -1 : Math.max(tagRank(bare(goat.ref.tag ?? ""), wanted), chipRank(goat.chip, wanted));
    const called = goat.ref.name ?? (goat.ref.tag === undefined ? goat.ref.mark : undefined);
    const name = way === "tag" ? -1 : nameRank(called ?? "", plainLetters(typed.trim()));
    const best = Math.max(tag, name);
    return best < 0 ? -1 : best + (goat.gone ? 0 : 10);
  };
  return goats
    .map((goat) => ({ goat, rank: rank(goat) }))
    .filter((each) => each.rank >= 0)
    .toSorted((a, b) => b.rank - a.rank || byName(a.goat.ref, b.goat.ref))
    .map((each) => each.goat);
}

const bare = (text: string): string => plainLetters(text).replace(/[^\p{L}\p{N}]/gu, "");

function tagRank(tag: string, wanted: string): number {
  if (tag === wanted) return 3;
  if (tag.endsWith(wanted)) return 2;
  return tag.includes(wanted) ? 1 : -1;
}

/** Behind every tag that fits; the whole number, as a reader types it, before all. */
function chipRank(chip: string | undefined, wanted: string): number {
  if (chip === undefined || wanted.length < CHIP_FROM) return -1;
  return chip === wanted ? 3 : chip.includes(wanted) ? 0 : -1;
}

function nameRank(name: string, wanted: string): number {
  const plain = plainLetters(name);
  if (plain.startsWith(wanted)) return 2;
  return plain.split(/\s+/).some((word) => word.startsWith(wanted)) ? 1 : -1;
}
