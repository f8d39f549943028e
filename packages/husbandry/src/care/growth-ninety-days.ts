import type { Sourced } from "@pollard/base";
import type { KidSex } from "../kid-sex.ts";

const browning = <T>(value: T): Sourced<T> => ({ value, source: "browning2007", checked: "read-in-source" });

/** What a weight at 90 days is multiplied by, so that kids of different litters, dams and sexes can be set side by side. */
export const NINETY_DAY_FACTORS = browning({
  /** By kids born together, then by kids raised together. */
  raised: { 1: { 1: 1 }, 2: { 1: 1.04, 2: 1.18 }, 3: { 1: 1.08, 2: 1.23, 3: 1.27 } },
  /** By the dam's age in whole years; older dams have 1. */
  damYears: { 1: 1.1, 2: 1.09 },
  sex: { buck: 1, doe: 1.11, wether: 1.08 },
} as const);

/** Ages between which a weight may stand for the one at 90 days. */
export const NINETY_DAY_AGES = { value: { from: 60, to: 120 }, source: "judgement", checked: "judgement" } as const;

/** What the correction needs to know of a kid. */
export interface NinetyDayKid {
  readonly sex: KidSex;
  readonly bornTogether: number;
  readonly raisedTogether: number;
  readonly damYears: number | undefined;
  readonly birthKg: number;
}

/**
 * The weight at 90 days that a buckling raised alone by a grown dam would have had in this kid's place, kg.
 *
 * Units:   kg; age in days. The weight is first carried to 90 days along the gain since birth.
 * Shape:   `undefined` outside 60 to 120 days, and for a kid whose sex could not be told. Litters above three count as
 *          three.
 * Assumes: the gain since birth was even. Good for choosing among kids of one herd and year, not for selling by.
 * Source:  [browning2007], an adaptation in a textbook; rule HD-43.
 *
 * @example
 * ninetyDayKg({ sex: "doe", bornTogether: 2, raisedTogether: 2, damYears: 2, birthKg: 3 }, 90, 15); // 21.4…
 */
export function ninetyDayKg(kid: NinetyDayKid, ageDays: number, kg: number): number | undefined {
  const { from, to } = NINETY_DAY_AGES.value;
  const { sex } = kid;
  if (ageDays < from || ageDays > to || sex === "intersex" || sex === "unsure") return undefined;
  const { raised, damYears, sex: bySex } = NINETY_DAY_FACTORS.value;
  const born = Math.min(3, Math.max(1, kid.bornTogether)) as 1 | 2 | 3;
  const together = Math.min(born, Math.max(1, kid.raisedTogether));
  const byLitter = (raised[born] as Readonly<Record<number, number>>)[together] ?? 1;
  const byDam = (damYears as Readonly<Record<number, number>>)[kid.damYears ?? 0] ?? 1;
  const at90 = kid.birthKg + ((kg - kid.birthKg) / ageDays) * 90;
  return at90 * byLitter * byDam * bySex[sex];
}
