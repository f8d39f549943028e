import { present } from "@pollard/base";
import { layoutMemory } from "../inference/layout-memory.ts";
import type { AnimalId } from "../vocabulary.ts";
import type { GenotypeAnswer } from "./genotype-answer.ts";
import { type InferenceOptions, inferGenotypes } from "./infer-genotypes.ts";
import type { Member, PedigreeProblem } from "./pedigree-problem.ts";

/** The genotypes of a herd at several loci, which have the doubt about sires in common. */
export interface LociAnswer {
  /** In the order of the problems. Their `sires` are those of all loci together. */
  readonly answers: readonly GenotypeAnswer[];
  /** Chances of the possible sires of an animal, from all loci together; empty where no sire is recorded. */
  sires(id: AnimalId): ReadonlyMap<AnimalId | undefined, number>;
  /** `approximate` too where more than one animal's sire is in doubt: see `inferLoci`. */
  readonly method: "exact" | "approximate";
}

/** Rounds after which there is an end, and the change of a chance at which it is settled. */
const MOST_ROUNDS = 20;
const SETTLED = 1e-9;

/**
 * The genotypes at several loci together: what one locus says of a kid's sire is told to all the others.
 *
 * Unlinked loci know nothing of each other but the pedigree. So each is worked out by itself, with the candidates' weights
 * changed by what the other loci say of them, until nothing changes.
 *
 * Assumes: the same animals with the same parents in every problem; loci on different chromosomes, or far apart. The
 *          possible sires are bucks: what other loci say may lift one above half of the weight, which takes him for XY.
 * Shape:   exact where one animal's sire is in doubt. Where several are, each locus tells of them one by one and not of
 *          their combinations, so the answer is called approximate.
 * Source:  [pearl1988] (messages between parts that share variables); rule GE-26.
 */
export function inferLoci(problems: readonly PedigreeProblem[], options: InferenceOptions = {}): LociAnswer {
  const used: InferenceOptions = { layouts: layoutMemory(), ...options };
  const doubtful = (problems[0]?.members ?? []).filter((m) => m.sires.length > 1);
  /** Per locus and animal: how well each candidate explains what is seen at that locus. */
  const said = problems.map(
    () => new Map<AnimalId, readonly number[]>(doubtful.map((m) => [m.id, m.sires.map(() => 1)])),
  );
  const weightsFor = (locus: number, m: Member): readonly number[] =>
    m.sires.map(({ weight }, k) =>
      said.reduce((w, bySire, l) => (l === locus ? w : w * (bySire.get(m.id)?.[k] ?? 1)), weight),
    );
  const infer = (locus: number): GenotypeAnswer =>
    inferGenotypes(
      reweighed(present(problems[locus], "a problem"), (m) => weightsFor(locus, m)),
      used,
    );
  let answers = problems.map((_, locus) => infer(locus));
  for (let round = 0; round < MOST_ROUNDS && problems.length > 1 && doubtful.length > 0; round++) {
    let change = 0;
    answers = problems.map((_, locus) => {
      const answer = infer(locus);
      for (const m of doubtful) {
        const before = present(said[locus]?.get(m.id), "what a locus said");
        const fresh = saidBy(answer, m, weightsFor(locus, m));
        change = Math.max(change, ...fresh.map((x, k) => Math.abs(x - (before[k] ?? 0))));
        said[locus]?.set(m.id, fresh);
      }
      return answer;
    });
    if (change < SETTLED) break;
  }
  const isExact = answers.every((a) => a.method === "exact") && (doubtful.length < 2 || problems.length < 2);
  return {
    answers,
    method: isExact ? "exact" : "approximate",
    sires: (id) => present(answers.at(-1), "an answer").belief(id).sires,
  };
}

function reweighed(problem: PedigreeProblem, weights: (m: Member) => readonly number[]): PedigreeProblem {
  const members = problem.members.map((m): Member => {
    if (m.sires.length < 2) return m;
    const own = weights(m);
    const total = own.reduce((a, b) => a + b, 0);
    // Loci that contradict each other about a sire leave no candidate; then each stands by itself.
    return total > 0 ? { ...m, sires: m.sires.map((s, k) => ({ ...s, weight: own[k] ?? 0 })) } : m;
  });
  return { ...problem, members };
}

/** How well each candidate explains what is seen at a locus: the chances it came to, without the weights it started from. */
function saidBy(answer: GenotypeAnswer, m: Member, weights: readonly number[]): readonly number[] {
  const { sires } = answer.belief(m.id);
  const ratios = m.sires.map(({ sire }, k) => {
    const weight = weights[k] ?? 0;
    return weight > 0 ? (sires.get(sire) ?? 0) / weight : 0;
  });
  const top = Math.max(...ratios);
  return top > 0 ? ratios.map((r) => r / top) : ratios.map(() => 1);
}
