import { present } from "@pollard/base";
import { layoutMemory } from "../inference/layout-memory.ts";
import type { AnimalId } from "../vocabulary.ts";
import { answerFrom, emptyAnswer } from "../genotypes/answer-from-families.ts";
import { familiesOf } from "../pedigree/families.ts";
import { type FamilyAnswer, type FamilyTask, workOutFamily } from "../genotypes/family-answer.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { DEFAULT_CELL_BUDGET, type InferenceOptions } from "../genotypes/infer-genotypes.ts";
import { workOutLoci } from "./loci-family.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { type SoundProblem, soundProblem } from "../pedigree/sound-problem.ts";
import { tellSires } from "./told-sires.ts";

/** The genotypes of a herd at several loci, which have the doubt about sires in common. */
export interface LociAnswer {
  /** In the order of the problems. Their `sires` are those of all loci together; their likelihood is each locus's own. */
  readonly answers: readonly GenotypeAnswer[];
  /** Chances of the possible sires of an animal, from all loci together; empty where no sire is recorded. */
  sires(id: AnimalId): ReadonlyMap<AnimalId | undefined, number>;
  /** `approximate` if any family was too entangled for the exact method at all loci together. */
  readonly method: "exact" | "approximate";
  /** 0 if exact, else the largest error of a chance that was found; 1 where loci contradict each other about sires. */
  readonly error: number;
}

/**
 * The genotypes at several loci together: what one locus says of a kid's sire is told to all the others.
 *
 * Unlinked loci know nothing of each other but the pedigree. So the tables of a family at all loci are joined at one
 * variable per doubtful sire and summed out together, however many sires are in doubt. Where that would exceed the budget,
 * each locus is worked out by itself and tells the others of one sire at a time, until nothing changes.
 *
 * Assumes: the same animals with the same parents in every problem; loci on different chromosomes, or far apart. What is
 *          known of an animal's sex is known without the loci (the possible sires are bucks), or from one of them alone.
 * Shape:   loci that leave no way who the sires may be stand by themselves, with an error of 1.
 * Source:  [lauritzen1988], [pearl1988] (messages between parts that share variables); rule GE-26.
 */
export function inferLoci(problems: readonly PedigreeProblem[], options: InferenceOptions = {}): LociAnswer {
  const { cellBudget = DEFAULT_CELL_BUDGET, layouts = layoutMemory() } = options;
  const sound = problems.map(soundProblem);
  const usable = sound.filter((s) => s.locus.alleles.length > 0);
  const families = familiesOf(usable[0]?.members ?? []);
  const byFamily = families.map((family) =>
    familyAtLoci(usable.map(({ locus, members }) => ({ locus, members, family, cellBudget, layouts }))),
  );
  const answerOf = (s: SoundProblem): GenotypeAnswer => {
    const at = usable.indexOf(s);
    if (at < 0) return emptyAnswer(s);
    return answerFrom(
      s,
      families,
      byFamily.map((answers) => present(answers[at], "the answer of a locus")),
    );
  };
  const answers = sound.map(answerOf);
  const told = Math.max(
    0,
    sound.findIndex((s) => usable.includes(s)),
  );
  return {
    answers,
    method: answers.every((a) => a.method === "exact") ? "exact" : "approximate",
    error: answers.reduce((most, a) => Math.max(most, a.error), 0),
    sires: (id) => present(answers[told], "an answer").belief(id).sires,
  };
}

/** One family at every locus: alone first, for the contradictions within each, then together. */
function familyAtLoci(tasks: readonly FamilyTask[]): readonly FamilyAnswer[] {
  const alone = tasks.map((task) => workOutFamily(task));
  const inDoubt = tasks[0]?.family.some((i) => (tasks[0]?.members[i]?.sires.length ?? 0) > 1) ?? false;
  if (!inDoubt || tasks.length < 2) return alone;
  const holding = tasks.map((task, l) => ({ ...task, members: present(alone[l], "an answer").members }));
  const together = workOutLoci(holding, alone);
  if (together === "too-large") return tellSires(holding, alone);
  return together === "impossible" ? alone.map((a) => ({ ...a, method: "approximate", error: 1 })) : together;
}
