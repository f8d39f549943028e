import { type Random } from "@pollard/base";
import { dirichletDraw } from "../dirichlet.ts";
import { headCounter } from "./head-counts.ts";
import type { LearningKid } from "./prepared-kid.ts";
import { eachRow, type HeadCounts } from "./head-layout.ts";
import { sightingsOf } from "../heads/head-network.ts";
import {
  chancesFrom,
  type Counts,
  type HeadChances,
  HEAD_ROW_NAMES,
  type HeadRow,
  type HeadTables,
  meanChances,
  meanOf,
  SEE_ROW_NAMES,
} from "../heads/head-tables.ts";

/** Kids with a known outcome that a reader must have read before their own tables are kept. Our judgement. */
const OWN_TABLES_FROM = 12;
/** How many answers of the herd's tables stand against a reader's own record, row by row. Our judgement. */
const SHRINKAGE = 15;
/** Kids of a breed with a known outcome before its delay is asked for, and how far delays usually reach, days. */
const BREED_FROM = 8;
const BREED_SPREAD_DAYS = 1.5;
/** Delays tried, days: half days from four early to four late. */
const DELAYS = Array.from({ length: 17 }, (_, i) => -4 + i / 2);
/** Sets of tables drawn to tell how sure the learnt ones are; rounds left out at first; rounds from one set kept to the next. */
const DRAWS = 160;
const LEFT_OUT = 20;
const EVERY = 4;
/** Most rounds of learning; it ends sooner once a round adds less than this to the log of the posterior. */
const ROUNDS = 80;
const SETTLED = 1e-4;

/** What a row said before and says after, and how many heads are behind the change. */
export interface LearntRow {
  readonly row: HeadRow;
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Heads (or answers about heads) counted, parts of heads added up. */
  readonly seen: number;
}

/** The herd's own tables and what they are built on. */
export interface LearntHeads {
  readonly tables: HeadTables;
  readonly kids: number;
  readonly rows: readonly LearntRow[];
  /** Readers with tables of their own, and how many of these kids each of them read. */
  readonly readers: ReadonlyMap<string, number>;
  /** Log of the posterior of the shared rows, up to a constant, round by round. */
  readonly rounds: readonly number[];
}

/**
 * The head's tables after a herd's own outcomes: the prior's pseudo-counts and the kids' counts, added.
 *
 * Expectation-maximisation to the most probable tables: what stays hidden in a kid's head counts as far as it is believed,
 * the chances are the means of the added counts, and both are repeated until nothing moves. Then breeds with kids enough
 * get a delay of their buds, and readers with kids enough tables of their own, each pulled towards everybody's.
 *
 * Shape:   no kids give the prior back. `rounds` never falls.
 * Assumes: `known` holds nothing of the kid's own head readings, and the kids are those whose own outcome shows what they
 *          are (`isTruth`, the vet's finding, a DNA test); others would teach the tables what they already believe. The
 *          counts say more than was seen (parts of heads count like whole ones): `asSureAs` puts that right.
 * Cost:    rounds × kids × some 20 microseconds a sign.
 * Source:  [dempster1977] EM; the mean of a Dirichlet is its mode in the softmax basis [mackay1998]; rules HD-23, HD-24.
 */
export function learnHeads(kids: readonly LearningKid[], prior: HeadTables): LearntHeads {
  if (kids.length === 0)
    return {
      tables: prior,
      kids: 0,
      rows: rowsSaid(prior, prior, headCounter([], prior).expect(meanChances(prior))),
      readers: new Map(),
      rounds: [],
    };
  let learnt = learnShared(kids, prior);
  const breedDelayDays = learnDelays(kids, learnt.tables);
  if ([...breedDelayDays].some(([breed, days]) => days !== (prior.breedDelayDays.get(breed) ?? 0)))
    learnt = learnShared(kids, { ...prior, breedDelayDays });
  const readers = readersOf(kids);
  return {
    tables: { ...learnt.tables, readers: learnReaders(kids, learnt.tables, readers) },
    kids: kids.length,
    rows: rowsSaid(prior, learnt.tables, learnt.counts),
    readers,
    rounds: learnt.rounds,
  };
}

