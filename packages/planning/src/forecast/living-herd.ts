/** An animal of a simulated herd. */
export interface LivingAnimal {
  /** Place in `POLLED_GENOTYPES`. */
  readonly genotype: number;
  /** Seasons in which it has been bred. */
  readonly seasons: number;
  /** Whether it can have kids at all. A keeper finds out by none coming. */
  readonly fertile: "yes" | "no";
}

/**
 * Kinship of the animals that a simulated herd is bred from: of two genes drawn from two animals, the chance that they
 * are copies of one.
 *
 * Kept for the living only: a kid's kinship with anybody is the mean of its parents', so nothing more of the past is needed.
 *
 * Source: [wright1922]; exact given the kinships at the start.
 */
export interface Kin {
  readonly count: number;
  readonly table: Float64Array;
}

/** Animals that take part in the next year: who stays, by place, then the kids kept, then animals from elsewhere. */
export interface NextYear {
  readonly staying: readonly number[];
  readonly kept: readonly { readonly sire: number; readonly dam: number }[];
  readonly bought: number;
}

/** The kinship of next year's animals, in the order named there. */
export function kinNextYear(kin: Kin, { staying, kept, bought }: NextYear): Kin {
  const before = kin.count + kept.length;
  const wide = new Float64Array(before * before);
  for (let i = 0; i < kin.count; i++) wide.set(kin.table.subarray(i * kin.count, (i + 1) * kin.count), i * before);
  kept.forEach(({ sire, dam }, k) => {
    const self = kin.count + k;
    for (let other = 0; other < self; other++) {
      const f = ((wide[sire * before + other] ?? 0) + (wide[dam * before + other] ?? 0)) / 2;
      wide[self * before + other] = f;
      wide[other * before + self] = f;
    }
    wide[self * before + self] = (1 + (wide[sire * before + dam] ?? 0)) / 2;
  });
  const from = [...staying, ...kept.map((_, k) => kin.count + k)];
  const count = from.length + bought;
  const table = new Float64Array(count * count);
  from.forEach((a, i) => {
    from.forEach((b, j) => {
      table[i * count + j] = wide[a * before + b] ?? 0;
    });
  });
  for (let i = from.length; i < count; i++) table[i * count + i] = 0.5;
  return { count, table };
}

/** Kinship of two animals by their places. */
export const kinOf = ({ count, table }: Kin, a: number, b: number): number => table[a * count + b] ?? 0;

/** Mean kinship of all animals with each other, themselves included. */
export function meanKin({ count, table }: Kin): number {
  return count === 0 ? 0 : table.reduce((a, b) => a + b, 0) / (count * count);
}
