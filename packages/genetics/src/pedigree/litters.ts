import { present } from "@pollard/base";
import type { BirthLitter } from "./pedigree-problem.ts";

/** What counts of an animal here: its possible sires, by position, with weights that sum to 1, and its litter. */
interface Born {
  readonly sires: readonly { readonly sire: number; readonly weight: number }[];
  readonly litter: BirthLitter | undefined;
}

/** Kids of doubtful sire who are asked about together: litter mates with the same possible sires, or one kid alone. */
export interface Litter {
  /** Positions of its kids. */
  readonly kids: readonly number[];
  /** Chance that every kid draws its own sire; else one is drawn for all. 1 for a kid alone. */
  readonly mixed: number;
  /** Of the possible sires, in the order of each kid's `sires`; sum 1. */
  readonly weights: readonly number[];
}

/**
 * The kids of doubtful sire of a family, by litters; mates whose possible sires differ stand alone.
 *
 * Shape: every such kid once, litters in the order of their first kid.
 */
export function littersOf(members: readonly Born[], family: readonly number[]): readonly Litter[] {
  const together = new Map<string, number[]>();
  const found: { readonly kids: number[]; readonly mixed: number; readonly weights: readonly number[] }[] = [];
  for (const i of family) {
    const { sires, litter } = present(members[i], "a member");
    if (sires.length < 2) continue;
    const key =
      litter && `${litter.id}\n${litter.mixed}\n${sires.map(({ sire, weight }) => `${sire} ${weight}`).join()}`;
    const mates = key === undefined ? undefined : together.get(key);
    if (mates) {
      mates.push(i);
      continue;
    }
    const kids = [i];
    if (key !== undefined) together.set(key, kids);
    found.push({ kids, mixed: litter?.mixed ?? 1, weights: sires.map(({ weight }) => weight) });
  }
  return found.map((each) => (each.kids.length > 1 ? each : { ...each, mixed: 1 }));
}

/** Whether the kids of a litter know something of each other's sires. */
export const hangsTogether = ({ kids, mixed }: Litter): boolean => kids.length > 1 && mixed < 1;

/** Per kid: how well each possible sire explains what is known of that kid alone; only ratios matter. */
export type SaidByKid = readonly (readonly number[])[];

/**
 * The chances of each kid's sires from what is known of every kid of its litter.
 *
 * Shape: kid by kid, each summing to 1; `undefined` where nobody can have been the sires.
 */
export function siresOfLitter(litter: Litter, said: SaidByKid): readonly (readonly number[])[] | undefined {
  const found = litter.kids.map((_, at) =>
    normalised(throughMates(litter, said, at).map((w, k) => w * (said[at]?.[k] ?? 0))),
  );
  return found.every((chances) => chances !== undefined) ? found : undefined;
}

/** Rounds after which there is an end, and the change of a ratio at which it is settled. */
const MOST_ROUNDS = 2000;
const SETTLED = 1e-13;

/**
 * What is known of each kid alone, from the chances of each kid's sires: `siresOfLitter` the other way about.
 *
 * Kid after kid is given what its chances ask for, until nothing changes.
 *
 * Assumes: what is known of one kid tells of its mates' sires through its own sire only. Where it also does through a parent
 *          whose genotype is open, what is found is the nearest that comes to the same chances.
 * Source:  [deming-stephan1940] (a table fitted to its margins).
 */
export function saidOfLitter(litter: Litter, chances: SaidByKid): SaidByKid {
  let said: SaidByKid = chances.map((row) => row.map(() => 1));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let change = 0;
    for (const at of litter.kids.keys()) {
      const before = present(said[at], "a kid");
      const through = throughMates(litter, said, at);
      const asked = through.map((w, k) => (w > 0 ? (chances[at]?.[k] ?? 0) / w : 0));
      const top = Math.max(...asked);
      const fresh = top > 0 ? asked.map((x) => x / top) : before;
      change = fresh.reduce((most, x, k) => Math.max(most, Math.abs(x - (before[k] ?? 0))), change);
      said = said.with(at, fresh);
    }
    if (change < SETTLED) break;
  }
  return said;
}

/** What two tell of each kid, both together. */
export const productsOf = (a: SaidByKid, b: SaidByKid): SaidByKid =>
  a.map((row, kid) => row.map((x, k) => x * (b[kid]?.[k] ?? 1)));

/** What is told of each kid beside what was known before; nothing of a sire who was out of the question before. */
export const ratiosBetween = (all: SaidByKid, before: SaidByKid): SaidByKid =>
  all.map((row, kid) =>
    row.map((x, k) => {
      const known = before[kid]?.[k] ?? 1;
      return known > 0 ? x / known : 0;
    }),
  );

/** Of each possible sire of a kid: his weight with what the mates say, without what is known of the kid itself. */
function throughMates({ kids, mixed, weights }: Litter, said: SaidByKid, at: number): readonly number[] {
  const mates = [...kids.keys()].filter((mate) => mate !== at);
  const apart = mates.reduce((p, mate) => p * weights.reduce((sum, w, k) => sum + w * (said[mate]?.[k] ?? 0), 0), 1);
  return weights.map((w, k) => {
    const shared = mates.reduce((p, mate) => p * (said[mate]?.[k] ?? 0), 1);
    return w * ((1 - mixed) * shared + mixed * apart);
  });
}

function normalised(weights: readonly number[]): readonly number[] | undefined {
  const total = weights.reduce((a, b) => a + b, 0);
  return total > 0 ? weights.map((w) => w / total) : undefined;
}
