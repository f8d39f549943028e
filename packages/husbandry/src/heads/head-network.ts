import { Bug, present, unreachable } from "@pollard/base";
import { POLLED_GENOTYPES, type PolledGenotype } from "@pollard/genetics";
import { type BudCourses, budCourses } from "./bud-courses.ts";
import {
  BUD_FEELS,
  CROWNS,
  type HeadSigns,
  NO_FINDINGS,
  type NoFinding,
  type Sided,
  SKIN_HOLDS,
  WHORLS,
} from "./head-signs.ts";
import {
  CROWN_TRUTHS,
  type HeadChances,
  HORNED_STAGES,
  POLLED_STAGES,
  type SeeRow,
  WHORL_TRUTHS,
} from "./head-tables.ts";
import { BUCK_SHARE, GROWTH_SEXES, type GrowthSex, type KidSex } from "../kid-sex.ts";

/** One look at one kid's head by one reader. */
export interface HeadReading {
  /** The id of the record it comes from. */
  readonly reading: string;
  /** Whole days since birth; the day of birth is 0. */
  readonly ageDays: number;
  /** Days since the day the kid was due, where that day is known; negative before it. */
  readonly fromDueDays?: number;
  readonly reader: string;
  readonly signs: HeadSigns;
  /** 4 = a four-horned head; the tables are made for two. */
  readonly budSites?: 2 | 4;
}

/** What of a kid decides which tables speak for it. */
export interface HeadKid {
  readonly sex: KidSex;
  readonly breed?: string;
}

/** The four signs, in the order in which a reading asks for them. */
export const SIGNS = ["feel", "skin", "whorls", "crown"] as const;
export type Sign = (typeof SIGNS)[number];

/**
 * One thing seen or felt: the smallest piece of evidence. `value` is the place in the sign's list of answers.
 *
 * `first` is the answer the same reader has just given for the other side: this one may only repeat it.
 */
export interface Sighting {
  readonly reading: number;
  readonly sign: Sign;
  readonly value: number;
  readonly first: number | undefined;
  readonly ageDays: number;
  readonly fromDueDays: number | undefined;
  readonly reader: string;
}

/**
 * What can be learnt from readings, piece by piece, in the order given and within a reading in the order of `SIGNS`.
 *
 * "Could not tell", "did not look" and signs that were not reached are no piece. `both` is one piece, an answer per
 * side is one piece each.
 */
export function sightingsOf(readings: readonly HeadReading[]): readonly Sighting[] {
  return readings.flatMap((r, reading) => {
    const pieces = (sign: Sign, values: readonly number[]): readonly Sighting[] =>
      values.map((value, side) => ({
        reading,
        sign,
        value,
        first: side === 0 ? undefined : values[0],
        ageDays: r.ageDays,
        fromDueDays: r.fromDueDays,
        reader: r.reader,
      }));
    const { feel, skin, whorls, crown } = r.signs;
    return [
      ...pieces(
        "feel",
        sides(feel).flatMap((v) => places(BUD_FEELS, v)),
      ),
      ...pieces(
        "skin",
        sides(skin).flatMap((v) => places(SKIN_HOLDS, v)),
      ),
      ...pieces(
        "whorls",
        sides(whorls).flatMap((v) => places(WHORLS, v)),
      ),
      ...pieces("crown", crown === undefined ? [] : places(CROWNS, crown)),
    ];
  });
}

function sides<T>(answer: Sided<T> | undefined): readonly T[] {
  if (answer === undefined) return [];
  if ("both" in answer) return [answer.both];
  return [answer.left, answer.right].filter((side) => side !== undefined);
}

function places<T extends string>(answers: readonly T[], answer: T | NoFinding): readonly number[] {
  const place = (answers as readonly string[]).indexOf(answer);
  if (place >= 0) return [place];
  if ((NO_FINDINGS as readonly string[]).includes(answer)) return [];
  throw new Bug(`not an answer: ${answer}`);
}

/**
 * What is believed of one head's hidden truths, given what was seen: unnormalised, a list per hidden truth.
 *
 * Given the genotype the three groups (what lies under the skin, whorls, crown) are independent, so each is kept apart
 * and the product of their sums is the likelihood, up to the common factor e^`log`.
 */
