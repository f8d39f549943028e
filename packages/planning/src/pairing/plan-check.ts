import { present } from "@pollard/base";
import { chanceAt, drawn } from "../forecast/chance-streams.ts";
import { spreadOf } from "../forecast/forecast.ts";
import type { HerdDraw } from "../forecast/herd-draws.ts";
import { drawKid } from "../forecast/kid-draw.ts";
import type { PairOutlook } from "./pair.ts";
import type { BuckOf } from "./plan-loss.ts";

/** A plan worked out a second way: what was calculated against what came of simulated seasons. */
export interface PlanCheck {
  readonly of: "kids" | "horned" | "intersex";
  /** Kids in the season. */
  readonly calculated: number;
  readonly simulated: number;
  /** Between which numbers nine in ten simulated seasons lie. */
  readonly low: number;
  readonly high: number;
  /** How far the simulated mean may stray by chance: one standard error. */
  readonly error: number;
  readonly agrees: "yes" | "no";
}

/** What a plan is checked from. `outlooks` in the order of the does, each with the plan's buck. */
export interface PlanCheckQuestion {
  readonly buckOf: BuckOf;
  readonly outlooks: readonly (PairOutlook | undefined)[];
  readonly draw: HerdDraw;
  /** Chance that each buck can breed if he is PP. */
  readonly ppFertile: readonly number[];
  /** Chance of each number of kids of each doe, from none. */
  readonly litters: readonly (readonly number[])[];
  readonly seasons: number;
  readonly seed: number;
}

/** Standard errors that chance alone does not stray beyond more than once in some ten thousand plans. */
const STRAY = 4;

/**
 * Simulates the season of a plan many times over, from what the animals may be, and holds it against what was calculated.
 *
 * Source: rule PA-9.
 */
export function checkPlan(question: PlanCheckQuestion): readonly PlanCheck[] {
  const { buckOf, outlooks, litters, ppFertile, seasons, seed } = question;
  const n = buckOf.length;
  const seen: Readonly<Record<PlanCheck["of"], number[]>> = { kids: [], horned: [], intersex: [] };
  for (let season = 0; season < seasons; season++) {
    const random = chanceAt(seed, season);
    const genotypes = question.draw(random);
    const able = ppFertile.map((p, b) => genotypes[n + b] !== 0 || random.next() < p);
    const born = { kids: 0, horned: 0, intersex: 0 };
    buckOf.forEach((buck, doe) => {
      const dam = present(genotypes[doe], "a doe's genotype");
      if (buck === undefined || dam === 0 || able[buck] !== true) return;
      const count = drawn(random, litters[doe] ?? []);
      for (let k = 0; k < count; k++) {
        const kid = drawKid(random, present(genotypes[n + buck], "a buck's genotype"), dam);
        born.kids++;
        if (kid.genotype === 2) born.horned++;
        if (kid.intersex === "yes") born.intersex++;
      }
    });
    for (const of of MEASURES) seen[of].push(born[of]);
  }
  return MEASURES.map((of) => {
    const calculated = outlooks.reduce((sum, outlook, doe) => {
      if (outlook === undefined) return sum;
      const mean = (litters[doe] ?? []).reduce((total, chance, k) => total + chance * k, 0);
      return sum + outlook.fertile * mean * (of === "kids" ? 1 : outlook.kids[of]);
    }, 0);
    const { mean: simulated, low, high } = spreadOf(seen[of]);
    const variance = seen[of].reduce((sum, x) => sum + (x - simulated) ** 2, 0) / seasons;
    // A count never seen may still have a chance of about one in so many seasons.
    const error = Math.sqrt(Math.max(variance, 1 / seasons) / seasons);
    return {
      of,
      calculated,
      simulated,
      low,
      high,
      error,
      agrees: Math.abs(calculated - simulated) <= STRAY * error ? "yes" : "no",
    };
  });
}

const MEASURES = ["kids", "horned", "intersex"] as const;
