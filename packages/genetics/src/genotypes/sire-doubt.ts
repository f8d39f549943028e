import { present } from "@pollard/base";
import type { FactorGraph } from "../inference/factor-graph.ts";
import { f64 } from "../inference/cell.ts";
import { logTotal } from "../inference/log-total.ts";
import type { Calibration } from "../inference/propagation.ts";
import { chancesOf } from "../inference/region.ts";
import type { Litter } from "../pedigree/litters.ts";
import type { Gametes } from "./state-space.ts";

/** A litter's sire as a variable: its states are the possible sires, each for all kids, and last, if that can be, each for itself. */
export interface LitterVariable {
  readonly litter: Litter;
  readonly variable: number;
}

/**
 * How the doubt about a sire stands in the tables: as a variable whose states are the animal's `sires`, each with each
 * allele that may have come from him; or, for one buck and the unknown ones, as a factor made of one table per candidate:
 * the kid's own, or that of the allele handed on. The factor is their sum, or has them one after the other where the
 * litter's sire (the first of its scope) says which.
 *
 * `weights` are how much of each candidate stands there: what is said of him, and his weight unless the litter has it.
 */
export type SireDoubt =
  | {
      readonly kind: "choice";
      readonly variable: number;
      readonly alleles: number;
      readonly weights: readonly number[];
      readonly byLitter: LitterLink | undefined;
    }
  | {
      readonly kind: "mixture";
      readonly factor: number;
      readonly tables: readonly Float64Array[];
      readonly weights: readonly number[];
      readonly byLitter: LitterLink | undefined;
    };

/** Where a kid's sire hangs on its litter's: the litter's variable, and the factor that stands between. */
export interface LitterLink {
  readonly litter: number;
  readonly factor: number;
}

/** The chance of each candidate sire, where the doubt about him stands in the tables of one locus. */
export function sireChances(graph: FactorGraph, beliefs: Calibration, doubt: SireDoubt): readonly number[] {
  const weights = doubt.kind === "choice" ? choiceWeights(graph, beliefs, doubt) : mixtureWeights(beliefs, doubt);
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((w) => w / total);
}

function choiceWeights(
  { logUnary }: FactorGraph,
  beliefs: Calibration,
  { variable, alleles }: Extract<SireDoubt, { kind: "choice" }>,
): readonly number[] {
  const chances = chancesOf(beliefs.logCavity(variable), present(logUnary[variable], "the candidates' weights"));
  return Array.from({ length: chances.length / alleles }, (_, k) =>
    chances.subarray(k * alleles, (k + 1) * alleles).reduce((a, b) => a + b, 0),
  );
}

function mixtureWeights(
  beliefs: Calibration,
  { factor, tables, weights, byLitter }: Extract<SireDoubt, { kind: "mixture" }>,
): readonly number[] {
  const { values, from, scale } = beliefs.around(factor);
  const candidates = tables.map((table, k) => ({
    table,
    weight: present(weights[k], "a weight"),
    from: byLitter ? from + k * table.length : from,
  }));
  if (scale === "linear")
    return candidates.map((c) => {
      let sum = 0;
      for (let at = 0; at < c.table.length; at++) sum += f64(c.table, at) * f64(values, c.from + at);
      return c.weight * sum;
    });
  const logs = candidates.map(
    (c) => Math.log(c.weight) + logTotal(c.table.map((p, at) => Math.log(p) + f64(values, c.from + at))),
  );
  const top = Math.max(...logs);
  return logs.map((log) => Math.exp(log - top));
}

/**
 * The chances of every combination of sires of some kids of one litter, row-major over their `sires`, the last kid's fastest;
 * `undefined` where they know nothing of each other's.
 */
export function siresTogether(beliefs: Calibration, doubts: readonly SireDoubt[]): readonly number[] | undefined {
  const [first] = doubts;
  const litter = first?.byLitter?.litter;
  if (!first || litter === undefined || doubts.some(({ byLitter }) => byLitter?.litter !== litter)) return undefined;
  const choices = doubts.flatMap((d) => (d.kind === "choice" ? [{ variable: d.variable, copies: d.alleles }] : []));
  if (choices.length === doubts.length) return jointSires(beliefs, first.weights.length, choices);
  // One sire for all, whom the litter's variable names.
  const candidates = first.weights.length;
  const oneForAll = beliefs.joint([litter], new Map());
  const combinations = Array.from({ length: candidates ** doubts.length }, () => 0);
  const step = doubts.reduce((at) => at * candidates + 1, 0);
  oneForAll.forEach((p, k) => {
    combinations[k * step] = p;
  });
  return combinations;
}

/** The joint chances of variables whose states are the candidates, each as many times as there are copies. */
export function jointSires(
  beliefs: Calibration,
  candidates: number,
  variables: readonly { readonly variable: number; readonly copies: number }[],
): readonly number[] {
  const joint = beliefs.joint(
    variables.map(({ variable }) => variable),
    new Map(),
  );
  const chances = Array.from({ length: candidates ** variables.length }, () => 0);
  joint.forEach((p, cell) => {
    let [rest, at, step] = [cell, 0, 1];
    for (const { copies } of variables.toReversed()) {
      const states = candidates * copies;
      at += step * Math.floor((rest % states) / copies);
      rest = Math.floor(rest / states);
      step *= candidates;
    }
    chances[at] = (chances[at] ?? 0) + p;
  });
  return chances;
}

/** Over (the litter's sire, a kid's sire and allele): the same sire, or where each kid has its own, his weight. */
export function litterTable({ weights, mixed }: Litter, alleles: number): Float64Array {
  const width = weights.length * alleles;
  const rows = weights.map((_, k) =>
    Array.from({ length: width }, (_, at) => (Math.floor(at / alleles) === k ? 1 : 0)),
  );
  const own = Array.from({ length: width }, (_, at) => present(weights[Math.floor(at / alleles)], "a weight"));
  return Float64Array.from((mixed > 0 ? [...rows, own] : rows).flat());
}

/** Over (which sire and allele, candidate k's state): the candidate's gamete where he is the one, else no say. */
export function choiceTable(candidates: number, k: number, gametes: Gametes, alleles: number): Float64Array {
  const states = gametes.length;
  const table = new Float64Array(candidates * alleles * states).fill(1);
  gametes.forEach((row, s) => {
    row.forEach((p, a) => {
      table[(k * alleles + a) * states + s] = p;
    });
  });
  return table;
}
