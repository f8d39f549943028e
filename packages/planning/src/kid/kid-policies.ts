import { present, probability, type Random, unreachable } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import {
  type HeadChances,
  type HeadKid,
  type HeadReading,
  type HeadTables,
  headLikelihood,
  hornsByThumb,
  SIGNS,
  type SimulatedHead,
  simulateHead,
  simulateReading,
  type VetWindow,
} from "@pollard/husbandry";
import type { Ending } from "./endings.ts";
import { decideKid } from "./kid-decision.ts";
import { type KidAction, kidEndings, type KidQuestion } from "./kid-endings.ts";
import type { KidLosses } from "./kid-losses.ts";

/**
 * Ways of deciding about heads, to be compared on the same kids.
 *
 * `looking-ahead`: ours, decided anew after every look. `all-but-sure`: one look, and everything is done but what is polled
 * beyond doubt. `day-three`: one look on day 3, by the rule of thumb. `half-and-half`: one look when the best days begin, the
 * vet's list from a chance of one half. Whoever lists a kid takes the visit that costs least.
 */
export const KID_POLICIES = ["looking-ahead", "all-but-sure", "day-three", "half-and-half"] as const;
export type KidPolicy = (typeof KID_POLICIES)[number];

/** An invented kid: what is believed of it, what it truly is, and what a reader would find on each day. */
export interface TrialKid {
  readonly kid: HeadKid;
  readonly before: PolledBelief;
  readonly head: SimulatedHead;
  /** The reading that would be made on each day of its life, the day of birth first. */
  readonly readings: readonly HeadReading[];
  /** Days of its life on which the vet comes anyway. */
  readonly visits: readonly number[];
}

/** How things are on the farm of a trial. */
export interface TrialFarm {
  readonly window: (kid: HeadKid) => VetWindow;
  /** What the keeper believes of heads; the kids themselves may follow other chances. */
  readonly tables: HeadTables;
  readonly losses: KidLosses;
  readonly noticeDays: number;
}

/** What came of one kid under one policy. */
export interface KidCourse {
  readonly loss: number;
  readonly looks: number;
  readonly ending: "missed" | "needless" | "rightly-left" | "rightly-done";
}

/** Chance of horns up to which "all but the sure ones" leaves a kid. */
const SURE_POLLED = 0.05;
/** Last day of life on which a trial kid's head may be read. */
const LAST_READING = 21;

/** Invents a kid: genotype as believed, head and readings as the chances say, the vet every `visitEvery` days. */
export function trialKid(
  kid: HeadKid,
  before: PolledBelief,
  visitEvery: number,
  chances: HeadChances,
  random: Random,
): TrialKid {
  const draw = random.next();
  const genotype = draw < before.PP ? "PP" : draw < before.PP + before.Pp ? "Pp" : "pp";
  const head = simulateHead(kid, genotype, chances, random);
  const readings = Array.from({ length: LAST_READING + 1 }, (_, ageDays) =>
    simulateReading(head, { reading: `day ${ageDays}`, reader: "trial", ageDays, signs: SIGNS }, chances, random),
  );
  const first = Math.floor(random.next() * visitEvery);
  const visits = Array.from({ length: Math.ceil(LAST_READING / visitEvery) }, (_, i) => first + i * visitEvery);
  return { kid, before, head, readings, visits };
}

/** What comes of a kid when this policy is followed from the day of its birth. */
export function followPolicy(policy: KidPolicy, trial: TrialKid, farm: TrialFarm): KidCourse {
  const { aimFrom } = farm.window(trial.kid);
  switch (policy) {
    case "looking-ahead":
      return lookingAhead(trial, farm);
    case "all-but-sure":
      return oneLook(trial, farm, aimFrom.value, (q) => q.belief.pp > SURE_POLLED);
    case "half-and-half":
      return oneLook(trial, farm, aimFrom.value, (q) => q.belief.pp >= 0.5);
    case "day-three":
      return oneLook(trial, farm, 3, (q) => hornsByThumb(q.readings) >= 0.5);
    default:
      return unreachable(policy, "followPolicy");
  }
}

/** Our own policy: decided anew after every look, until it is settled. Too late ends as leaving does. */
function lookingAhead(trial: TrialKid, farm: TrialFarm): KidCourse {
  const looked: HeadReading[] = [];
  for (let ageDays = 0; ; ) {
    const question = questionOf(trial, farm, ageDays, looked);
    const decision = decideKid(question);
    const best: KidAction = decision.kind === "ring-vet" ? { kind: "leave" } : decision.best;
    if (best.kind !== "look-again") return courseOf(trial, question, best);
    ageDays += best.inDays;
    looked.push(present(trial.readings[ageDays], "reading"));
  }
}

/** One look on this day of life, then the list or not. */
function oneLook(trial: TrialKid, farm: TrialFarm, ageDays: number, lists: (q: KidQuestion) => boolean): KidCourse {
  const question = questionOf(trial, farm, ageDays, [present(trial.readings[ageDays], "reading")]);
  if (!lists(question)) return courseOf(trial, question, { kind: "leave" });
  const visits = kidEndings(question).filter(([action]) => action.kind === "vet-list");
  const cheapest = visits.reduce<readonly [KidAction, Ending] | undefined>(
    (best, visit) => (best === undefined || lossOf(visit, question) < lossOf(best, question) ? visit : best),
    undefined,
  );
  return courseOf(trial, question, cheapest?.[0] ?? { kind: "leave" });
}

const lossOf = ([, ending]: readonly [KidAction, Ending], { belief }: KidQuestion): number =>
  belief.pp * ending.horned + (1 - belief.pp) * ending.polled;

/** What the keeper would ask on this day, after these looks. */
function questionOf(
  { kid, before, visits }: TrialKid,
  { tables, losses, noticeDays, window }: TrialFarm,
  ageDays: number,
  readings: readonly HeadReading[],
): KidQuestion {
  const l = headLikelihood(readings, kid, tables);
  const total = before.PP * l.PP + before.Pp * l.Pp + before.pp * l.pp;
  return {
    belief: {
      PP: probability((before.PP * l.PP) / total),
      Pp: probability((before.Pp * l.Pp) / total),
      pp: probability((before.pp * l.pp) / total),
    },
    kid,
    readings,
    tables,
    ageDays,
    window: window(kid),
    visits: visits.map((day) => day - ageDays).filter((inDays) => inDays >= 0),
    noticeDays,
    losses,
    maxLooks: 2,
  };
}

/** How it ended, paid for by what the kid truly was. */
function courseOf({ head }: TrialKid, question: KidQuestion, action: KidAction): KidCourse {
  const found = kidEndings(question).find(([a]) => same(a, action));
  const [, ending] = present(found, "ending");
  const horned = head.genotype === "pp";
  const looks = question.readings.length;
  const loss = (horned ? ending.horned : ending.polled) + looks * question.losses.look;
  if (action.kind === "leave") return { loss, looks, ending: horned ? "missed" : "rightly-left" };
  return { loss, looks, ending: horned ? "rightly-done" : "needless" };
}

const same = (a: KidAction, b: KidAction): boolean =>
  a.kind === b.kind && (a.kind === "leave" || (b.kind !== "leave" && a.inDays === b.inDays));
