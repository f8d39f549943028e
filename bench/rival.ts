import { present, type Result, seededRandom } from "@pollard/base";
import { inferGenotypes, parseGenotypeFile, type PedigreeProblem, WATTLES } from "@pollard/genetics";
import bayesjs from "bayesjs";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { at, herdBook } from "./herds/herd-book.ts";
import { timed } from "./measuring/times.ts";

interface BenchRow {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly note?: string;
}

/** A node of the rival's network: a table of chances for each combination of its parents' states. */
interface RivalNode {
  readonly id: string;
  readonly states: readonly string[];
  readonly parents: readonly string[];
  readonly cpt: unknown;
}

const GENOTYPES = ["PP", "Pp", "pp"] as const;
/** The chance of handing on P. */
const HANDS_ON = { PP: 1, Pp: 0.5, pp: 0 } as const;
const FILES = ["geno_01_progeny_test", "geno_03_inbreeding_loop", "geno_04_marriage_loop", "geno_05_liability_classes"];

/** Herds of which half the animals are tested at one locus, for growth with size: each twice the one before. */
const HERDS = [
  { animals: 10, does: 3, bucks: 1 },
  { animals: 20, does: 4, bucks: 1 },
  { animals: 40, does: 8, bucks: 2 },
];

/**
 * The published pedigrees, and herds of up to 40, answered by ours and by bayesjs 0.6.5, a general-purpose inference program
 * (junction tree), in one run: all posteriors of all animals. Findings are children with a chance of their own, since the
 * rival takes no soft evidence; sires are taken as written, since it has no place for doubt about a parent.
 */
export function bench(): readonly BenchRow[] {
  const published = FILES.flatMap((name) => {
    const json: unknown = JSON.parse(
      readFileSync(join(import.meta.dirname, "../packages/genetics/published/genotypes", `${name}.json`), "utf8"),
    );
    return compared(name, valueOf(parseGenotypeFile(json)));
  });
  const herds = HERDS.flatMap((size) => compared(`herd of ${size.animals}`, testedHerd(size)));
  return [...published, ...herds];
}

function compared(name: string, problem: PedigreeProblem): readonly BenchRow[] {
  const ours = timed(() => {
    const answer = inferGenotypes(problem);
    return problem.members.map(({ id }) => answer.belief(id).genotypes);
  });
  const network = networkOf(problem);
  const theirs = timed(() => problem.members.map(({ id }) => rivalBelief(network, id)));
  const apart = Math.max(
    ...ours.value.flatMap((row, i) => row.map((p, g) => Math.abs(p - (theirs.value[i]?.[g] ?? Number.NaN)))),
  );
  return [
    { what: `${name}: all posteriors, ours`, value: ours.ms, unit: "ms", note: `${problem.members.length} animals` },
    {
      what: `${name}: all posteriors, bayesjs`,
      value: theirs.ms,
      unit: "ms",
      note: `${Math.round(theirs.ms / ours.ms)} times ours; answers at most ${apart.toExponential(1)} apart`,
    },
  ];
}

function testedHerd(size: {
  readonly animals: number;
  readonly does: number;
  readonly bucks: number;
}): PedigreeProblem {
  const herd = at(WATTLES, herdBook(size, seededRandom(7)));
  const members = herd.members.map((m) => ({ ...m, sires: m.sires.slice(0, 1) }));
  return { ...herd, members, frequencies: { default: WATTLES.founders.default.value } };
}

function valueOf<T, E>(result: Result<T, E>): T {
  if (!result.ok) throw new Error("a published pedigree does not read");
  return result.value;
}

/** The pedigree as the rival wants it: a node for each animal, and one for each finding. */
function networkOf({ members, frequencies }: PedigreeProblem): Readonly<Record<string, RivalNode>> {
  const P = present(frequencies?.default?.[0], "the frequency of P");
  const shares = (dam: number, sire: number) => ({
    PP: dam * sire,
    Pp: dam * (1 - sire) + (1 - dam) * sire,
    pp: (1 - dam) * (1 - sire),
  });
  const nodes: RivalNode[] = [];
  for (const { id, dam, sires, founderPrior, evidence } of members) {
    const parents = [dam, sires[0]?.sire].filter((parent) => parent !== undefined);
    const [first, second] = parents;
    const cpt =
      first === undefined
        ? named(founderPrior ?? Object.values(shares(P, P)))
        : GENOTYPES.flatMap((a) =>
            second === undefined
              ? [{ when: { [first]: a }, then: shares(HANDS_ON[a], P) }]
              : GENOTYPES.map((b) => ({ when: { [first]: a, [second]: b }, then: shares(HANDS_ON[a], HANDS_ON[b]) })),
          );
    nodes.push({ id, states: GENOTYPES, parents, cpt });
    for (const [i, { likelihood }] of evidence.entries()) {
      const chances = likelihood.XX;
      const top = Math.max(...chances);
      nodes.push({
        id: `${id} seen ${i}`,
        states: ["yes", "no"],
        parents: [id],
        cpt: GENOTYPES.map((g, k) => {
          const yes = present(chances[k], "a chance") / top;
          return { when: { [id]: g }, then: { yes, no: 1 - yes } };
        }),
      });
    }
  }
  return Object.fromEntries(nodes.map((node) => [node.id, node]));
}

const named = (chances: readonly number[]) => Object.fromEntries(GENOTYPES.map((g, i) => [g, chances[i] ?? 0]));

/** One animal's posterior by the rival, one question for each genotype. */
function rivalBelief(network: Readonly<Record<string, RivalNode>>, id: string): readonly number[] {
  const given = Object.fromEntries(
    Object.keys(network)
      .filter((name) => name.includes(" seen "))
      .map((name) => [name, "yes"]),
  );
  return GENOTYPES.map((g) => bayesjs.inferences.junctionTree.infer(network as never, { [id]: g }, given));
}
