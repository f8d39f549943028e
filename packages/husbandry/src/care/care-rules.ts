import type { Sourced } from "@pollard/base";

/** From and to, in whole days from what a task counts from; both included. Before it when negative. */
export interface CareDays {
  readonly from: number;
  readonly by: number;
  /** Day after which nobody is reminded any more: it is too late, or no longer this task. */
  readonly until: number;
}

/**
 * One task of care.
 *
 * `who`: which animals have it. `from`: what its days count from: the day a doe is due, was last served, has kidded, a kid's
 * birth, or the day on which an earlier task was done.
 * `kind`: `do` = the keeper's own hands; `ask-vet` = the vet says whether and with what; `check-law` = look up what holds
 * where the goats are. No task holds a dose, ever.
 * `default`: whether it is on until the keeper or the vet says otherwise; what depends on the region is off.
 */
export interface CareRule {
  readonly code: string;
  readonly who: "doe-in-kid" | "served-doe" | "doe-kidded" | "kid" | "buckling" | "doeling";
  readonly from: "due" | "served" | "kidded" | "birth" | "earlier-task";
  readonly after?: string;
  /** Done before this begins, however wide the days are in which a doe may kid. */
  readonly before?: "watching";
  readonly days: Sourced<CareDays>;
  readonly kind: "do" | "ask-vet" | "check-law";
  readonly default: "on" | "off";
}

const read = (source: string, from: number, by: number, until: number): Sourced<CareDays> => ({
  value: { from, by, until },
  source,
  checked: "read-in-source",
});
const usual = (from: number, by: number, until: number): Sourced<CareDays> => ({
  value: { from, by, until },
  source: "common-practice",
  checked: "common-practice",
});

/**
 * The tasks of a season, in its order. Where a source gives one day ("about 30 days before") the days on either side are
 * our judgement, and so is every `until`.
 *
 * Source: the key beside each; rule HD-44.
 */
export const CARE_RULES = [
  {
    code: "heat-watch",
    who: "served-doe",
    from: "served",
    days: read("msd-oestrus", 18, 24, 24),
    kind: "do",
    default: "on",
  },
  {
    code: "heat-watch-again",
    who: "served-doe",
    from: "served",
    days: read("msd-oestrus", 39, 45, 45),
    kind: "do",
    default: "on",
  },
  {
    code: "pregnancy-scan",
    who: "served-doe",
    from: "served",
    days: read("msd-pregnancy", 45, 85, 100),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "dry-off",
    who: "doe-in-kid",
    from: "due",
    days: read("vitaplus2022", -60, -50, -30),
    kind: "do",
    default: "on",
  },
  {
    code: "dam-booster",
    who: "doe-in-kid",
    from: "due",
    days: read("whitley-vaccination", -35, -25, -7),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "selenium",
    who: "doe-in-kid",
    from: "due",
    days: read("vansaun-selenium", -28, -14, -7),
    kind: "ask-vet",
    default: "off",
  },
  {
    code: "kidding-pen",
    who: "doe-in-kid",
    from: "due",
    before: "watching",
    days: usual(-10, -5, 0),
    kind: "do",
    default: "on",
  },
  {
    code: "afterbirth",
    who: "doe-kidded",
    from: "kidded",
    days: read("parturition-dystocia", 0, 0, 1),
    kind: "do",
    default: "on",
  },
  { code: "navel", who: "kid", from: "birth", days: read("dawson-herd-health", 0, 0, 1), kind: "do", default: "on" },
  { code: "colostrum", who: "kid", from: "birth", days: read("ncstate-colostrum", 0, 0, 1), kind: "do", default: "on" },
  { code: "birth-weight", who: "kid", from: "birth", days: usual(0, 1, 3), kind: "do", default: "on" },
  {
    code: "tetanus-cover",
    who: "kid",
    from: "birth",
    days: read("whitley-vaccination", 0, 3, 14),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "castration",
    who: "buckling",
    from: "birth",
    days: read("cornell-castration", 2, 21, 35),
    kind: "check-law",
    default: "on",
  },
  {
    code: "coccidia-plan",
    who: "kid",
    from: "birth",
    days: read("mohair-coccidia", 14, 28, 60),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "kid-vaccine",
    who: "kid",
    from: "birth",
    days: read("whitley-vaccination", 35, 42, 90),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "kid-vaccine-again",
    who: "kid",
    from: "earlier-task",
    after: "kid-vaccine",
    days: read("whitley-vaccination", 21, 28, 60),
    kind: "ask-vet",
    default: "on",
  },
  {
    code: "weaning",
    who: "kid",
    from: "birth",
    days: read("langston-weaning", 56, 90, 120),
    kind: "do",
    default: "on",
  },
  {
    code: "identification",
    who: "kid",
    from: "birth",
    days: read("goat-identification", 49, 56, 180),
    kind: "check-law",
    default: "on",
  },
  {
    code: "separate-bucklings",
    who: "buckling",
    from: "birth",
    days: read("unh-goats", 84, 100, 120),
    kind: "do",
    default: "on",
  },
  {
    code: "breeding-weight",
    who: "doeling",
    from: "birth",
    days: read("langston-stages", 210, 240, 330),
    kind: "do",
    default: "on",
  },
] as const satisfies readonly CareRule[];

