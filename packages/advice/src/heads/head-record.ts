import { addDays, type Day } from "@pollard/base";
import {
  type CalibrationBin,
  headScores,
  type HeadTables,
  hornsAfter,
  type ScoredKid,
  wilson,
} from "@pollard/husbandry";
import type { Animal, Herd } from "@pollard/records";
import { believe } from "../belief/beliefs.ts";
import { callsCame } from "./calls-came.ts";
import { countedOf } from "../counted.ts";
import { herdBefore } from "./herd-before.ts";
import { hasFinding, headKidOf, headReadingsOf, kidAges } from "./kid-facts.ts";
import { learntHeads } from "./learnt-heads.ts";
import { learntModel } from "./learnt-model.ts";
import type { CallLine, HeadRecordModel, ReaderRecord } from "./record-models.ts";
import type { Situation } from "../situation.ts";
import { type Truth, TRUTHS, truthOf } from "./truths.ts";

/**
 * How long kids are called together, days from the first birth: with what was known before that first birth. Long enough for
 * a season and its three-month checks, so that no kid of it is called with the help of another's outcome.
 */
const TOGETHER_DAYS = 150;
/** Chances between which a call says neither horns nor hornless; the bounds of husbandry's doubtful calls. */
const OPEN_CALL = { from: 0.3, to: 0.7 } as const;
/** Two-sided 90 % point of the standard normal distribution. */
const Z90 = 1.6449;

/** A kid that was read and is known for itself since, with everything its call was made from. */
interface Called {
  readonly kid: ScoredKid;
  readonly truth: Truth;
  readonly tables: HeadTables;
}

/**
 * The readings' record: of the heads whose truth is known since, how the calls came out, beside three rivals on the same kids.
 *
 * Every kid is called as it would have been in its own season: with the pedigree, the findings and the tables known before
 * the season's first birth, and with its own readings. So neither its outcome, nor a litter mate's, nor its later kids help.
 *
 * Shape:   no scores while no kid counts. Calls stand from "hornless" to "horns".
 * Assumes: what the vet found counts as truth (it may be wrong, about 3 in 100): without it the horned kids, which are
 *          disbudded, would be missing, and the score would flatter.
 * Cost:    one inference and one learning for each season.
 * Source:  prequential forecasting [dawid1984]; scores and bins are husbandry's (HD-26); rule AD-24.
 */
export function headRecord({ herd, beliefs }: Situation): HeadRecordModel {
  const read = readHeads(herd);
  const known = read.filter((r) => r.truth !== undefined);
  const { called, seasons } = callsBySeason(herd, known);
  const kids = called.map((c) => c.kid);
  const tables = new Map(called.map((c) => [c.kid, c.tables]));
  const scores = headScores(kids, (kid) => tables.get(kid) ?? beliefs.heads.tables);
  return {
    kids: kids.length,
    horned: kids.filter((k) => k.grew === "horns").length,
    truths: TRUTHS.map((from) => ({ from, kids: called.filter((c) => c.truth.from === from).length })),
    readNotKnown: read.length - known.length,
    seasons,
    scores:
      scores === undefined
        ? undefined
        : {
            together: scores.together,
            pedigreeAlone: scores.pedigreeAlone,
            signsAlone: scores.signsAlone,
            ruleOfThumb: scores.ruleOfThumb,
          },
    calls: (scores?.calibration ?? []).map(callLine),
    readers: readerRecords(called),
    learnt: learntModel(beliefs.heads),
  };
}

interface ReadHead {
  readonly animal: Animal;
  readonly born: Day;
  readonly truth: Truth | undefined;
}

/** Every kid of which a reading found something, the oldest first. */
function readHeads(herd: Herd): readonly ReadHead[] {
  return [...herd.animals.values()]
    .flatMap((animal): ReadHead[] => {
      const { born } = animal;
      if (born === undefined || !readingsOf(herd, animal, born).some(hasFinding)) return [];
      return [{ animal, born, truth: truthOf(animal) }];
    })
    .sort((a, b) => (a.born === b.born ? (a.animal.id < b.animal.id ? -1 : 1) : a.born < b.born ? -1 : 1));
}

const readingsOf = (herd: Herd, animal: Animal, born: Day) => headReadingsOf(animal, kidAges(herd, animal, born));

/** The kids' calls, season by season, each with what was known before it. */
function callsBySeason(herd: Herd, known: readonly ReadHead[]): { called: readonly Called[]; seasons: number } {
  const called: Called[] = [];
  let seasons = 0;
  for (let rest = known; rest.length > 0; ) {
    const [first] = rest;
    if (first === undefined) break;
    const last = addDays(first.born, TOGETHER_DAYS);
    const season = rest.filter((r) => r.born <= last);
    rest = rest.slice(season.length);
    seasons += 1;
    const before = herdBefore(herd, first.born, new Set(season.map((r) => r.animal.id)));
    const heads = learntHeads(before);
    const beliefs = believe(before, heads);
    for (const { animal, born, truth } of season) {
      if (truth === undefined) continue;
      const kid: ScoredKid = {
        kid: headKidOf(animal, herd),
        readings: readingsOf(herd, animal, born).filter(hasFinding),
        before: beliefs.forecast(animal.id),
        grew: truth.head === "horned" ? "horns" : "polled",
      };
      called.push({ kid, truth, tables: heads.tables });
    }
  }
  return { called, seasons };
}

/** Calls of about one chance, as counts: what they said, and what came. */
function callLine(bin: CalibrationBin): CallLine {
  return {
    kids: bin.kids,
    horned: bin.horned,
    said: countedOf(bin.meanCall, 20),
    meanCall: bin.meanCall,
    low: bin.low,
    high: bin.high,
    came: callsCame(bin),
  };
}

/** Each reader's own readings, with the pedigree, on the heads that reader read: right, wrong and left open. */
function readerRecords(called: readonly Called[]): readonly ReaderRecord[] {
  const names = new Set(called.flatMap((c) => c.kid.readings.map((r) => r.reader)));
  return [...names].sort().map((reader) => {
    const calls = called.flatMap(({ kid, tables }) => {
      const own = kid.readings.filter((r) => r.reader === reader);
      return own.length === 0 ? [] : [{ horns: hornsAfter(kid.before, own, kid.kid, tables), grew: kid.grew }];
    });
    const open = calls.filter((c) => c.horns >= OPEN_CALL.from && c.horns <= OPEN_CALL.to).length;
    const right = calls.filter((c) => (c.grew === "horns" ? c.horns > OPEN_CALL.to : c.horns < OPEN_CALL.from)).length;
    const clear = calls.length - open;
    const { low, high } = clear === 0 ? { low: 0, high: 1 } : wilson(right, clear, Z90);
    return { reader, kids: calls.length, right, open, wrong: clear - right, low, high };
  });
}
