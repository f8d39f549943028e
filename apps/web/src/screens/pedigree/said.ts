import type { HerdBookLine } from "@pollard/advice";
import type { Screens } from "@pollard/words";
import { words } from "../../house/use-house.tsx";
import type { FamilySymbol } from "./family.ts";

/** Everything a symbol shows, as sentences: the same in the drawing's own voice and in the list. */
export function symbolSaid(s: Screens, { kind, sex, lines, years }: FamilySymbol): string {
  if (kind === "lost") return s.pedigree.lost(years);
  const [first] = lines;
  if (kind === "unknown" || first === undefined) return sex === "doe" ? s.pedigree.unknownDam : s.pedigree.unknownSire;
  const who =
    kind === "like-kids"
      ? s.pedigree.likeKids(lines.length, lines.map(({ ref }) => words.label(ref)).join(", "))
      : words.label(first.ref);
  return [
    `${who}, ${s.animals.sex[sex].toLowerCase()}.`,
    years === "" ? "" : s.pedigree.born(years),
    ...factsSaid(s, first),
  ]
    .filter((part) => part !== "")
    .join(" ");
}

function factsSaid(s: Screens, line: HerdBookLine): readonly string[] {
  return [
    line.genotype === undefined ? `${s.pedigree.notShown}.` : words.genotype(line.genotype),
    s.pedigree.where[line.where],
    line.intersex === "seen" && line.sex !== "intersex" ? s.pedigree.intersex : "",
  ];
}

/** Longest name that has room under a symbol, letters. */
const NAME_ROOM = 10;
export const cut = (name: string): string => (name.length > NAME_ROOM ? `${name.slice(0, NAME_ROOM - 1)}…` : name);
