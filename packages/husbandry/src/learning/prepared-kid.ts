import { present } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import type { BudCourses } from "../heads/bud-courses.ts";
import type { HeadLayout } from "./head-layout.ts";
import { type HeadKid, type HeadReading, seeRow, type Sighting, sightingsOf } from "../heads/head-network.ts";
import { CROWN_TRUTHS, type HeadRow, HORNED_STAGES, POLLED_STAGES, WHORL_TRUTHS } from "../heads/head-tables.ts";
import type { GrowthSex } from "../kid-sex.ts";

/** A kid whose head was read and of whom it is known from elsewhere what it grew. */
export interface LearningKid {
  readonly kid: HeadKid;
  readonly readings: readonly HeadReading[];
  /** What everything *but* its own head readings says: pedigree, what grew, the vet's finding, a DNA test. */
  readonly known: PolledBelief;
}

/** A piece of evidence, ready to be looked up: where its chances stand in the list for each truth it may come from. */
export interface Piece {
  /** Places of the chance of this answer, by truth. */
  readonly places: Int32Array;
  /** First place of the reader's row of second sides; -1 for a first or only side. */
  readonly second: number;
  readonly repeats: boolean;
}

/** A kid, ready to be counted. */
export interface PreparedKid {
  readonly known: PolledBelief;
  readonly kind: Kind;
  /** Evidence of what lies under the skin: four places for the horned stages, two for the polled. */
  readonly touched: readonly Piece[];
  readonly whorls: readonly Piece[];
  readonly crowns: readonly Piece[];
  /** Courses that look alike on every day this kid was touched have one pattern. */
  readonly patternOf: Uint16Array;
  /** Stage of pattern q at touch t: `stages[q * touched.length + t]`. */
  readonly stages: Uint8Array;
  readonly patterns: number;
  readonly early: boolean;
}

/** What kids of one sex and breed share. */
export interface Kind {
  readonly buds: BudCourses;
  readonly buckShare: number;
  /** Chance of each course under the chances at hand; filled anew each time. */
  readonly weights: Float64Array;
}

/** First places of the rows that say what a head is like. */
export interface Hidden {
  readonly budAge: Readonly<Record<GrowthSex, number>>;
  readonly pace: Readonly<Record<GrowthSex, number>>;
  readonly clock: number;
  readonly stage: Readonly<Record<"PP" | "Pp", Readonly<Record<GrowthSex, number>>>>;
  readonly whorl: Readonly<Record<"horned" | "polled", number>>;
  readonly crown: Readonly<Record<"horned" | "polled", number>>;
}

/** Where those rows stand in this layout. */
export const hiddenPlaces = ({ at }: HeadLayout): Hidden => ({
  budAge: { buck: at("is-bud-age buck"), doe: at("is-bud-age doe") },
  pace: { buck: at("is-pace buck"), doe: at("is-pace doe") },
  clock: at("is-clock"),
  stage: {
    PP: { buck: at("is-polled-stage PP buck"), doe: at("is-polled-stage PP doe") },
    Pp: { buck: at("is-polled-stage Pp buck"), doe: at("is-polled-stage Pp doe") },
  },
  whorl: { horned: at("is-whorl horned"), polled: at("is-whorl polled") },
  crown: { horned: at("is-crown horned"), polled: at("is-crown polled") },
});

/** The kid taken apart: its readings as pieces, and the ways of a bud that look alike on the days it was touched as one. */
export function prepare({ readings, known }: LearningKid, kind: Kind, layout: HeadLayout): PreparedKid {
  const sightings = sightingsOf(readings);
  const touches = sightings.filter((s) => s.sign === "feel" || s.sign === "skin");
  const piece = (s: Sighting, rows: readonly HeadRow[]): Piece => ({
    places: Int32Array.from(rows, (row) => layout.at(row, s.reader) + s.value),
    second: s.first === undefined ? -1 : layout.at("see-second-side", s.reader),
    repeats: s.first === s.value,
  });
  const days = touches.map((s) => kind.buds.stagesAt(s.ageDays, s.fromDueDays));
  const found = new Map<string, number>();
  const stages: number[] = [];
  const patternOf = Uint16Array.from(kind.buds.courses, (_, c) => {
    const pattern = days.map((day) => present(day[c], "stage"));
    const key = pattern.join("");
    const place = found.get(key) ?? found.size;
    if (!found.has(key)) stages.push(...pattern);
    found.set(key, place);
    return place;
  });
  return {
    known,
    kind,
    touched: touches.map((s) =>
      piece(
        s,
        [...HORNED_STAGES, ...POLLED_STAGES].map((t) => seeRow(s.sign === "feel" ? "feel" : "skin", t)),
      ),
    ),
    whorls: sightings
      .filter((s) => s.sign === "whorls")
      .map((s) =>
        piece(
          s,
          WHORL_TRUTHS.map((t) => `see-whorl ${t}` as const),
        ),
      ),
    crowns: sightings
      .filter((s) => s.sign === "crown")
      .map((s) =>
        piece(
          s,
          CROWN_TRUTHS.map((t) => `see-crown ${t}` as const),
        ),
      ),
    patternOf,
    stages: Uint8Array.from(stages),
    patterns: found.size,
    early: touches.some((s) => s.fromDueDays !== undefined),
  };
}

/** Fills in the chance of each course. */
export function weigh({ buds, weights }: Kind, list: Float64Array, hidden: Hidden): void {
  for (const [c, { sex, age, pace, clock, share }] of buds.courses.entries()) {
    const [ages, paces] = [hidden.budAge[sex], hidden.pace[sex]];
    weights[c] = share * (list[ages + age] ?? 0) * (list[paces + pace] ?? 0) * (list[hidden.clock + clock] ?? 0);
  }
}

/** Chance of an answer from truth `t`; a second side's may repeat the first. */
export function chanceOf(piece: Piece, t: number, list: Float64Array): number {
  const chance = list[piece.places[t] ?? 0] ?? 0;
  if (piece.second < 0) return chance;
  return (piece.repeats ? (list[piece.second] ?? 0) : 0) + (list[piece.second + 1] ?? 0) * chance;
}
