import {
  type AnimalId,
  type DoubtfulParentage,
  type ExpectedKinship,
  expectedKinship,
  type MatesSires,
} from "@pollard/genetics";
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
 * books is left aside: it would make every pair a hair less kin than its pedigree says. Litter mates are as near as it is
 * believed that they have one sire.
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
  return { rows, kin: expectedKinship([...rows.values()], matesOf(herd, beliefs, rows)) };
}

/** Litter mates of whose sires several may be meant, pair by pair. */
function matesOf(
  { kiddings }: Situation["herd"],
  beliefs: Situation["beliefs"],
  rows: ReadonlyMap<AnimalId, DoubtfulParentage>,
): readonly MatesSires[] {
  const isOpen = (id: AnimalId): boolean => (rows.get(id)?.sires.length ?? 0) > 1;
  return kiddings.flatMap(({ kids }) => {
    const open = kids.filter(isOpen);
    return open.flatMap((a, i) =>
      open.slice(i + 1).flatMap((b): readonly MatesSires[] => {
        const ways = beliefs
          .siresTogether([a, b])
          .flatMap(({ sires: [x, y], chance }) =>
            x === undefined || y === undefined ? [] : [{ sires: [x, y] as const, chance }],
          );
        const total = ways.reduce((sum, { chance }) => sum + chance, 0);
        if (total === 0) return [];
        return [{ mates: [a, b], ways: ways.map(({ sires, chance }) => ({ sires, chance: chance / total })) }];
      }),
    );
  });
}
