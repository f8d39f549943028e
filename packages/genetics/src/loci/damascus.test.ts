import { describe, expect, test } from "vitest";
import { countInterval } from "../segregation/binomial.ts";
import { POLLED_GENOTYPES, type PolledGenotype } from "../vocabulary.ts";
import { POLLED } from "./polled.ts";
import { sexLookLikelihood } from "./polled-evidence.ts";
import { kidOfIndependent } from "./segregation.ts";

/**
 * Shares printed for matings of Damascus goats, in percent [hancock-louca1975]; polled parents are taken for Pp, since PP
 * does are sterile and PP bucks were few: a herd in which every fourth kid of polled parents is horned. The share horned from
 * one horned parent is printed once for both ways round. Females are what males and intersex kids leave.
 */
const PRINTED = [
  { parents: ["Pp", "Pp"], horned: 26.8, male: 53.8, intersex: 6.2 },
  { parents: ["Pp", "pp"], horned: 50.3, male: 52.4, intersex: 0.3 },
  { parents: ["pp", "Pp"], horned: 50.3, male: 60.2, intersex: 0.0 },
  { parents: ["pp", "pp"], horned: 100, male: 54.0, intersex: 0.0 },
] as const satisfies readonly { parents: readonly [PolledGenotype, PolledGenotype]; [share: string]: unknown }[];

/** Kids in all, and a quarter of them, one for each mating. How many each mating had is not in the summary that was read. */
const KIDS = 3594;
const QUARTER = Math.round(KIDS / 4);
/** Steps in which sample sizes are tried. */
const STEP = 25;
/** The share of males among kids of two horned parents, where nothing is reversed: the herd's own sex ratio. */
const XY = 0.54;
/**
 * Shares that figures of the model were taken from, and that prove nothing: the half of the reversed kids that is recognised
 * (intersex of the first row), the floor of intersex kids (second row), the sex ratio (last row).
 */
const FITTED = ["intersex of Pp × Pp", "intersex of Pp × pp", "does of pp × pp"];

const certain = (g: PolledGenotype) => POLLED_GENOTYPES.map((x) => (x === g ? 1 : 0));

/** What the model says of a mating's kids: shares horned, and taken at birth for intersex and for does. */
function expected([sire, dam]: readonly [PolledGenotype, PolledGenotype]) {
  const kid = kidOfIndependent(POLLED, certain(sire), certain(dam));
  const taken = (look: "intersex" | "doe" | "buck") =>
    kid.reduce((sum, p, g) => {
      const { XX, XY: male } = sexLookLikelihood(look);
      return sum + p * ((1 - XY) * (XX[g] ?? 0) + XY * (male[g] ?? 0));
    }, 0);
  return { horned: kid[2] ?? 0, intersex: taken("intersex"), male: taken("buck"), female: taken("doe") };
}

const SHARES = PRINTED.flatMap(({ parents, horned, male, intersex }) => {
  const model = expected(parents);
  const mating = parents.join(" × ");
  return [
    { what: `horned of ${mating}`, mating, printed: horned, share: model.horned },
    { what: `intersex of ${mating}`, mating, printed: intersex, share: model.intersex },
    {
      what: `does of ${mating}`,
      mating,
      printed: Math.round(1000 - 10 * male - 10 * intersex) / 10,
      share: model.female,
    },
  ];
});
const OUTSIDE = SHARES.filter(({ what }) => !FITTED.includes(what));

/** Does a printed share lie within what 95 in 100 such samples would show, had the mating so many kids? */
function isWithin({ printed, share }: { readonly printed: number; readonly share: number }, kids: number): boolean {
  const { low, high } = countInterval(kids, share, 0.95);
  const count = Math.round((kids * printed) / 100);
  return low <= count && count <= high;
}

/** The most kids at which a share still lies within: where the model is a little off, a larger sample shows it. */
const mostKids = (of: { readonly printed: number; readonly share: number }): number =>
  Array.from({ length: Math.floor(KIDS / STEP) }, (_, n) => KIDS - n * STEP).find((kids) => isWithin(of, kids)) ?? 0;

/** The most kids each mating can have had for all its shares to lie within. */
const roomOf = (shares: typeof SHARES): readonly number[] =>
  [...new Set(shares.map(({ mating }) => mating))].map((mating) =>
    Math.min(...shares.filter((s) => s.mating === mating).map(mostKids)),
  );

describe("published", () => {
  test.each(OUTSIDE.filter(({ what }) => what !== "does of pp × Pp"))(
    "[GE-14] $what, $printed % in print, was not used to fit: within what the model leaves to chance, a quarter of all kids each",
    (share) => {
      expect(isWithin(share, QUARTER)).toBe(true);
    },
  );

  test("[GE-14] the 3,594 kids can be split among the matings so that all twelve shares lie within", () => {
    expect(roomOf(SHARES).reduce((a, b) => a + b, 0)).toBeGreaterThanOrEqual(KIDS);
  });

  test("[GE-14] 60.2 % bucks from horned × polled fits only a small sample: more than 300 kids, and the model is wrong there", () => {
    const odd = SHARES.filter(({ what }) => what === "does of pp × Pp");
    expect(odd.map((share) => isWithin(share, 200))).toEqual([true]);
    expect(odd.flatMap((share) => [300, 600, QUARTER].map((kids) => isWithin(share, kids)))).toEqual([
      false,
      false,
      false,
    ]);
  });

  test("[GE-14] no split of the kids saves a model in which every sex-reversed kid is seen, or none", () => {
    const [first] = PRINTED;
    for (const intersex of [0.25 * (1 - XY), 0]) {
      const kept = SHARES.map((s) => (s.what === "intersex of Pp × Pp" ? { ...s, share: intersex } : s));
      const room = roomOf(kept);
      // What is left for the mating of two polled parents is less than a tenth of the kids.
      expect([first.parents, (room[0] ?? 0) < KIDS / 10]).toEqual([first.parents, true]);
    }
  });
});
