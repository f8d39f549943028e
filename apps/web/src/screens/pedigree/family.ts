import type { Counted, HerdBookLine } from "@pollard/advice";
import { type Day, daysFrom } from "@pollard/base";
import { siresShown } from "../animal/model.ts";

/** A parent's place in a mating: a known animal with its chance where several may be the sire, or nobody known. */
export interface Parent {
  /** The id of the symbol that is drawn for it. */
  readonly symbol: string;
  /** Counted out only where this is one of several. */
  readonly counted: Counted | undefined;
}

/** One symbol: an animal, several like kids drawn as one, a parent that nobody knows, or kids lost before their time. */
export interface FamilySymbol {
  readonly id: string;
  readonly kind: "animal" | "like-kids" | "unknown" | "lost";
  readonly sex: HerdBookLine["sex"];
  /** The animals it stands for; none for a parent nobody knows and for kids that were lost. */
  readonly lines: readonly HerdBookLine[];
  /** The year of birth, or of the loss; the first and the last of several; empty where nobody wrote it down. */
  readonly years: string;
}

/** Kids born together, or one symbol of like kids of several litters. */
export interface Litter {
  readonly kids: readonly string[];
  /** As of a symbol. */
  readonly years: string;
}

/** A sire, or those it may have been, with a dam and the kids they had together, in order of birth, litter by litter. */
export interface Mating {
  readonly key: string;
  readonly sires: readonly Parent[];
  readonly dam: Parent;
  readonly litters: readonly Litter[];
  /** The kids of all litters. */
  readonly kids: readonly string[];
  /** Parents that share an ancestor. */
  readonly related: "related" | "not-known-to-be";
}

/** What is to be drawn, before any place is given to it. */
export interface Family {
  readonly symbols: ReadonlyMap<string, FamilySymbol>;
  readonly matings: readonly Mating[];
  /** The symbol of the animal in question, if the family is one animal's. */
  readonly focus: string | undefined;
}

/** Whose family: everybody's, or one animal's to so many generations up and down. */
export type FamilyOf =
  | { readonly who: "all" }
  | { readonly who: "one"; readonly id: string; readonly generations: number };

/** How many like kids it takes to be drawn as one symbol with a number. */
const LIKE_KIDS = 3;
/** Births of one dam that lie further apart are two litters, days: far less than a pregnancy, far more than a birth takes. */
const ONE_LITTER = 30;
/** Inbreeding of a kid above which its parents count as related: any at all, but for rounding. */
const ANY = 1e-9;

interface Born {
  readonly line: HerdBookLine;
  readonly dam: string | undefined;
  readonly sires: ReturnType<typeof siresShown>;
}

/**
 * The animals and matings that are drawn.
 *
 * One animal's family holds its ancestors and descendants within so many generations, its full sisters and brothers, and
 * whoever its descendants were bred with, or any of them lost kids by. Kids of one mating that are alike in all that a symbol shows and have no kids
 * drawn become one symbol; pressed open (`opened`), they are drawn one by one.
 *
 * Kids that their dam lost before their time stand among her litters.
 *
 * Shape:   every animal chosen stands in exactly one symbol; kids in order of birth.
 * Assumes: lines stand in order of birth. A record in which an animal is its own ancestor is drawn without the parents that
 *          close the ring.
 */
