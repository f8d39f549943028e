import { present, type Sourced } from "@pollard/base";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "./head-signs.ts";

/** Ages in days at which a horned kid's bud can first be felt; the last stands for "later than day 14". */
export const BUD_AGES = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 18] as const;

/** How fast a felt bud goes on. */
export const PACES = ["quick", "usual", "slow"] as const;
export type Pace = (typeof PACES)[number];
/** Days from felt to pointed and to through. Keepers: some break the skin within days of birth, others in the third week. */
export const PACE_DAYS: Sourced<Readonly<Record<Pace, { readonly pointed: number; readonly tip: number }>>> = {
  value: { quick: { pointed: 0, tip: 3 }, usual: { pointed: 2, tip: 9 }, slow: { pointed: 5, tip: 16 } },
  source: "common-practice",
  checked: "common-practice",
};

/** Where the hair of a head truly whorls; like the crown's outline it does not change in the first weeks. */
export const WHORL_TRUTHS = ["over-buds", "elsewhere"] as const;
/** How the crown of a head is truly outlined. */
export const CROWN_TRUTHS = ["flat", "rounded"] as const;
/** What lies under the skin of a polled kid where a horn would be. */
export const POLLED_STAGES = ["smooth", "knob"] as const;
/** What lies under the skin of a horned kid, in the order in which it comes. */
export const HORNED_STAGES = ["not-yet", "low-bud", "pointed-bud", "tip"] as const;
/** From which day a kid's buds count their age: its birth, or the day it was due. */
export const CLOCKS = ["birth", "due"] as const;

/** How a reader who answers for each side comes by the second answer: it repeats the first, or it is one of its own. */
export const SECOND_SIDES = ["repeated", "own"] as const;

/**
 * Every row of the head's tables, with the values it spreads its chances over.
 *
 * `is-…` rows say what a head is like, given what it will grow; `see-…` rows say what a reader reports, given what the
 * head is like. Only `see-…` rows belong to a reader.
 */
export const HEAD_ROWS = {
  "is-whorl horned": WHORL_TRUTHS,
  "is-whorl polled": WHORL_TRUTHS,
  "is-crown horned": CROWN_TRUTHS,
  "is-crown polled": CROWN_TRUTHS,
  "is-bud-age buck": BUD_AGES,
  "is-bud-age doe": BUD_AGES,
  "is-pace buck": PACES,
  "is-pace doe": PACES,
  "is-polled-stage PP buck": POLLED_STAGES,
  "is-polled-stage PP doe": POLLED_STAGES,
  "is-polled-stage Pp buck": POLLED_STAGES,
  "is-polled-stage Pp doe": POLLED_STAGES,
  "is-clock": CLOCKS,
  "see-feel flat": BUD_FEELS,
  "see-feel knob": BUD_FEELS,
  "see-feel low-bud": BUD_FEELS,
  "see-feel pointed-bud": BUD_FEELS,
  "see-feel tip": BUD_FEELS,
  "see-skin smooth": SKIN_HOLDS,
  "see-skin knob": SKIN_HOLDS,
  "see-skin not-yet": SKIN_HOLDS,
  "see-skin low-bud": SKIN_HOLDS,
  "see-skin pointed-bud": SKIN_HOLDS,
  "see-skin tip": SKIN_HOLDS,
  "see-whorl over-buds": WHORLS,
  "see-whorl elsewhere": WHORLS,
  "see-crown flat": CROWNS,
  "see-crown rounded": CROWNS,
  "see-second-side": SECOND_SIDES,
} as const satisfies Readonly<Record<string, readonly (string | number)[]>>;

/** The name of one row of the tables. */
export type HeadRow = keyof typeof HEAD_ROWS;
/** The rows that tell how well a sign is seen by those who look. */
export type SeeRow = Extract<HeadRow, `see-${string}`>;
/** All rows, in the order of `HEAD_ROWS`. */
export const HEAD_ROW_NAMES = Object.keys(HEAD_ROWS) as readonly HeadRow[];
/** The rows of how signs are seen, in the order of `HEAD_ROWS`. */
export const SEE_ROW_NAMES = HEAD_ROW_NAMES.filter((name): name is SeeRow => name.startsWith("see-"));

/** Pseudo-counts of one row, in the order of `HEAD_ROWS`: "as if so many such heads had been seen". All above 0. */
export type Counts = Sourced<readonly number[]>;

/**
 * All that is believed about heads and their readers, before or after learning.
 *
 * Shape: `readers` holds the `see-…` rows of readers whose own record is long enough to differ from everybody's.
 *        `breedDelayDays` shifts the bud's age for a breed, by lower-case name (positive = later). `draws` are whole sets of
 *        chances drawn from what was learnt, where something was: they hold what the rows' counts cannot, how the rows
 *        hang together.
 */
export interface HeadTables {
  readonly rows: Readonly<Record<HeadRow, Counts>>;
  readonly readers: ReadonlyMap<string, Readonly<Record<SeeRow, Counts>>>;
  readonly breedDelayDays: ReadonlyMap<string, number>;
  readonly draws?: readonly HeadChances[];
}

/** Chances with the weight they carry: `weight` heads' worth of experience. */
const practice = (weight: number, chances: readonly number[], source = "common-practice"): Counts => ({
  value: chances.map((c) => c * weight),
  source,
  checked: "common-practice",
});
const judged = (weight: number, chances: readonly number[]): Counts => ({
  value: chances.map((c) => c * weight),
  source: "judgement",
  checked: "judgement",
});