/**
 * The learnt tables with the weight they deserve, and whole sets of chances drawn from what was learnt.
 *
 * Counts that are only believed are worth less than heads that were seen, so the added counts claim too much. Complete tables
 * are drawn from their posterior instead (a head drawn for each kid, then tables for those heads, and again: Gibbs
 * sampling), and each row's weight is set so that a Dirichlet spreads as the draws do.
 *
 * Cost:   DRAWS × EVERY rounds of one drawn head for each kid.
 * Source: [tanner-wong1987] data augmentation; rule HD-25.
 */
export function asSureAs(
  kids: readonly LearningKid[],
  learnt: HeadTables,
  prior: HeadTables,
  random: Random,
): HeadTables {
  const draws: HeadChances[] = [];
  const start: HeadTables = { ...prior, breedDelayDays: learnt.breedDelayDays, readers: new Map() };
  const counter = headCounter(kids, start);
  let chances = meanChances({ ...learnt, readers: new Map() });
  for (let round = 1; draws.length < DRAWS; round++) {
    const rows = addedRows(HEAD_ROW_NAMES, start.rows, counter.draw(chances, random).rows);
    chances = chancesFrom({ ...start, rows }, (value) => dirichletDraw(value, random));
    if (round > LEFT_OUT && round % EVERY === 0) draws.push(chances);
  }
  const rows = eachRow(HEAD_ROW_NAMES, (row): Counts => {
    const { value, source, checked } = learnt.rows[row];
    const weight = weightOf(draws.map((d) => d.row(row)));
    return { value: meanOf(value).map((p) => p * weight), source, checked };
  });
  const tables = { ...learnt, rows };
  return { ...tables, draws: withReaders(draws, tables, random) };
}

const rowsSaid = (before: HeadTables, after: HeadTables, counts: HeadCounts): readonly LearntRow[] =>
  HEAD_ROW_NAMES.map((row) => ({
    row,
    before: meanOf(before.rows[row].value),
    after: meanOf(after.rows[row].value),
    seen: counts.rows[row].reduce((a, b) => a + b, 0),
  }));

/** The rows that hold for everybody. */
function learnShared(kids: readonly LearningKid[], prior: HeadTables) {
  const start: HeadTables = { ...prior, readers: new Map() };
  const counter = headCounter(kids, start);
  let tables = start;
  let counts = counter.expect(meanChances(tables));
  const rounds: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    if (round > 0) counts = counter.expect(meanChances(tables));
    const log = counts.log + logPrior(start.rows, tables.rows, HEAD_ROW_NAMES);
    const settled = round > 0 && log - (rounds.at(-1) ?? 0) < SETTLED;
    rounds.push(log);
    if (settled) break;
    tables = { ...tables, rows: addedRows(HEAD_ROW_NAMES, start.rows, counts.rows) };
  }
  return { tables, counts, rounds };
}

/** The weight of the Dirichlet that spreads as widely as these draws; at least 1. */
function weightOf(draws: readonly (readonly number[])[]): number {
  const places = (draws[0] ?? []).map((_, i) => draws.map((d) => d[i] ?? 0));
  const means = places.map((xs) => xs.reduce((a, b) => a + b, 0) / xs.length);
  const spread = places.reduce((a, xs, i) => a + xs.reduce((b, x) => b + (x - (means[i] ?? 0)) ** 2, 0) / xs.length, 0);
  const widest = means.reduce((a, m) => a + m * (1 - m), 0);
  return Math.max(widest / spread - 1, 1);
}

