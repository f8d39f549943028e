import { Bug, present } from "@pollard/base";
import type { AnimalId } from "../vocabulary.ts";
import type { SireCandidate } from "../pedigree/pedigree-problem.ts";

/** One animal whose sire may be one of several. Weights are chances and sum to 1; a share for an unknown buck is allowed. */
export interface DoubtfulParentage {
  readonly id: AnimalId;
  readonly dam: AnimalId | undefined;
  readonly sires: readonly SireCandidate[];
}

/** Who sired two litter mates, both together: a litter has often one sire. Chances sum to 1, and agree with the mates' rows. */
export interface MatesSires {
  readonly mates: readonly [AnimalId, AnimalId];
  readonly ways: readonly {
    readonly sires: readonly [AnimalId | undefined, AnimalId | undefined];
    readonly chance: number;
  }[];
}

/** Expected kinships of a herd in which sires are in doubt. */
export interface ExpectedKinship {
  kinship(a: AnimalId, b: AnimalId): number;
  /** Expected inbreeding of an animal: its dam's mean kinship to the candidates. */
  inbreeding(id: AnimalId): number;
}

/**
 * Kinships where sires are in doubt: the mean over who the sires may have been, kid by kid; of the litter mates named, both
 * together.
 *
 * Assumes: which candidate sired one kid tells nothing of another's, but for those mates. An unknown buck is another one
 *          each time. Parents stand among the rows and no animal is its own ancestor; a parent without a row is an unrelated
 *          founder.
 * Cost:    pairs asked for and the pairs of ancestors they lead to; remembered between questions. For herds, not for the
 *          book of a breed.
 * Errors:  Bug for an animal that is not among the rows, or is its own ancestor.
 * Source:  [henderson1988] (average numerator relationship); rules GE-23, GE-74.
 */
export function expectedKinship(
  rows: readonly DoubtfulParentage[],
  mates: readonly MatesSires[] = [],
): ExpectedKinship {
  const byId = new Map(rows.map((r) => [r.id, r]));
  const ofMates = new Map(
    mates.flatMap((m) => [m.mates, m.mates.toReversed()].map((pair) => [pair.join("\n"), m] as const)),
  );
  const ages = agesOf(byId);
  const known = new Map<string, number>();
  const kinship = (a: AnimalId, b: AnimalId): number => {
    const [young, old] = present(ages.get(a), a) > present(ages.get(b), b) ? [a, b] : [b, a];
    const key = `${young}\n${old}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const together = ofMates.get(key);
    const value =
      young === old
        ? (1 + inbreeding(young)) / 2
        : together
          ? betweenMates(together)
          : throughParents(young, (parent) => kinship(parent, old));
    known.set(key, value);
    return value;
  };
  /** Dam with dam, dam with either's sire, and sire with sire as they go together. */
  const betweenMates = ({ mates: [a, b], ways }: MatesSires): number => {
    const isKnown = (id: AnimalId | undefined): id is AnimalId => id !== undefined && byId.has(id);
    const between = (x: AnimalId | undefined, y: AnimalId | undefined): number =>
      isKnown(x) && isKnown(y) ? kinship(x, y) : 0;
    const [damA, damB] = [present(byId.get(a), a).dam, present(byId.get(b), b).dam];
    return ways.reduce(
      (sum, { sires: [x, y], chance }) =>
        sum + (chance * (between(damA, damB) + between(damA, y) + between(x, damB) + between(x, y))) / 4,
      0,
    );
  };
  const throughParents = (id: AnimalId, to: (parent: AnimalId) => number): number => {
    const { dam, sires } = present(byId.get(id), id);
    const bySire = sires.reduce(
      (sum, { sire, weight }) => sum + (sire === undefined || !byId.has(sire) ? 0 : weight * to(sire)),
      0,
    );
    return (bySire + (dam === undefined || !byId.has(dam) ? 0 : to(dam))) / 2;
  };
  const inbreeding = (id: AnimalId): number => {
    const { dam, sires } = present(byId.get(id), id);
    if (dam === undefined || !byId.has(dam)) return 0;
    return sires.reduce(
      (sum, { sire, weight }) => sum + (sire === undefined || !byId.has(sire) ? 0 : weight * kinship(sire, dam)),
      0,
    );
  };
  return { kinship, inbreeding };
}

/** A number per animal that is larger than those of its possible parents. */
function agesOf(byId: ReadonlyMap<AnimalId, DoubtfulParentage>): ReadonlyMap<AnimalId, number> {
  const ages = new Map<AnimalId, number>();
  const open = new Set<AnimalId>(); // so that a ring, which is not allowed here, ends in a Bug and not in a loop
  for (const start of byId.keys()) {
    const line = [start];
    for (let id = line.at(-1); id !== undefined; id = line.at(-1)) {
      const { dam, sires } = present(byId.get(id), id);
      const next = [dam, ...sires.map((s) => s.sire)].find((p) => p !== undefined && byId.has(p) && !ages.has(p));
      if (next !== undefined && open.has(next)) throw new Bug(`its own ancestor: ${next}`);
      open.add(id);
      if (next !== undefined) line.push(next);
      else {
        if (!ages.has(id)) ages.set(id, ages.size);
        line.pop();
      }
    }
  }
  return ages;
}
