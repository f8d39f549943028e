import { present, type Random } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import {
  type HeadKid,
  type HeadNetwork,
  type HeadReading,
  type HeadState,
  reportChance,
  seeRow,
  type Sighting,
  sightingsOf,
} from "./head-network.ts";
import {
  CROWN_TRUTHS,
  HEAD_ROW_NAMES,
  HEAD_ROWS,
  type HeadRow,
  HORNED_STAGES,
  POLLED_STAGES,
  SEE_ROW_NAMES,
  type SeeRow,
  WHORL_TRUTHS,
} from "./head-tables.ts";
import { GROWTH_SEXES } from "./kid-sex.ts";

/** A kid whose head was read and of whom it is known from elsewhere what it grew. */
export interface LearningKid {
  readonly kid: HeadKid;
  readonly readings: readonly HeadReading[];
  /** What everything *but* its own head readings says: pedigree, what grew, the vet's finding, a DNA test. */
  readonly known: PolledBelief;
}

/** A kid with its readings taken apart, once for all the times it is counted. */
export interface SeenKid {
  readonly kid: HeadKid;
  readonly sightings: readonly Sighting[];
  readonly known: PolledBelief;
}

/** The kid with its readings taken apart. */
export const seenKid = ({ kid, readings, known }: LearningKid): SeenKid => ({
  kid,
  sightings: sightingsOf(readings),
  known,
});

/** How many heads are behind each value of each row, for everybody and for each reader. Parts of heads add up. */
export interface HeadCounts {
  readonly rows: Readonly<Record<HeadRow, number[]>>;
  readonly readers: ReadonlyMap<string, Readonly<Record<SeeRow, number[]>>>;
}

/** One value for each of these rows. */
export const eachRow = <Row extends HeadRow, T>(names: readonly Row[], of: (row: Row) => T): Record<Row, T> =>
  Object.fromEntries(names.map((row) => [row, of(row)])) as Record<Row, T>;

const zeros = <Row extends HeadRow>(names: readonly Row[]): Record<Row, number[]> =>
  eachRow(names, (row) => HEAD_ROWS[row].map(() => 0));

/** No heads yet, for these readers. */
export const noCounts = (readers: Iterable<string>): HeadCounts => ({
  rows: zeros(HEAD_ROW_NAMES),
  readers: new Map([...readers].map((reader) => [reader, zeros(SEE_ROW_NAMES)])),
});

/** What a kid's head is taken to be, as weights: its genotype and all that is hidden. Each group sums to its genotypes' weight. */
interface HeadWeights {
  /** One per course of the network; sums to the weight of horned. */
  readonly courses: readonly number[];
  /** One per `POLLED_STAGES`; each sums to the weight of its genotype. */
  readonly stages: Readonly<Record<"PP" | "Pp", readonly number[]>>;
  readonly whorl: Readonly<Record<"horned" | "polled", readonly number[]>>;
  readonly crown: Readonly<Record<"horned" | "polled", readonly number[]>>;
}

const sum = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0);
const scaledTo = (total: number, xs: readonly number[]): readonly number[] => {
  const by = total / sum(xs);
  return xs.map((x) => x * by);
};
const at = (xs: readonly number[], i: number): number => present(xs[i], "weight");

/**
 * Adds one kid to the counts: every hidden truth of its head counts as far as it is believed, what it grew included.
 *
 * This is the expectation step of learning.
 *
 * @returns the natural log of the chance of the kid's readings, given what is known from elsewhere.
 */
export function countKid(into: HeadCounts, { known, sightings }: SeenKid, network: HeadNetwork): number {
  const state = sightings.reduce((s, seen) => network.see(s, seen), network.start);
  const { PP, Pp, horned, log } = believed(known, state);
  const weights: HeadWeights = {
    courses: scaledTo(horned, state.courses),
    stages: { PP: scaledTo(PP, state.stages.PP), Pp: scaledTo(Pp, state.stages.Pp) },
    whorl: { horned: scaledTo(horned, state.whorl.horned), polled: scaledTo(PP + Pp, state.whorl.polled) },
    crown: { horned: scaledTo(horned, state.crown.horned), polled: scaledTo(PP + Pp, state.crown.polled) },
  };
  addHead(into, sightings, network, weights, (chance) => chance);
  return log;
}

/** Adds one kid to the counts as one whole head, drawn as likely as it is believed. */
export function drawKid(into: HeadCounts, { known, sightings }: SeenKid, network: HeadNetwork, random: Random): void {
  const state = sightings.reduce((s, seen) => network.see(s, seen), network.start);
  const { PP, Pp, horned } = believed(known, state);
  const [isPP, isPp, isHorned] = oneOf([PP, Pp, horned], 1, random) as [number, number, number];
  const weights: HeadWeights = {
    courses: oneOf(state.courses, isHorned, random),
    stages: { PP: oneOf(state.stages.PP, isPP, random), Pp: oneOf(state.stages.Pp, isPp, random) },
    whorl: {
      horned: oneOf(state.whorl.horned, isHorned, random),
      polled: oneOf(state.whorl.polled, isPP + isPp, random),
    },
    crown: {
      horned: oneOf(state.crown.horned, isHorned, random),
      polled: oneOf(state.crown.polled, isPP + isPp, random),
    },
  };
  addHead(into, sightings, network, weights, (chance) => (random.next() < chance ? 1 : 0));
}