export interface HeadState {
  /** One weight per `BudCourse` of the network. */
  readonly courses: readonly number[];
  /** One weight per `POLLED_STAGES`. */
  readonly stages: { readonly PP: readonly number[]; readonly Pp: readonly number[] };
  readonly whorl: { readonly horned: readonly number[]; readonly polled: readonly number[] };
  readonly crown: { readonly horned: readonly number[]; readonly polled: readonly number[] };
  readonly log: number;
}

const sum = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0);
const at = (xs: readonly number[], i: number): number => present(xs[i], "chance");

/** Chances of a sex's rows and a polled stage together, by genotype. */
type StagesBySex = Readonly<Record<"PP" | "Pp", Readonly<Record<GrowthSex, readonly number[]>>>>;

/** The head's network for one kind of kid and one set of chances: what is hidden, and what a reader would report. */
export interface HeadNetwork {
  /** What is believed before the first look. */
  readonly start: HeadState;
  /** The belief after one more piece of evidence. */
  see(state: HeadState, seen: Sighting): HeadState;
  /** The belief after all of these readings. */
  after(readings: readonly HeadReading[]): HeadState;
  /** The ways in which buds may come, in the order of `HeadState.courses`. */
  readonly buds: BudCourses;
  readonly chances: HeadChances;
  /** Chance of each sex's rows and each of `POLLED_STAGES` before any look, by genotype. */
  readonly stagesBySex: StagesBySex;
}

/** The delay of a breed's buds, 0 where none is known. */
export const breedDelay = ({ breed }: HeadKid, by: Pick<HeadChances, "breedDelayDays">): number =>
  breed === undefined ? 0 : (by.breedDelayDays.get(breed.toLowerCase()) ?? 0);

/**
 * The network for this kid: its sex and breed choose the rows, `chances` fills them.
 *
 * `buds` may be passed in where many networks are made for one kind of kid: it does not depend on the chances.
 */
export function headNetwork(
  kid: HeadKid,
  chances: HeadChances,
  buds: BudCourses = budCourses(kid.sex, breedDelay(kid, chances)),
): HeadNetwork {
  const share = { buck: BUCK_SHARE[kid.sex], doe: 1 - BUCK_SHARE[kid.sex] };
  const stagesOf = (g: "PP" | "Pp", sex: GrowthSex) =>
    chances.row(`is-polled-stage ${g} ${sex}`).map((chance) => share[sex] * chance);
  const bySex = (g: "PP" | "Pp") => ({ buck: stagesOf(g, "buck"), doe: stagesOf(g, "doe") });
  const stagesBySex: StagesBySex = { PP: bySex("PP"), Pp: bySex("Pp") };
  const bothSexes = (g: "PP" | "Pp") =>
    POLLED_STAGES.map((_, s) => sum(GROWTH_SEXES.map((x) => at(stagesBySex[g][x], s))));
  const start: HeadState = {
    courses: courseWeights(buds, chances),
    stages: { PP: bothSexes("PP"), Pp: bothSexes("Pp") },
    whorl: { horned: chances.row("is-whorl horned"), polled: chances.row("is-whorl polled") },
    crown: { horned: chances.row("is-crown horned"), polled: chances.row("is-crown polled") },
    log: 0,
  };
  const see = (state: HeadState, seen: Sighting): HeadState => {
    const reported = (row: SeeRow) => reportChance(chances, row, seen).chance;
    switch (seen.sign) {
      case "whorls":
        return timesPair(
          state,
          "whorl",
          WHORL_TRUTHS.map((t) => reported(`see-whorl ${t}`)),
        );
      case "crown":
        return timesPair(
          state,
          "crown",
          CROWN_TRUTHS.map((t) => reported(`see-crown ${t}`)),
        );
      case "feel":
      case "skin": {
        const sign = seen.sign;
        const polled = POLLED_STAGES.map((s) => reported(seeRow(sign, s)));
        const horned = HORNED_STAGES.map((s) => reported(seeRow(sign, s)));
        return timesStages(
          state,
          polled,
          buds.stagesAt(seen.ageDays, seen.fromDueDays).map((s) => horned[s] ?? 0),
        );
      }
      default:
        return unreachable(seen.sign, "headNetwork.see");
    }
  };
  return { start, see, buds, chances, stagesBySex, after: (readings) => sightingsOf(readings).reduce(see, start) };
}

