import { Bug, present } from "@pollard/base";
import type { AnimalId } from "../vocabulary.ts";
import type { SireCandidate } from "../pedigree/pedigree-problem.ts";

/** One animal whose sire may be one of several. Weights are chances and sum to 1; a share for an unknown buck is allowed. */
export interface DoubtfulParentage {
  readonly id: AnimalId;
  readonly dam: AnimalId | undefined;
  readonly sires: readonly SireCandidate[];
}

/** Expected kinships of a herd in which sires are in doubt. */
export interface ExpectedKinship {
  kinship(a: AnimalId, b: AnimalId): number;
  /** Expected inbreeding of an animal: its dam's mean kinship to the candidates. */
  inbreeding(id: AnimalId): number;
}

/**
 * Kinships where sires are in doubt: the mean over who the sires may have been, kid by kid.
 *
 * Assumes: which candidate sired one kid tells nothing of another's (for litter mates it does: name the pair's sire there
 *          for both, or average over whole pedigrees). Parents stand among the rows and no animal is its own ancestor;
 *          a parent without a row is an unrelated founder.
 * Cost:    pairs asked for and the pairs of ancestors they lead to; remembered between questions. For herds, not for the
 *          book of a breed.
 * Errors:  Bug for an animal that is not among the rows, or is its own ancestor.
 * Source:  [henderson1988] (average numerator relationship); rule GE-23.
 */
export function expectedKinship(rows: readonly DoubtfulParentage[]): ExpectedKinship {
  const byId = new Map(rows.map((r) => [r.id, r]));
  const ages = agesOf(byId);
  const known = new Map<string, number>();
  const kinship = (a: AnimalId, b: AnimalId): number => {
    const [young, old] = present(ages.get(a), a) > present(ages.get(b), b) ? [a, b] : [b, a];
    const key = `${young}\n${old}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = young === old ? (1 + inbreeding(young)) / 2 : throughParents(young, (parent) => kinship(parent, old));
    known.set(key, value);
    return value;
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