/** `amount` at one place, drawn by the weights, and 0 elsewhere. */
function oneOf(weights: readonly number[], amount: number, random: Random): readonly number[] {
  const out = weights.map(() => 0);
  if (amount === 0) return out;
  let rest = random.next() * sum(weights);
  const place = weights.findIndex((w) => {
    rest -= w;
    return rest < 0;
  });
  out[place < 0 ? weights.length - 1 : place] = amount;
  return out;
}

/**
 * Adds a head to the counts. A truth nothing was seen of teaches nothing: its row is left out.
 *
 * `owns` says how much of a second side's answer counts as its own, from the chance that it is.
 */
function addHead(
  into: HeadCounts,
  sightings: readonly Sighting[],
  network: HeadNetwork,
  head: HeadWeights,
  owns: (chance: number) => number,
): void {
  const add = (row: HeadRow, place: number, amount: number) => {
    const counts = into.rows[row];
    counts[place] = (counts[place] ?? 0) + amount;
  };
  const touched = sightings.filter((s) => s.sign === "feel" || s.sign === "skin");
  if (touched.length > 0) {
    const { courses } = network.buds;
    const early = touched.some((s) => s.fromDueDays !== undefined);
    for (let i = 0; i < head.courses.length; i++) {
      const w = head.courses[i] ?? 0;
      if (w === 0) continue;
      const { sex, age, pace, clock } = present(courses[i], "course");
      add(sex === "buck" ? "is-bud-age buck" : "is-bud-age doe", age, w);
      add(sex === "buck" ? "is-pace buck" : "is-pace doe", pace, w);
      if (early) add("is-clock", clock, w);
    }
    for (const g of ["PP", "Pp"] as const)
      for (const [s, w] of head.stages[g].entries())
        for (const sex of GROWTH_SEXES)
          add(
            `is-polled-stage ${g} ${sex}`,
            s,
            (w * at(network.stagesBySex[g][sex], s)) / at(network.start.stages[g], s),
          );
  }
  for (const grows of ["horned", "polled"] as const) {
    if (sightings.some((s) => s.sign === "whorls"))
      for (const [t, w] of head.whorl[grows].entries()) add(`is-whorl ${grows}`, t, w);
    if (sightings.some((s) => s.sign === "crown"))
      for (const [t, w] of head.crown[grows].entries()) add(`is-crown ${grows}`, t, w);
  }
  for (const seen of sightings) {
    const readers = into.readers.get(seen.reader);
    const addSeen = (row: SeeRow, place: number, w: number) => {
      add(row, place, w);
      const mine = readers?.[row];
      if (mine !== undefined) mine[place] = (mine[place] ?? 0) + w;
    };
    for (const [row, w] of sightingRows(seen, network, head)) {
      if (w === 0) continue;
      const own = seen.first === undefined ? 1 : owns(reportChance(network.chances, row, seen).own);
      addSeen(row, seen.value, w * own);
      if (seen.first === undefined) continue;
      addSeen("see-second-side", 0, w * (1 - own));
      addSeen("see-second-side", 1, w * own);
    }
  }
}

/** The rows by which an answer may have come about, each with its weight. */
function sightingRows(seen: Sighting, network: HeadNetwork, head: HeadWeights): readonly (readonly [SeeRow, number])[] {
  const { sign } = seen;
  if (sign === "whorls")
    return WHORL_TRUTHS.map((t, i) => [`see-whorl ${t}`, at(head.whorl.horned, i) + at(head.whorl.polled, i)]);
  if (sign === "crown")
    return CROWN_TRUTHS.map((t, i) => [`see-crown ${t}`, at(head.crown.horned, i) + at(head.crown.polled, i)]);
  const reached = HORNED_STAGES.map(() => 0);
  const stages = network.buds.stagesAt(seen.ageDays, seen.fromDueDays);
  for (let i = 0; i < stages.length; i++) {
    const [s, w] = [stages[i] ?? 0, head.courses[i] ?? 0];
    if (w > 0) reached[s] = (reached[s] ?? 0) + w;
  }
  return [
    ...POLLED_STAGES.map((stage, s) => [seeRow(sign, stage), at(head.stages.PP, s) + at(head.stages.Pp, s)] as const),
    ...HORNED_STAGES.map((stage, s) => [seeRow(sign, stage), at(reached, s)] as const),
  ];
}

/** What is believed of the kid with its readings taken in, and the log chance of those readings. */
function believed(known: PolledBelief, state: HeadState) {
  const polledHair = sum(state.whorl.polled) * sum(state.crown.polled);
  const PP = known.PP * sum(state.stages.PP) * polledHair;
  const Pp = known.Pp * sum(state.stages.Pp) * polledHair;
  const horned = known.pp * sum(state.courses) * sum(state.whorl.horned) * sum(state.crown.horned);
  const total = PP + Pp + horned;
  return { PP: PP / total, Pp: Pp / total, horned: horned / total, log: Math.log(total) + state.log };
}