/**
 * The tables a herd starts with, before its own outcomes are known.
 *
 * No accuracy of a newborn's reading has ever been published (facts in METHODS.md), so the *direction* of each row is
 * what practitioners say and its *size* is our judgement, with small weights that a few dozen confirmed kids outvote.
 * One cue stands in print: skin held fast over two rosettes means buds, movable skin means hornless
 * [extension-goat-handbook]; the size of its effect does not, so it too is marked as practice.
 */
export const DEFAULT_HEAD_TABLES: HeadTables = {
  rows: {
    // Whorls over the buds in horned kids, none or one in the middle in polled ones: keepers agree, no study found.
    "is-whorl horned": practice(20, [0.93, 0.07]),
    "is-whorl polled": practice(20, [0.07, 0.93]),
    // A domed crown of hair in polled kids "normally, but not always".
    "is-crown horned": practice(12, [0.75, 0.25]),
    "is-crown polled": practice(12, [0.25, 0.75]),
    // Bucklings at or near birth, doelings up to about a week; a tail, since some come in the third week.
    "is-bud-age buck": practice(
      20,
      [0.4, 0.18, 0.14, 0.1, 0.06, 0.04, 0.025, 0.02, 0.01, 0.007, 0.005, 0.003, 0.002, 0.002, 0.002, 0.004],
    ),
    "is-bud-age doe": practice(
      20,
      [0.08, 0.09, 0.12, 0.14, 0.14, 0.12, 0.09, 0.07, 0.045, 0.03, 0.02, 0.015, 0.01, 0.008, 0.007, 0.015],
    ),
    // Buck buds are wider and faster; a quick one can break the skin within days.
    "is-pace buck": practice(10, [0.35, 0.5, 0.15]),
    "is-pace doe": practice(10, [0.15, 0.55, 0.3]),
    // Polled goats carry bony bumps, larger in Pp than in PP from three months [ricordeau1972]; at birth: judged.
    "is-polled-stage PP buck": judged(10, [0.65, 0.35]),
    "is-polled-stage PP doe": judged(10, [0.75, 0.25]),
    "is-polled-stage Pp buck": judged(10, [0.5, 0.5]),
    "is-polled-stage Pp doe": judged(10, [0.6, 0.4]),
    // Early kids: "left until the due date" say some keepers, nobody measured; half claims least.
    "is-clock": judged(6, [0.5, 0.5]),
    "see-feel flat": practice(20, [0.86, 0.12, 0.018, 0.002]),
    "see-feel knob": practice(16, [0.25, 0.68, 0.065, 0.005]),
    "see-feel low-bud": practice(16, [0.15, 0.55, 0.29, 0.01]),
    "see-feel pointed-bud": practice(16, [0.03, 0.12, 0.8, 0.05]),
    "see-feel tip": practice(16, [0.005, 0.01, 0.085, 0.9]),
    "see-skin smooth": practice(16, [0.76, 0.19, 0.05], "extension-goat-handbook"),
    "see-skin knob": practice(16, [0.72, 0.22, 0.06], "extension-goat-handbook"),
    "see-skin not-yet": practice(12, [0.45, 0.35, 0.2]),
    "see-skin low-bud": practice(12, [0.12, 0.35, 0.53], "extension-goat-handbook"),
    "see-skin pointed-bud": practice(16, [0.04, 0.2, 0.76], "extension-goat-handbook"),
    "see-skin tip": practice(16, [0.02, 0.08, 0.9], "extension-goat-handbook"),
    // An unclear whorl is a little likelier where there is one to be seen.
    "see-whorl over-buds": practice(16, [0.06, 0.24, 0.7]),
    "see-whorl elsewhere": practice(16, [0.75, 0.18, 0.07]),
    "see-crown flat": practice(12, [0.1, 0.25, 0.65]),
    "see-crown rounded": practice(12, [0.7, 0.22, 0.08]),
    // Same fingers, same moment, same expectation: the second side is half a witness until the herd's readers show otherwise.
    "see-second-side": judged(8, [0.5, 0.5]),
  },
  readers: new Map(),
  breedDelayDays: new Map(),
};

/** One concrete set of chances: every row a distribution that sums to 1. What the arithmetic works with. */
export interface HeadChances {
  /** The row as `reader` reads it; rows that describe heads are the same for everybody. */
  row(name: HeadRow, reader?: string): readonly number[];
  readonly breedDelayDays: ReadonlyMap<string, number>;
}

/**
 * A set of chances from the tables, row by row.
 *
 * @param of turns a row's pseudo-counts into chances: their mean for the best single answer, a draw for an interval.
 */
export function chancesFrom(tables: HeadTables, of: (counts: readonly number[]) => readonly number[]): HeadChances {
  const shared = new Map(HEAD_ROW_NAMES.map((name) => [name, of(tables.rows[name].value)]));
  const own = new Map(
    [...tables.readers].map(([reader, rows]) => [
      reader,
      new Map(SEE_ROW_NAMES.map((name) => [name as HeadRow, of(rows[name].value)])),
    ]),
  );
  return {
    row: (name, reader) =>
      (reader === undefined ? undefined : own.get(reader)?.get(name)) ?? present(shared.get(name), name),
    breedDelayDays: tables.breedDelayDays,
  };
}

/** The mean of a row of pseudo-counts: each count over their sum. */
export function meanOf(counts: readonly number[]): readonly number[] {
  const sum = counts.reduce((a, b) => a + b, 0);
  return counts.map((c) => c / sum);
}

/** The single best set of chances: every row's mean. */
export const meanChances = (tables: HeadTables): HeadChances => chancesFrom(tables, meanOf);