export function familyOf(lines: readonly HerdBookLine[], of: FamilyOf, opened: ReadonlySet<string>): Family {
  const born = withoutRings(lines);
  const focus = of.who === "one" ? of.id : undefined;
  const chosen = of.who === "all" ? new Set(born.keys()) : relations(born, of.id, of.generations);
  const symbols = new Map<string, FamilySymbol>();
  const groups = new Map<string, Born[]>();
  for (const [id, each] of born) {
    if (!chosen.has(id)) continue;
    symbols.set(id, { id, kind: "animal", sex: each.line.sex, lines: [each.line], years: yearsOf([each.line]) });
    const key = matingKey(each, chosen);
    if (key !== undefined) groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  const parents = new Set([...groups.values()].flat().flatMap((kid) => parentIds(kid)));
  const lost = lostKids(born, chosen, symbols);
  for (const { key } of lost) if (!groups.has(key)) groups.set(key, []);
  const matings = [...groups].map(([key, kids]): Mating => {
    const lostHere = lost.filter((each) => each.key === key);
    const [first] = kids.length > 0 ? kids : lostHere.map(({ parents: of }) => of);
    const known = (first?.sires ?? []).filter(({ sire }) => sire !== undefined && chosen.has(sire.id));
    const unwritten = (first?.sires ?? []).filter(({ sire }) => sire === undefined || !chosen.has(sire.id));
    const sires: Parent[] = known.map(({ sire, counted }) => ({ symbol: sire?.id ?? "", counted }));
    if (unwritten.length > 0 || known.length === 0)
      sires.push(
        unknown(symbols, `sire of ${key}`, "buck", unwritten.length === 1 ? unwritten[0]?.counted : undefined),
      );
    const dam = first?.dam !== undefined && chosen.has(first.dam) ? first.dam : undefined;
    return {
      key,
      sires,
      dam:
        dam === undefined ? unknown(symbols, `dam of ${key}`, "doe", undefined) : { symbol: dam, counted: undefined },
      ...inLitters([
        ...likeKidsAsOne(kids, { symbols, parents, opened, key, focus }).map((id) => spanOf(symbols, id)),
        ...lostHere.map(({ id, on }) => ({ id, from: on, to: on })),
      ]),
      related: kids.some(({ line }) => line.inbreeding > ANY) ? "related" : "not-known-to-be",
    };
  });
  return { symbols, matings, focus };
}

/** Kids lost before their time, as the dams chosen had them. */
interface LostKids {
  readonly key: string;
  readonly id: string;
  readonly on: Day;
  readonly parents: Pick<Born, "dam" | "sires">;
}

function lostKids(
  born: ReadonlyMap<string, Born>,
  chosen: ReadonlySet<string>,
  symbols: Map<string, FamilySymbol>,
): readonly LostKids[] {
  return [...born].flatMap(([dam, { line }]) =>
    !chosen.has(dam)
      ? []
      : line.losses.map(({ on, sire }, i): LostKids => {
          const id = `lost ${i} ${dam}`;
          symbols.set(id, { id, kind: "lost", sex: "unsure", lines: [], years: on.slice(0, 4) });
          const known = sire !== undefined && chosen.has(sire.id);
          return {
            key: `${dam} × ${known ? sire.id : `lost ${i}`}`,
            id,
            on,
            parents: { dam, sires: known ? [{ sire, counted: undefined }] : [] },
          };
        }),
  );
}

/** A kid's symbol with the first and the last day of birth that it stands for. */
interface Span {
  readonly id: string;
  readonly from: Day | undefined;
  readonly to: Day | undefined;
}

function spanOf(symbols: ReadonlyMap<string, FamilySymbol>, id: string): Span {
  const days = (symbols.get(id)?.lines ?? []).flatMap(({ born }) => born ?? []).toSorted();
  return { id, from: days[0], to: days.at(-1) };
}

/** Kids litter by litter, the earliest first; like kids of several litters stand by themselves. */
function inLitters(spans: readonly Span[]): Pick<Mating, "litters" | "kids"> {
  const litters: Span[][] = [];
  for (const span of spans.toSorted((a, b) => ((a.from ?? "") < (b.from ?? "") ? -1 : a.from === b.from ? 0 : 1))) {
    const same = litters.findLast(([first]) => first !== undefined && isOneLitter(first, span));
    if (same === undefined) litters.push([span]);
    else same.push(span);
  }
  return {
    litters: litters.map((spansOfOne) => ({
      kids: spansOfOne.map(({ id }) => id),
      years: yearsBetween(spansOfOne.flatMap(({ from, to }) => [from ?? [], to ?? []].flat())),
    })),
    kids: litters.flat().map(({ id }) => id),
  };
}

const isOneLitter = (one: Span, other: Span): boolean => {
  const days = [one.from, one.to, other.from, other.to].flatMap((on) => on ?? []).toSorted();
  const [first] = days;
  const last = days.at(-1);
  if (first === undefined || last === undefined) return true;
  return days.length === 4 && daysFrom(first, last) <= ONE_LITTER;
};

const yearsOf = (lines: readonly HerdBookLine[]): string => yearsBetween(lines.flatMap(({ born }) => born ?? []));

/** The first year and the last, once where they are one. */
function yearsBetween(days: readonly Day[]): string {
  const years = days.map((on) => on.slice(0, 4)).toSorted();
  const [first = "", last = ""] = [years[0], years.at(-1)];
  return first === last ? first : `${first}–${last}`;
}

function unknown(
  symbols: Map<string, FamilySymbol>,
  id: string,
  sex: FamilySymbol["sex"],
  counted: Counted | undefined,
): Parent {
  symbols.set(id, { id, kind: "unknown", sex, lines: [], years: "" });
  return { symbol: id, counted };
}

/** The parents that are clear or possible, by id. */
const parentIds = ({ dam, sires }: Born): readonly string[] => [
  ...(dam === undefined ? [] : [dam]),
  ...sires.flatMap(({ sire }) => (sire === undefined ? [] : [sire.id])),
];

/** Kids of one key are drawn under one point: the same dam and the same possible sires, as likely. None: a founder. */
function matingKey(each: Born, chosen: ReadonlySet<string>): string | undefined {
  if (!parentIds(each).some((id) => chosen.has(id))) return undefined;
  const sires = each.sires.map(
    ({ sire, counted }) => `${sire?.id ?? "?"}${counted === undefined ? "" : counted.count}`,
  );
  return `${each.dam ?? "?"} × ${sires.join("/")}`;
}

/** The animals with parents that stand in the book, and without those that would make anybody their own ancestor. */
function withoutRings(lines: readonly HerdBookLine[]): ReadonlyMap<string, Born> {
  const there = new Set<string>(lines.map(({ ref }) => ref.id));
  const told = new Map<string, Born>(
    lines.map((line) => [
      line.ref.id,
      {
        line,
        dam: line.dam !== undefined && there.has(line.dam.id) ? line.dam.id : undefined,
        sires: siresShown(line.sires).filter(({ sire }) => sire === undefined || there.has(sire.id)),
      },
    ]),
  );
  const state = new Map<string, "under-way" | "done">();
  const kept = new Map<string, Born>();
  const visit = (id: string): void => {
    const each = told.get(id);
    if (each === undefined || state.has(id)) return;
    state.set(id, "under-way");
    const closesRing = new Set<string>();
    for (const parent of parentIds(each)) {
      if (state.get(parent) === "under-way") closesRing.add(parent);
      else visit(parent);
    }
    state.set(id, "done");
    kept.set(id, {
      ...each,
      dam: each.dam !== undefined && closesRing.has(each.dam) ? undefined : each.dam,
      sires: each.sires.filter(({ sire }) => sire === undefined || !closesRing.has(sire.id)),
    });
  };
  for (const { ref } of lines) visit(ref.id);
  return new Map(
    lines.flatMap(({ ref }) => {
      const each = kept.get(ref.id);
      return each === undefined ? [] : [[ref.id, each] as const];
    }),
  );
}

function relations(born: ReadonlyMap<string, Born>, who: string, generations: number): ReadonlySet<string> {
  const kidsOf = new Map<string, string[]>();
  for (const [id, each] of born)
    for (const parent of parentIds(each)) kidsOf.set(parent, [...(kidsOf.get(parent) ?? []), id]);
  const parentsOf = (id: string): readonly string[] => {
    const each = born.get(id);
    return each === undefined ? [] : parentIds(each);
  };
  const reach = (next: (id: string) => readonly string[]): Set<string> => {
    let edge: readonly string[] = born.has(who) ? [who] : [];
    const found = new Set(edge);
    for (let step = 0; step < generations; step++) {
      edge = edge.flatMap(next).filter((id) => !found.has(id));
      for (const id of edge) found.add(id);
    }
    return found;
  };
  const down = reach((id) => kidsOf.get(id) ?? []);
  const me = born.get(who);
  const siblings = [...born].filter(
    ([, each]) => me?.dam !== undefined && each.dam === me.dam && parentIds(each).join() === parentIds(me).join(),
  );
  const mates = [...down].filter((id) => id !== who).flatMap(parentsOf);
  const related = new Set([...reach(parentsOf), ...down, ...mates, ...siblings.map(([id]) => id)]);
  const lostBy = [...related].flatMap((id) => born.get(id)?.line.losses ?? []).flatMap(({ sire }) => sire?.id ?? []);
  return new Set([...related, ...lostBy.filter((id) => born.has(id))]);
}

/** What a symbol shows of an animal besides its name: two that agree look the same. */
function looksLike({ sex, where, genotype, intersex }: HerdBookLine): string {
  const said =
    genotype === undefined
      ? "?"
      : [genotype.surety, genotype.belief.PP.toFixed(2), genotype.belief.Pp.toFixed(2)].join(" ");
  return [sex, where, said, intersex].join("|");
}

/** The kids' symbols in order of birth; three or more that look alike and have no kids become one, at the first one's place. */
function likeKidsAsOne(
  kids: readonly Born[],
  around: {
    readonly symbols: Map<string, FamilySymbol>;
    readonly parents: ReadonlySet<string>;
    readonly opened: ReadonlySet<string>;
    readonly key: string;
    readonly focus: string | undefined;
  },
): readonly string[] {
  const { symbols, parents, opened, key, focus } = around;
  const alike = new Map<string, HerdBookLine[]>();
  for (const { line } of kids)
    if (!parents.has(line.ref.id) && line.ref.id !== focus)
      alike.set(looksLike(line), [...(alike.get(looksLike(line)) ?? []), line]);
  const drawn: string[] = [];
  for (const { line } of kids) {
    const like = alike.get(looksLike(line)) ?? [];
    const id = `${key} | ${looksLike(line)}`;
    if (!like.includes(line) || like.length < LIKE_KIDS || opened.has(id)) drawn.push(line.ref.id);
    else {
      symbols.delete(line.ref.id);
      if (like[0] !== line) continue;
      symbols.set(id, { id, kind: "like-kids", sex: line.sex, lines: like, years: yearsOf(like) });
      drawn.push(id);
    }
  }
  return drawn;
}
