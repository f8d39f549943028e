import { locusFromText, locusKey, type LocusSettingProblem } from "@pollard/advice";
import { ok, type Result } from "@pollard/base";
import { type AllelePair, allelePairs, CHROMOSOMAL_SEXES, genotypesOf, type Locus } from "@pollard/genetics";
import { typedNumber } from "../../parts/answers/typed-number.ts";

/** What a keeper says of a trait of their own. */
export interface OwnLocusAnswers {
  readonly name: string;
  /** As typed: with commas or blanks between them. */
  readonly alleles: string;
  readonly inheritance: Locus["inheritance"];
  /** How many in 100 alleles of unknown parents are of each allele but the last, which has the rest. */
  readonly shares: readonly string[];
  readonly shows: "never" | "one" | "two";
  readonly look: string;
  readonly otherwise: string;
}

export const EMPTY: OwnLocusAnswers = {
  name: "",
  alleles: "",
  inheritance: "autosomal",
  shares: [],
  shows: "never",
  look: "",
  otherwise: "",
};

/** The alleles as typed, each once. */
export const allelesOf = ({ alleles }: OwnLocusAnswers): readonly string[] =>
  [...new Set(alleles.split(/[\s,;]+/))].filter((allele) => allele !== "");

/** The id of a trait by its name: letters and digits, with strokes between words. */
export const idOf = (name: string): string =>
  name
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "");

/** What is still to be said of the trait before anything can be made of it. */
export function locusMissing(answers: OwnLocusAnswers): readonly ("name" | "alleles" | "look" | "otherwise")[] {
  const shown = answers.shows !== "never";
  return [
    ...(idOf(answers.name) === "" ? (["name"] as const) : []),
    ...(allelesOf(answers).length < 2 ? (["alleles"] as const) : []),
    ...(shown && answers.look.trim() === "" ? (["look"] as const) : []),
    ...(shown && answers.otherwise.trim() === "" ? (["otherwise"] as const) : []),
  ];
}

/** The setting that keeps the trait, once what was said describes one. `needs`: a name or the alleles are missing. */
export function ownLocus(
  answers: OwnLocusAnswers,
  taken: ReadonlySet<string>,
): Result<
  { readonly key: string; readonly value: string },
  LocusSettingProblem | { readonly code: "needs" | "taken" }
> {
  const id = idOf(answers.name);
  const alleles = allelesOf(answers);
  if (id === "" || alleles.length < 2) return { ok: false, error: { code: "needs" } };
  if (taken.has(id)) return { ok: false, error: { code: "taken" } };
  const value = JSON.stringify({
    name: answers.name.trim(),
    alleles,
    inheritance: answers.inheritance,
    frequencies: frequencies(alleles, answers.shares),
    ...trait(answers, id, alleles),
  });
  const read = locusFromText(id, value);
  return read.ok ? ok({ key: locusKey(id), value }) : read;
}

/** Shares of the alleles: those said, and the rest for the last; what was not said is shared out evenly. */
function frequencies(alleles: readonly string[], shares: readonly string[]): Readonly<Record<string, number>> {
  const said = alleles.slice(0, -1).map((_, i) => {
    const typed = typedNumber(shares[i] ?? "");
    return typed.state === "empty" ? 100 / alleles.length : typed.state === "number" ? typed.value : Number.NaN;
  });
  const rest = 100 - said.reduce((a, b) => a + b, 0);
  return Object.fromEntries(alleles.map((allele, i) => [allele, (said[i] ?? rest) / 100]));
}

function trait({ shows, look, otherwise, inheritance }: OwnLocusAnswers, id: string, alleles: readonly string[]) {
  if (shows === "never") return {};
  const [seen, plain] = [look.trim(), otherwise.trim()];
  const locus = { alleles, inheritance } as Locus;
  const shown = Object.fromEntries(
    CHROMOSOMAL_SEXES.flatMap((sex) => {
      const pairs = allelePairs(locus, sex);
      return genotypesOf(locus, sex).map((name, g) => [name, { [isShown(pairs[g] ?? [0], shows) ? seen : plain]: 1 }]);
    }),
  );
  return { trait: { id, phenotypes: [seen, plain], shown } };
}

/** Does a genotype show the first allele? An animal with one X shows what that X has. */
const isShown = (pair: AllelePair, shows: "one" | "two"): boolean => {
  const isFirst = (allele: number): boolean => allele === 0;
  return shows === "one" ? pair.some(isFirst) : pair.every(isFirst);
};

/** What a description means: what each genotype shows, and how many of 100 unknown goats show the trait. */
export interface LocusPreview {
  /** Both sexes alike, or does before bucks where they differ. */
  readonly shows: readonly { readonly genotype: string; readonly look: string }[];
  readonly inHundred: readonly {
    readonly who: "all" | "does" | "bucks";
    readonly count: number;
    readonly look: string;
  }[];
}

/**
 * What the answers so far mean; `undefined` while they describe no locus.
 *
 * Assumes: unknown parents as they are taken by the inference: their alleles met by chance.
 */
export function previewOf(answers: OwnLocusAnswers, taken: ReadonlySet<string>): LocusPreview | undefined {
  const made = ownLocus(answers, taken);
  const read = made.ok ? locusFromText(idOf(answers.name), made.value.value) : made;
  if (!read.ok) return undefined;
  const locus = read.value;
  const [trait] = locus.traits ?? [];
  if (trait === undefined) return { shows: [], inHundred: [] };
  const { inheritance, founders } = locus;
  const sexes = inheritance === "autosomal" ? (["XX"] as const) : CHROMOSOMAL_SEXES;
  const shows = sexes.flatMap((sex) =>
    genotypesOf(locus, sex).map((genotype, g) => {
      const looks = trait.expression.value[sex][g] ?? [];
      return { genotype, look: trait.phenotypes[looks.indexOf(Math.max(...looks))] ?? "" };
    }),
  );
  const look = trait.phenotypes[0] ?? "";
  const inHundred = sexes.map((sex) => {
    const shown = allelePairs(locus, sex).reduce((sum, pair, g) => {
      const each = pair.reduce((product, allele) => product * (founders.default.value[allele] ?? 0), 1);
      const ways = new Set(pair).size;
      return sum + each * ways * (trait.expression.value[sex][g]?.[0] ?? 0);
    }, 0);
    const who = inheritance === "autosomal" ? ("all" as const) : sex === "XX" ? ("does" as const) : ("bucks" as const);
    return { who, count: Math.round(shown * 100), look };
  });
  return { shows, inHundred };
}