/** A task of care, by its code. */
export type CareTaskCode = (typeof CARE_RULES)[number]["code"];

/** Weight at which a kid may be weaned, kg; or at eight weeks, or eating 30 g of solid feed a day. */
export const WEANING_KG: Sourced<number> = { value: 9, source: "langston-weaning", checked: "read-in-source" };

/** A doeling is heavy enough to be bred at this share of what she will weigh grown; dairy breeds at about so many kg. */
export const FIRST_BREEDING: Sourced<{ readonly share: readonly [number, number]; readonly dairyKg: number }> = {
  value: { share: [0.65, 0.7], dairyKg: 36 },
  source: "langston-stages",
  checked: "read-in-source",
};

/** Does that a young buck may serve: at six months, and from a year on. */
export const BUCK_LOAD: Sourced<{ readonly atSixMonths: number; readonly atOneYear: number }> = {
  value: { atSixMonths: 10, atOneYear: 30 },
  source: "unh-goats",
  checked: "read-in-source",
};

/** Days from kidding for which a booster of the dam covers her kids through her colostrum, counted back: given in time. */
export const BOOSTER_COUNTS: Sourced<{ readonly from: number; readonly by: number }> = {
  value: { from: 90, by: 14 },
  source: "judgement",
  checked: "judgement",
};

/** The keeper's or the vet's word on a task: on or off, and days of their own. */
export interface CareWish {
  readonly state?: "on" | "off";
  readonly from?: number;
  readonly by?: number;
}

/**
 * The rules as they hold for one herd: the vet's own days win, what is off is left out.
 *
 * Days that make no sense (by before from) are left aside. A window that ends later than its reminder moves the reminder.
 *
 * Source: rule HD-45.
 */
export function careRulesFor(
  wishes: ReadonlyMap<string, CareWish>,
): readonly (CareRule & { readonly code: CareTaskCode })[] {
  const rules: readonly (CareRule & { readonly code: CareTaskCode })[] = CARE_RULES;
  return rules.flatMap((rule) => {
    const wish = wishes.get(rule.code) ?? {};
    if ((wish.state ?? rule.default) === "off") return [];
    const { from, by, until } = rule.days.value;
    const own = { from: wish.from ?? from, by: wish.by ?? by };
    if ((wish.from === undefined && wish.by === undefined) || own.by < own.from) return [rule];
    const days: Sourced<CareDays> = {
      value: { ...own, until: Math.max(until, own.by) },
      source: "keepers-vet",
      checked: "set-by-keepers-vet",
    };
    return [{ ...rule, days }];
  });
}
