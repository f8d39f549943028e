import { present } from "@pollard/base";
import { type ContractionTree, contractionTree } from "../inference/contraction-tree.ts";
import { logSumOf } from "../inference/propagation.ts";
import { mayHold } from "../inference/support.ts";
import type { Locus } from "../locus.ts";
import type { AnimalId } from "../vocabulary.ts";
import { type GenotypeNetwork, genotypeNetwork } from "../genotypes/genotype-network.ts";
import { ownEvidence } from "../genotypes/own-evidence.ts";
import { stateSpaces } from "../genotypes/state-space.ts";
import { isSurelySire, type SoundMember } from "../pedigree/sound-problem.ts";
import { irreducible, smallest } from "./smallest-part.ts";

/** A parentage that takes part in a conflict. Of a doubtful sire all the candidates together are one link. */
export interface ParentLink {
  readonly kid: AnimalId;
  readonly parent: "dam" | "sire";
}

/**
 * Facts and parentages that cannot all be true, although any one left out, the rest can.
 *
 * Units: none. At least one of `facts` and `links` is wrong, or the locus is not what we think it is.
 */
export interface Conflict {
  /** Ids of the records that contradict each other. */
  readonly facts: readonly string[];
  readonly links: readonly ParentLink[];
  /** The animals the facts and links are about. */
  readonly animals: readonly AnimalId[];
  /** Those of `facts` that were left out so that everyone else keeps an answer. */
  readonly setAside: readonly string[];
}

/** Beyond this many contradictions in one family, each further one is left out whole. */
const MOST_WEIGHED_CONFLICTS = 12;
/** Equally short ways of setting facts aside that are compared. */
const MOST_COMPARED = 64;
/** What no fact can do alone takes two. */
const FEWEST = 2;
/** Cells allowed for one question about a part of a family. */
const QUESTION_CELLS = 1 << 20;

/**
 * The contradictions in one family, and the fewest facts that must be set aside to be rid of them all.
 *
 * Only facts that rule something out take part. Those that leave their own animal nothing come first; of the others each
 * contradiction is a smallest set of what is left. The sets found so far are hit with as few facts as possible, and what is
 * left is tried again until it holds. Among equally short ways the one that leaves the most probable rest is taken.
 *
 * Shape:   empty where the facts hold, as far as can be told: in a family too entangled for the exact way contradictions
 *          between many tables may be overlooked.
 * Source:  [junker2004] (irreducible sets by division), [reiter1987] (fewest to set aside: hitting sets); rules GE-5, GE-70.
 */
export function resolveConflicts(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
): readonly Conflict[] {
  const all = hardFacts(members, family);
  const kept = (aside: ReadonlySet<string>): readonly string[] => all.filter((f) => !aside.has(f));
  const holds = (facts: readonly string[]): boolean => factsHold(locus, members, family, new Set(facts));
  const sets: (readonly string[])[] = impossibleAlone(locus, members, family, all).map((fact) => [fact]);
  const whole = new Set<string>();
  for (;;) {
    const ways = shortestWays(sets.slice(0, MOST_WEIGHED_CONFLICTS)).map((way) => new Set([...way, ...whole]));
    const fitting = ways.filter((way) => holds(kept(way)));
    if (fitting.length > 0) {
      const way = likeliest(fitting, (aside) => restWeight(locus, members, family, new Set(sets.flat()), aside));
      return sets.map((facts) => ({
        ...explain(locus, members, family, facts),
        setAside: facts.filter((f) => way.has(f)),
      }));
    }
    const found = smallest(kept(present(ways[0], "a way to set facts aside")), holds, FEWEST);
    sets.push(found);
    if (sets.length > MOST_WEIGHED_CONFLICTS) for (const f of found) whole.add(f);
  }
}

/** The facts that give some genotype no chance at all, in order. */
export const hardFacts = (members: readonly SoundMember[], family: readonly number[]): readonly string[] => [
  ...new Set(
    family.flatMap((i) =>
      memberAt(members, i)
        .evidence.filter((e) => e.likelihood.XX.includes(0) || e.likelihood.XY.includes(0))
        .map((e) => e.fact),
    ),
  ),
];

/** Facts that leave the animal they are about no genotype and sex at all, whatever its kin. */
function impossibleAlone(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  hard: readonly string[],
): readonly string[] {
  const spaces = stateSpaces(locus);
  const leavesNothing = new Set(
    family.flatMap((i) => {
      const { xx, evidence } = memberAt(members, i);
      return evidence
        .filter((e) => ownEvidence(spaces.sexed, xx, [e]).every((log) => log === Number.NEGATIVE_INFINITY))
        .map((e) => e.fact);
    }),
  );
  return hard.filter((fact) => leavesNothing.has(fact));
}

const withFacts = (m: SoundMember, kept: (fact: string) => boolean): SoundMember => ({
  ...m,
  evidence: m.evidence.filter((e) => kept(e.fact)),
});

function likeliest<T>(ways: readonly T[], weigh: (way: T) => number): T {
  const only = present(ways[0], "a way to set facts aside");
  if (ways.length === 1) return only;
  return ways.map((way) => ({ way, weight: weigh(way) })).reduce((a, b) => (b.weight > a.weight ? b : a)).way;
}

