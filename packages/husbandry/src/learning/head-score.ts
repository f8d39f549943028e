import { type Probability, probability } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { type CalibrationBin, type Call, calibration, type Score, scoreOf } from "./forecast-score.ts";
import type { HeadKid, HeadReading } from "../heads/head-network.ts";
import { learnHeads } from "./head-learning.ts";
import { hornsAfter } from "../heads/head-reading.ts";
import type { HeadTables } from "../heads/head-tables.ts";

/** A kid whose head was read and of whom it is known what it grew. */
export interface ScoredKid {
  readonly kid: HeadKid;
  readonly readings: readonly HeadReading[];
  /** What the pedigree alone said of it, before anyone looked and without what it grew. */
  readonly before: PolledBelief;
  readonly grew: "horns" | "polled";
}

/** The whole model's score beside three rivals' on the same kids. */
export interface HeadScores {
  readonly kids: number;
  /** Pedigree and signs together. */
  readonly together: Score;
  readonly pedigreeAlone: Score;
  readonly signsAlone: Score;
  readonly ruleOfThumb: Score;
  readonly calibration: readonly CalibrationBin[];
  /** Each reader's own readings with the pedigree, on the kids that reader read. */
  readonly readers: ReadonlyMap<string, Score>;
}

/**
 * How good the calls were, and whether the model is worth having: against the pedigree alone, the signs alone and a fixed rule
 * of thumb, all on the same kids.
 *
 * Shape:   `undefined` for no kids.
 * Assumes: the tables were not learnt from these very kids; else the score flatters (`headScoresByTurns` learns without them).
 * Source:  rule HD-26.
 */
export function headScores(
  kids: readonly ScoredKid[],
  tablesFor: (kid: ScoredKid) => HeadTables,
): HeadScores | undefined {
  const by = (horns: (kid: ScoredKid) => number, its = kids): Score | undefined =>
    scoreOf(its.map((k): Call => ({ horns: horns(k), grew: k.grew })));
  const call = (k: ScoredKid, readings = k.readings) => hornsAfter(k.before, readings, k.kid, tablesFor(k));
  const together = by(call);
  const pedigreeAlone = by((k) => k.before.pp);
  const signsAlone = by((k) => hornsAfter(evenly(k.before), k.readings, k.kid, tablesFor(k)));
  const ruleOfThumb = by((k) => hornsByThumb(k.readings));
  if (!together || !pedigreeAlone || !signsAlone || !ruleOfThumb) return undefined;

  const readers = new Map<string, Score>();
  for (const reader of new Set(kids.flatMap((k) => k.readings.map((r) => r.reader)))) {
    const own = (k: ScoredKid) => k.readings.filter((r) => r.reader === reader);
    const score = by(
      (k) => call(k, own(k)),
      kids.filter((k) => own(k).length > 0),
    );
    if (score) readers.set(reader, score);
  }
  const calls = kids.map((k): Call => ({ horns: call(k), grew: k.grew }));
  return {
    kids: kids.length,
    together,
    pedigreeAlone,
    signsAlone,
    ruleOfThumb,
    calibration: calibration(calls),
    readers,
  };
}

/** How many groups the kids are dealt into; each group is called by tables learnt from the others. */
const TURNS = 5;

/**
 * The same scores with the herd's own learning in them, honestly: every kid is called by tables that were learnt without it.
 *
 * Shape: kids are dealt into five groups in the order given, so the answer depends on that order a little.
 */
export function headScoresByTurns(kids: readonly ScoredKid[], prior: HeadTables): HeadScores | undefined {
  const learnt = Array.from({ length: TURNS }, (_, turn) => {
    const others = kids.filter((_kid, i) => i % TURNS !== turn);
    return learnHeads(
      others.map((k) => ({ kid: k.kid, readings: k.readings, known: knownFrom(k) })),
      prior,
    ).tables;
  });
  const places = new Map(kids.map((k, i) => [k, i]));
  return headScores(kids, (k) => learnt[(places.get(k) ?? 0) % TURNS] ?? prior);
}

/** What is known of a kid once it is known what it grew. */
function knownFrom({ before, grew }: ScoredKid): PolledBelief {
  if (grew === "horns") return { PP: probability(0), Pp: probability(0), pp: probability(1) };
  const { PP, Pp } = evenly(before);
  return { PP: probability(2 * PP), Pp: probability(2 * Pp), pp: probability(0) };
}

/** As likely horned as polled; PP and Pp in the proportion in which they were believed. */
function evenly(before: PolledBelief): PolledBelief {
  const polled = before.PP + before.Pp;
  const ofPP = polled === 0 ? 0 : before.PP / polled;
  return { PP: probability(ofPP / 2), Pp: probability((1 - ofPP) / 2), pp: probability(0.5) };
}

/** What the rule of thumb makes of a sign that decides, and of signs that do not. */
const THUMB_SURE = 0.9;

/**
 * The chance of horns by a fixed rule of thumb: the latest reading's signs vote, the majority has it at 9 in 10.
 *
 * Pointed or through, skin held fast, clear whorls and a flat crown vote for horns; nothing or rounded, sliding skin, no whorls
 * and a rounded cap for polled. A tie, and no reading, is half and half.
 *
 * Source: common practice, no source.
 */
export function hornsByThumb(readings: readonly HeadReading[]): Probability {
  const last = readings.reduce<HeadReading | undefined>(
    (a, b) => (a === undefined || b.ageDays >= a.ageDays ? b : a),
    undefined,
  );
  if (last === undefined) return probability(0.5);
  const { feel, skin, whorls, crown } = last.signs;
  const answers = [feel, skin, whorls]
    .flatMap((sign): (string | undefined)[] =>
      sign === undefined ? [] : "both" in sign ? [sign.both] : [sign.left, sign.right],
    )
    .concat(crown === "unclear" ? [] : [crown]);
  const votes = answers.reduce((sum, a) => sum + (FOR_HORNS.has(a) ? 1 : FOR_POLLED.has(a) ? -1 : 0), 0);
  if (votes === 0) return probability(0.5);
  return probability(votes > 0 ? THUMB_SURE : 1 - THUMB_SURE);
}

const FOR_HORNS: ReadonlySet<string | undefined> = new Set(["pointed", "tip-through", "held-fast", "clear", "flat"]);
const FOR_POLLED: ReadonlySet<string | undefined> = new Set(["nothing", "rounded", "slides", "none", "rounded-cap"]);