/** The drawn sets with readers' own rows drawn to go with them. */
function withReaders(draws: readonly HeadChances[], tables: HeadTables, random: Random): readonly HeadChances[] {
  if (tables.readers.size === 0) return draws;
  return draws.map((shared) => {
    const own = chancesFrom(tables, (value) => dirichletDraw(value, random));
    return {
      ...shared,
      row: (name, reader) => (reader !== undefined && tables.readers.has(reader) ? own : shared).row(name, reader),
    };
  });
}

/** Tables of their own for these readers, with everything about heads, and everybody else, left as it is. */
function learnReaders(
  kids: readonly LearningKid[],
  shared: HeadTables,
  readers: ReadonlyMap<string, number>,
): HeadTables["readers"] {
  const shrunk = eachRow(SEE_ROW_NAMES, (row) => ({
    ...shared.rows[row],
    value: meanOf(shared.rows[row].value).map((p) => p * SHRINKAGE),
  }));
  let own: HeadTables["readers"] = new Map([...readers.keys()].map((reader) => [reader, shrunk]));
  const counter = headCounter(kids, shared, readers.keys());
  for (let round = 0, before = Number.NEGATIVE_INFINITY; round < ROUNDS && own.size > 0; round++) {
    const prior = [...own.values()].reduce((log, rows) => log + logPrior(shrunk, rows, SEE_ROW_NAMES), 0);
    const counts = counter.expect(meanChances({ ...shared, readers: own }));
    if (counts.log + prior - before < SETTLED) break;
    before = counts.log + prior;
    own = new Map([...counts.readers].map(([reader, seen]) => [reader, addedRows(SEE_ROW_NAMES, shrunk, seen)]));
  }
  return own;
}

/** Log of the prior of the rows' means, up to a constant, in the basis in which EM's mean is the mode. */
function logPrior<Row extends HeadRow>(
  prior: Readonly<Record<Row, Counts>>,
  rows: Readonly<Record<Row, Counts>>,
  names: readonly Row[],
): number {
  return names.reduce((log, name) => {
    const means = meanOf(rows[name].value);
    return log + prior[name].value.reduce((a, count, i) => a + count * Math.log(means[i] ?? 0), 0);
  }, 0);
}

const addedRows = <Row extends HeadRow>(
  names: readonly Row[],
  prior: Readonly<Record<Row, Counts>>,
  seen: Readonly<Record<Row, readonly number[]>>,
): Readonly<Record<Row, Counts>> =>
  eachRow(names, (row): Counts => {
    const { value, source, checked } = prior[row];
    return { value: value.map((c, i) => c + (seen[row][i] ?? 0)), source, checked };
  });

/** The delay of each breed with kids enough that explains their heads best, pulled towards none. */
function learnDelays(kids: readonly LearningKid[], tables: HeadTables): ReadonlyMap<string, number> {
  const byBreed = new Map<string | undefined, LearningKid[]>();
  for (const k of kids) {
    const breed = k.kid.breed?.toLowerCase();
    byBreed.set(breed, [...(byBreed.get(breed) ?? []), k]);
  }
  const delays = new Map(tables.breedDelayDays);
  for (const [breed, its] of byBreed) {
    if (breed === undefined || its.length < BREED_FROM) continue;
    const scored = DELAYS.map((days) => {
      const { log } = headCounter(its, { breedDelayDays: new Map([[breed, days]]) }).expect(meanChances(tables));
      return { days, log: log - 0.5 * (days / BREED_SPREAD_DAYS) ** 2 };
    });
    delays.set(breed, scored.reduce((a, b) => (b.log > a.log ? b : a)).days);
  }
  return delays;
}

/** Readers who read kids enough, and how many. */
function readersOf(kids: readonly LearningKid[]): ReadonlyMap<string, number> {
  const read = new Map<string, number>();
  for (const k of kids)
    for (const reader of new Set(sightingsOf(k.readings).map((s) => s.reader)))
      read.set(reader, (read.get(reader) ?? 0) + 1);
  return new Map([...read].filter(([, count]) => count >= OWN_TABLES_FROM));
}
