import { err, ok, type Result } from "@pollard/base";
import { genotypesOf } from "../locus.ts";
import { POLLED } from "../loci/polled.ts";
import { type AnimalId, animalId } from "../vocabulary.ts";
import type { Evidence, Member, PedigreeProblem } from "./pedigree-problem.ts";

/** Why a JSON value is not a pedigree problem. `path` says where, in the manner of `animals[3].sex`. */
export type GenotypeFileProblem =
  | { readonly code: "not-an-object"; readonly path: string }
  | { readonly code: "not-a-list"; readonly path: string }
  | { readonly code: "not-text"; readonly path: string }
  /** A number, or text that reads as one, from 0 to 1. */
  | { readonly code: "not-a-chance"; readonly path: string; readonly got: unknown }
  | { readonly code: "not-one-of"; readonly path: string; readonly got: unknown; readonly allowed: readonly string[] }
  | { readonly code: "wrong-length"; readonly path: string; readonly got: number; readonly wanted: number };

/** Carries a problem out of the nested readers to the one door below; never leaves this file. */
class Stop extends Error {
  readonly problem: GenotypeFileProblem;
  constructor(problem: GenotypeFileProblem) {
    super(problem.code);
    this.problem = problem;
  }
}

const GENOTYPES = genotypesOf(POLLED);
const PHENOTYPES = ["horned", "hornless"] as const;
const SEXES = ["F", "M"] as const;

/**
 * Reads a bare pedigree problem at the polled locus.
 *
 * The file gives the frequency of the horned allele among founders, tables of P(horned | genotype) by kind of
 * observation, and the animals with their observations. Anything else in it is ignored.
 *
 * Shape:  facts are named `<animal>#<number of the observation>`, counted from 1.
 * Errors: the first thing that is not as it should be, with its path. Structure (missing parents, rings) is not looked
 *         at here: see `checkProblem`.
 */
export function parseGenotypeFile(json: unknown): Result<PedigreeProblem, GenotypeFileProblem> {
  try {
    const file = object(json, "$");
    const q = chance(object(file["model"], "model")["founderFreq_p"], "model.founderFreq_p");
    const classes = new Map(
      Object.entries(object(file["penetranceClasses"], "penetranceClasses")).map(([name, row]) => [
        name,
        hornedChances(row, `penetranceClasses.${name}`),
      ]),
    );
    const members = list(file["animals"], "animals").map((a, i) => member(a, `animals[${i}]`, classes));
    return ok({ locus: POLLED, members, frequencies: { default: [1 - q, q] } });
  } catch (stop) {
    if (stop instanceof Stop) return err(stop.problem);
    throw stop;
  }
}

function member(json: unknown, path: string, classes: ReadonlyMap<string, readonly number[]>): Member {
  const a = object(json, path);
  const id = text(a["id"], `${path}.id`);
  const sire = parent(a["sire"], `${path}.sire`);
  const sex = a["sex"] === undefined || a["sex"] === null ? undefined : oneOf(a["sex"], `${path}.sex`, SEXES);
  const observations = a["observations"] === undefined ? [] : list(a["observations"], `${path}.observations`);
  const prior = a["founderPrior"] === undefined || a["founderPrior"] === null ? undefined : a["founderPrior"];
  return {
    id: animalId(id),
    dam: parent(a["dam"], `${path}.dam`),
    sires: sire === undefined ? [] : [{ sire, weight: 1 }],
    xx: sex === undefined ? 0.5 : sex === "F" ? 1 : 0,
    breed: undefined,
    ...(prior === undefined ? {} : { founderPrior: genotypeChances(prior, `${path}.founderPrior`) }),
    evidence: observations.map((o, k) => observation(o, `${path}.observations[${k}]`, `${id}#${k + 1}`, classes)),
  };
}

function observation(
  json: unknown,
  path: string,
  fact: string,
  classes: ReadonlyMap<string, readonly number[]>,
): Evidence {
  const o = object(json, path);
  const name = oneOf(o["class"], `${path}.class`, [...classes.keys()]);
  const phenotype = oneOf(o["phenotype"], `${path}.phenotype`, PHENOTYPES);
  const horned = classes.get(name) ?? [];
  const likelihood = phenotype === "horned" ? horned : horned.map((p) => 1 - p);
  return { fact, likelihood: { XX: likelihood, XY: likelihood } };
}

function hornedChances(json: unknown, path: string): readonly number[] {
  const row = object(json, path);
  return GENOTYPES.map((g) => chance(row[g], `${path}.${g}`));
}

function genotypeChances(json: unknown, path: string): readonly number[] {
  const chances = list(json, path);
  if (chances.length !== GENOTYPES.length)
    throw new Stop({ code: "wrong-length", path, got: chances.length, wanted: GENOTYPES.length });
  return chances.map((c, i) => chance(c, `${path}[${i}]`));
}

function parent(json: unknown, path: string): AnimalId | undefined {
  return json === undefined || json === null ? undefined : animalId(text(json, path));
}

function object(json: unknown, path: string): Readonly<Record<string, unknown>> {
  if (typeof json !== "object" || json === null || Array.isArray(json)) throw new Stop({ code: "not-an-object", path });
  return { ...json };
}

function list(json: unknown, path: string): readonly unknown[] {
  if (!Array.isArray(json)) throw new Stop({ code: "not-a-list", path });
  return json;
}

function text(json: unknown, path: string): string {
  if (typeof json !== "string" || json === "") throw new Stop({ code: "not-text", path });
  return json;
}

/** A chance written as a number or as decimal text, which keeps the digits its writer meant. */
function chance(json: unknown, path: string): number {
  const isNumberText = typeof json === "string" && /^\d*\.?\d+(e-?\d+)?$/i.test(json);
  const x = typeof json === "number" ? json : isNumberText ? Number(json) : Number.NaN;
  if (!(x >= 0 && x <= 1)) throw new Stop({ code: "not-a-chance", path, got: json });
  return x;
}

function oneOf<T extends string>(json: unknown, path: string, allowed: readonly T[]): T {
  const found = allowed.find((a) => a === json);
  if (found === undefined) throw new Stop({ code: "not-one-of", path, got: json, allowed });
  return found;
}