/**
 * The chance that a reader reports this by that row, and how much of it is an answer of its own.
 *
 * A second side's answer repeats the first with some chance; else it comes about as any answer does. So two sides that agree
 * are less than two witnesses, and two that differ are two.
 */
function reportChance(
  chances: HeadChances,
  row: SeeRow,
  { value, first, reader }: Sighting,
): { readonly chance: number; readonly own: number } {
  const chance = at(chances.row(row, reader), value);
  if (first === undefined) return { chance, own: 1 };
  const [repeated = 0, own = 1] = chances.row("see-second-side", reader);
  const both = (first === value ? repeated : 0) + own * chance;
  return { chance: both, own: (own * chance) / both };
}

/** The row by which a reader reports what lies under the skin. A smooth head and a bud to come feel the same. */
export function seeRow(
  sign: "feel" | "skin",
  stage: (typeof POLLED_STAGES)[number] | (typeof HORNED_STAGES)[number],
): SeeRow {
  if (sign === "skin") return `see-skin ${stage}`;
  return stage === "smooth" || stage === "not-yet" ? "see-feel flat" : `see-feel ${stage}`;
}

/** The chance of each course, in order. */
function courseWeights(buds: BudCourses, chances: HeadChances): readonly number[] {
  const ages = { buck: chances.row("is-bud-age buck"), doe: chances.row("is-bud-age doe") };
  const paces = { buck: chances.row("is-pace buck"), doe: chances.row("is-pace doe") };
  const clocks = chances.row("is-clock");
  return buds.courses.map(
    (c) => c.share * (ages[c.sex][c.age] ?? 0) * (paces[c.sex][c.pace] ?? 0) * (clocks[c.clock] ?? 0),
  );
}

/** Natural logs of the chance of everything seen, by genotype. */
export function logLikelihoods(state: HeadState): Readonly<Record<PolledGenotype, number>> {
  const polled = Math.log(sum(state.whorl.polled)) + Math.log(sum(state.crown.polled)) + state.log;
  return {
    PP: Math.log(sum(state.stages.PP)) + polled,
    Pp: Math.log(sum(state.stages.Pp)) + polled,
    pp:
      Math.log(sum(state.courses)) + Math.log(sum(state.whorl.horned)) + Math.log(sum(state.crown.horned)) + state.log,
  };
}

/** Natural log-odds of horned against polled that the evidence alone gives, for a given share of PP among the polled. */
export function hornsWeight(state: HeadState, shareOfPP: number): number {
  const log = logLikelihoods(state);
  const top = Math.max(...POLLED_GENOTYPES.map((g) => log[g]));
  return log.pp - top - Math.log(shareOfPP * Math.exp(log.PP - top) + (1 - shareOfPP) * Math.exp(log.Pp - top));
}

/** Products place by place; both lists are equally long. */
const times = (xs: readonly number[], ys: readonly number[]): readonly number[] => xs.map((x, i) => x * (ys[i] ?? 0));
const divide = (xs: readonly number[], by: number): readonly number[] => xs.map((x) => x / by);

/** Multiplies evidence into a group and keeps its numbers near 1: what is divided out, alike for every genotype, goes into `log`. */
function timesPair(state: HeadState, group: "whorl" | "crown", chance: readonly number[]): HeadState {
  const horned = times(state[group].horned, chance);
  const polled = times(state[group].polled, chance);
  const top = Math.max(sum(horned), sum(polled));
  const pair = { horned: divide(horned, top), polled: divide(polled, top) };
  return { ...state, [group]: pair, log: state.log + Math.log(top) };
}

function timesStages(state: HeadState, polled: readonly number[], horned: readonly number[]): HeadState {
  const courses = times(state.courses, horned);
  const [PP, Pp] = [times(state.stages.PP, polled), times(state.stages.Pp, polled)];
  const top = Math.max(sum(courses), sum(PP), sum(Pp));
  return {
    ...state,
    courses: divide(courses, top),
    stages: { PP: divide(PP, top), Pp: divide(Pp, top) },
    log: state.log + Math.log(top),
  };
}
