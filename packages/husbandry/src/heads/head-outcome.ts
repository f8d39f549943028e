import type { Sourced } from "@pollard/base";
import type { Growth } from "./head-signs.ts";

/** How well "will grow horns" and "polled" each explain a finding: relative, to multiply with other evidence. */
export interface HornsEvidence {
  readonly horned: number;
  readonly polled: number;
}

/** What the operator found under the hair of one side. */
export type VetFinding = "bud" | "no-bud" | "unsure";

const judged = <T>(value: T): Sourced<T> => ({ value, source: "judgement", checked: "judgement" });

/** How often the vet takes a head for what it is, and reports each side as the whole head was taken. */
const VET_RIGHT = judged({ head: 0.97, side: 0.95 });

/**
 * What the vet's finding at the visit says of the head.
 *
 * The vet judges the head once and then reports two sides, so the two sides are not two independent witnesses: a wrong
 * verdict is wrong on both.
 *
 * Shape:  "unsure" on a side says nothing; both unsure gives 1 and 1.
 * Source: rule HD-18; the error is our judgement, to be learnt.
 */
export function vetFindingLikelihood(found: { readonly left: VetFinding; readonly right: VetFinding }): HornsEvidence {
  const { head, side } = VET_RIGHT.value;
  const sides = [found.left, found.right].filter((f) => f !== "unsure");
  const given = (verdict: "bud" | "no-bud") => sides.reduce((p, f) => p * (f === verdict ? side : 1 - side), 1);
  const [bud, none] = [given("bud"), given("no-bud")];
  return { horned: head * bud + (1 - head) * none, polled: (1 - head) * bud + head * none };
}

/** Age in days from which a growth tells, and from which a bare head does: three weeks, two months. Our judgement. */
const TELLS_FROM = judged({ growth: 21, bare: 60 });

/**
 * The chance of what is seen on one side of a head that was never disbudded, from two months on.
 *
 * A horned goat has horns by then; a scur may be a horn that was knocked, a knob a horn just coming. Polled goats have knobs
 * or smooth heads, and scurs if they are Pp (30 of 53 [ricordeau1972], two or three centimetres, from three months on):
 * what that says of PP against Pp is genetics' business.
 */
const UNDISBUDDED = judged<Readonly<Record<"nothing" | "knob" | "scur" | "horn", HornsEvidence>>>({
  nothing: { horned: 0.004, polled: 0.45 },
  knob: { horned: 0.012, polled: 0.35 },
  scur: { horned: 0.03, polled: 0.197 },
  horn: { horned: 0.954, polled: 0.003 },
});
/** Before two months horns may still be short: a bare head or a knob speaks less. */
const YOUNG_BARE = judged<Readonly<Record<"nothing" | "knob", HornsEvidence>>>({
  nothing: { horned: 0.05, polled: 0.45 },
  knob: { horned: 0.15, polled: 0.35 },
});
/** A full horn that comes after disbudding: seen in the study where a bud was left, never where there was none. */
const REGROWN_HORN = judged<HornsEvidence>({ horned: 0.02, polled: 0.0002 });
/** How often an outcome is written down for the wrong animal: bounds what any outcome can prove. */
const MIX_UP = judged(0.002);

const NOTHING_LEARNT: HornsEvidence = { horned: 1, polled: 1 };

/** What had grown on a head, how old the goat was, and which sides had been disbudded before. */
export interface HeadOutcome {
  readonly left: Growth;
  readonly right: Growth;
  readonly ageDays: number;
  readonly disbudded: { readonly left: boolean; readonly right: boolean };
}

/**
 * What grew, as evidence that the goat was born to grow horns.
 *
 * On a disbudded side a bare head, a scur or a soft lump is the operation's result and says nothing of the goat: above all a
 * smooth disbudded head never says polled. Only a full horn regrown there does say that there was a bud.
 *
 * Units:  `ageDays` whole days since birth.
 * Shape:  relative; 1 and 1 where nothing is learnt. A mix-up of animals bounds what two sides can prove together.
 * Source: rules HD-18, HD-19; [hempstead2018] for regrowth; sizes are our judgement.
 */
export function outcomeLikelihood(outcome: HeadOutcome): HornsEvidence {
  const sides = (["left", "right"] as const).map((side) =>
    sideLikelihood(outcome[side], outcome.disbudded[side], outcome.ageDays),
  );
  const horned = sides.reduce((p, s) => p * s.horned, 1);
  const polled = sides.reduce((p, s) => p * s.polled, 1);
  const mixedUp = (MIX_UP.value * (horned + polled)) / 2;
  return { horned: (1 - MIX_UP.value) * horned + mixedUp, polled: (1 - MIX_UP.value) * polled + mixedUp };
}

function sideLikelihood(growth: Growth, disbudded: boolean, ageDays: number): HornsEvidence {
  if (growth === "unsure" || growth === "soft-lump" || ageDays < TELLS_FROM.value.growth) return NOTHING_LEARNT;
  if (disbudded) return growth === "horn" ? REGROWN_HORN.value : NOTHING_LEARNT;
  if (ageDays < TELLS_FROM.value.bare && (growth === "nothing" || growth === "knob")) return YOUNG_BARE.value[growth];
  return UNDISBUDDED.value[growth];
}

/** Age in days from which a bare, undisbudded head counts as truth: about three months. */
const TRUTH_FROM = judged(84);

/**
 * Whether an outcome may teach the tables: only what shows by itself what the goat grew.
 *
 * Horns on an undisbudded side at any age that tells, a horn regrown, or a head that is bare or knobbed on both sides, never
 * disbudded, at about three months. A scur on an undisbudded head from then on is polled's, a smooth disbudded head nothing.
 *
 * Source: rule HD-19.
 */
export function isTruth(outcome: HeadOutcome): boolean {
  const { left, right, ageDays, disbudded } = outcome;
  if ((left === "horn" || right === "horn") && ageDays >= TELLS_FROM.value.growth) return true;
  const bare = (g: Growth) => g === "nothing" || g === "knob" || g === "scur";
  return bare(left) && bare(right) && !disbudded.left && !disbudded.right && ageDays >= TRUTH_FROM.value;
}
