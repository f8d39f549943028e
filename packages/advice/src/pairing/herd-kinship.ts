import { type AnimalId, type DoubtfulParentage, type ExpectedKinship, expectedKinship } from "@pollard/genetics";
import type { Situation } from "../situation.ts";

/** Who is kin to whom, as far as the record and what is believed of the sires tell. */
export interface HerdKinship {
  readonly rows: ReadonlyMap<AnimalId, DoubtfulParentage>;
  readonly kin: ExpectedKinship;
}

/** Chance of a buck nobody wrote down from which he counts as the sire; below it the record's bucks share the kid. */
const STRANGER = 0.5;

/**
 * The herd's kinship. Of several possible sires each counts by what is believed of him today, and the error rate of herd
 * books is left aside: it would make every pair a hair less kin than its pedigree says.
 */
export function herdKinship({ herd, beliefs }: Situation): HerdKinship {
  const rows = new Map<AnimalId, DoubtfulParentage>();
  for (const { id, dam } of herd.animals.values()) {
    const believed = beliefs.sires(id);
    const stranger = believed.find(([sire]) => sire === undefined)?.[1] ?? 0;
    const named = believed.filter(([sire]) => sire !== undefined);
    const total = named.reduce((sum, [, p]) => sum + p, 0);
    const sires =
      stranger >= STRANGER || total === 0
        ? []
        : named.filter(([, p]) => p > 0).map(([sire, p]) => ({ sire, weight: p / total }));
    rows.set(id, { id, dam, sires });
  }
  return { rows, kin: expectedKinship([...rows.values()]) };
}