/** Log weight of all that is known of the animals in conflict, with some facts set aside; 0 if it cannot be had. */
function restWeight(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  contested: ReadonlySet<string>,
  aside: ReadonlySet<string>,
): number {
  const line = lineOf(members, bearersOf(members, family, contested), family);
  const used = members.map((m) => withFacts(m, (f) => !aside.has(f)));
  const network = genotypeNetwork(locus, used, line);
  const tree = treeOf(network);
  return tree ? logSumOf(tree, network.graph) : 0;
}

const bearersOf = (members: readonly SoundMember[], family: readonly number[], facts: ReadonlySet<string>) =>
  family.filter((i) => memberAt(members, i).evidence.some((e) => facts.has(e.fact)));

/** The animals, those of their kids whose sire is in doubt, and all ancestors: who can take part in a contradiction. */
function lineOf(
  members: readonly SoundMember[],
  from: readonly number[],
  family: readonly number[],
): readonly number[] {
  const bearers = new Set(from);
  const kids = family.filter((i) => {
    const { sires } = memberAt(members, i);
    return sires.length > 1 && sires.some((s) => bearers.has(s.sire));
  });
  return ancestry(members, [...from, ...kids]);
}

function factsHold(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  facts: ReadonlySet<string>,
): boolean {
  const line = lineOf(members, bearersOf(members, family, facts), family);
  const used = members.slice();
  for (const i of line) used[i] = withFacts(memberAt(members, i), (f) => facts.has(f));
  return networkHolds(genotypeNetwork(locus, used, line));
}

function networkHolds(network: GenotypeNetwork): boolean {
  const tree = treeOf(network);
  return tree ? logSumOf(tree, network.graph) > Number.NEGATIVE_INFINITY : mayHold(network.graph);
}

const treeOf = ({ graph }: GenotypeNetwork): ContractionTree | undefined =>
  contractionTree(
    graph.sizes,
    graph.factors.map((f) => f.scope),
    QUESTION_CELLS,
  );

const memberAt = (members: readonly SoundMember[], i: number): SoundMember => present(members[i], "a member");

/** Every shortest choice of facts that takes at least one from each set; at most `MOST_COMPARED` of them. */
export function shortestWays(sets: readonly (readonly string[])[]): readonly ReadonlySet<string>[] {
  for (let length = 0; ; length++) {
    const ways = new Map<string, ReadonlySet<string>>();
    const extend = (way: readonly string[]): void => {
      if (ways.size >= MOST_COMPARED) return;
      const open = sets.find((s) => !s.some((f) => way.includes(f)));
      if (!open) ways.set([...way].sort().join("\n"), new Set(way));
      else if (way.length < length) for (const f of open.toReversed()) extend([...way, f]);
    };
    extend([]);
    if (ways.size > 0) return [...ways.values()];
  }
}

/** The parentages without which the facts would not contradict each other, and the animals concerned. */
function explain(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  facts: readonly string[],
): Omit<Conflict, "setAside"> {
  const wanted = new Set(facts);
  const carriers = bearersOf(members, family, wanted);
  // Their kids too: having kidded, or sired, says what sex an animal is.
  const bearers = new Set(carriers);
  const kids = family.filter((i) => {
    const { dam, sires } = memberAt(members, i);
    return bearers.has(dam) || sires.some((s) => bearers.has(s.sire));
  });
  const line = ancestry(members, [...carriers, ...kids]);
  const links = line.flatMap((i): readonly Link[] => [
    ...(memberAt(members, i).dam >= 0 ? [{ kid: i, parent: "dam" } as const] : []),
    ...(memberAt(members, i).sires.length > 0 ? [{ kid: i, parent: "sire" } as const] : []),
  ]);
  const needed = irreducible(links, (kept) => isPossible(locus, members, line, wanted, kept));
  const idOf = (i: number): AnimalId => memberAt(members, i).id;
  const animals = new Set([...carriers.map(idOf), ...needed.map((l) => idOf(l.kid))]);
  return { facts, links: needed.map((l) => ({ kid: idOf(l.kid), parent: l.parent })), animals: [...animals] };
}

interface Link {
  readonly kid: number;
  readonly parent: "dam" | "sire";
}

/** The animals and all their ancestors, in order of position. */
function ancestry(members: readonly SoundMember[], from: readonly number[]): readonly number[] {
  const seen = new Set<number>();
  const open = [...from];
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    if (seen.has(i)) continue;
    seen.add(i);
    const { dam, sires } = memberAt(members, i);
    open.push(...[dam, ...sires.map((s) => s.sire)].filter((p) => p >= 0));
  }
  return [...seen].sort((a, b) => a - b);
}

function isPossible(
  locus: Locus,
  members: readonly SoundMember[],
  line: readonly number[],
  facts: ReadonlySet<string>,
  kept: readonly Link[],
): boolean {
  const has = new Set(kept.map((l) => `${l.parent} ${l.kid}`));
  const cutMembers = members.slice();
  const roles = new Map<number, number>();
  for (const i of line) {
    const m = memberAt(members, i);
    const dam = has.has(`dam ${i}`) ? m.dam : -1;
    const sires = has.has(`sire ${i}`) ? m.sires : [];
    for (const s of sires) if (isSurelySire(s)) roles.set(s.sire, 0);
    if (dam >= 0) roles.set(dam, 1);
    cutMembers[i] = { ...m, dam, sires, evidence: m.evidence.filter((e) => facts.has(e.fact)) };
  }
  for (const i of line) {
    const m = memberAt(cutMembers, i);
    cutMembers[i] = { ...m, xx: roles.get(i) ?? m.priorXx };
  }
  return networkHolds(genotypeNetwork(locus, cutMembers, line));
}
