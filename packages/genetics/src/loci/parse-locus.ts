import { err, ok, type Result, type Sourced } from "@pollard/base";
import { breedKey, genotypesOf, type Locus, type LocusTrait } from "../locus.ts";

/** Why a locus as a keeper described it cannot be used. `path` says where. */
export type LocusProblem =
  | { readonly code: "not-an-object" | "not-text" | "not-a-list"; readonly path: string }
  | { readonly code: "too-few-alleles"; readonly path: string; readonly got: number }
  | { readonly code: "too-many-alleles"; readonly path: string; readonly got: number; readonly most: number }
  | { readonly code: "allele-twice"; readonly path: string; readonly got: string }
  | { readonly code: "not-one-of"; readonly path: string; readonly got: unknown; readonly allowed: readonly string[] }
  /** Not one number from 0 to 1 for each name, or they do not sum to 1. */
  | { readonly code: "not-shares"; readonly path: string; readonly names: readonly string[] };

class Stop extends Error {
  readonly problem: LocusProblem;
  constructor(problem: LocusProblem) {
    super(problem.code);
    this.problem = problem;
  }
}

/** More would make tables that no phone can hold. */
const MOST_ALLELES = 12;
const SUM_SLACK = 1e-6;
const INHERITANCES = ["autosomal", "x-linked"] as const;

/**
 * Reads a locus that a keeper describes:
 * `{ id, name, alleles: ["A", "a"], inheritance, frequencies: { A: 0.3, a: 0.7 }, breeds?: { Boer: { … } },
 *    trait?: { id, phenotypes: ["yes", "no"], shown: { AA: { yes: 1 }, … } } }`.
 *
 * In `shown` a phenotype that is not named has no chance. Everything a keeper adds is marked as said by practitioners.
 *
 * Errors: the first thing that is not as it should be, with its path.
 */
export function parseLocus(json: unknown): Result<Locus, LocusProblem> {
  try {
    const raw = object(json, "$");
    const alleles = alleleNames(raw["alleles"]);
    const inheritance = oneOf(raw["inheritance"], "inheritance", INHERITANCES);
    const breeds = raw["breeds"] === undefined ? {} : object(raw["breeds"], "breeds");
    const bare = { id: text(raw["id"], "id"), name: text(raw["name"], "name"), alleles, inheritance };
    const founders = {
      default: said(shares(raw["frequencies"], "frequencies", alleles)),
      breeds: Object.fromEntries(
        Object.entries(breeds).map(([breed, row]) => [breedKey(breed), said(shares(row, `breeds.${breed}`, alleles))]),
      ),
    };
    const locus: Locus = { ...bare, founders };
    return ok(raw["trait"] === undefined ? locus : { ...locus, traits: [trait(raw["trait"], locus)] });
  } catch (stop) {
    if (stop instanceof Stop) return err(stop.problem);
    throw stop;
  }
}

const said = <T>(value: T): Sourced<T> => ({ value, source: "common-practice", checked: "common-practice" });

function alleleNames(json: unknown): readonly string[] {
  const names = list(json, "alleles").map((a, i) => text(a, `alleles[${i}]`));
  const twice = names.find((a, i) => names.indexOf(a) !== i);
  if (twice !== undefined) throw new Stop({ code: "allele-twice", path: "alleles", got: twice });
  if (names.length < 2) throw new Stop({ code: "too-few-alleles", path: "alleles", got: names.length });
  if (names.length > MOST_ALLELES)
    throw new Stop({ code: "too-many-alleles", path: "alleles", got: names.length, most: MOST_ALLELES });
  return names;
}

function trait(json: unknown, locus: Locus): LocusTrait {
  const raw = object(json, "trait");
  const phenotypes = list(raw["phenotypes"], "trait.phenotypes").map((p, i) => text(p, `trait.phenotypes[${i}]`));
  const shown = object(raw["shown"], "trait.shown");
  const rows = (sex: "XX" | "XY") =>
    genotypesOf(locus, sex).map((g) => shares(shown[g], `trait.shown.${g}`, phenotypes, "missing-is-0"));
  return {
    id: text(raw["id"], "trait.id"),
    standing: "belief",
    phenotypes,
    expression: said({ XX: rows("XX"), XY: rows("XY") }),
  };
}

/** One share for each name, in the order of the names. */
function shares(
  json: unknown,
  path: string,
  names: readonly string[],
  missing: "missing-is-0" | "all-needed" = "all-needed",
): readonly number[] {
  const row = object(json, path);
  const values = names.map((n) => (row[n] === undefined && missing === "missing-is-0" ? 0 : row[n]));
  const numbers = values.flatMap((v) => (typeof v === "number" && v >= 0 && v <= 1 ? [v] : []));
  const isStrange = Object.keys(row).some((k) => !names.includes(k));
  const sum = numbers.reduce((a, b) => a + b, 0);
  if (isStrange || numbers.length !== names.length || Math.abs(sum - 1) > SUM_SLACK)
    throw new Stop({ code: "not-shares", path, names });
  return numbers;
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
  if (typeof json !== "string" || json.trim() === "") throw new Stop({ code: "not-text", path });
  return json;
}

function oneOf<T extends string>(json: unknown, path: string, allowed: readonly T[]): T {
  const found = allowed.find((a) => a === json);
  if (found === undefined) throw new Stop({ code: "not-one-of", path, got: json, allowed });
  return found;
}
