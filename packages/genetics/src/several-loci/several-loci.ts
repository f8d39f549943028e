import { present } from "@pollard/base";
import { layoutMemory } from "../inference/layout-memory.ts";
import type { AnimalId } from "../vocabulary.ts";
import { answerFrom, emptyAnswer } from "../genotypes/answer-from-families.ts";
import { type Litter, littersOf, productsOf, ratiosBetween, saidOfLitter, siresOfLitter } from "../pedigree/litters.ts";
import type { FamilyAnswer, FamilyTask } from "../genotypes/family-answer.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { DEFAULT_CELL_BUDGET, type InferenceOptions } from "../genotypes/infer-genotypes.ts";
import { soundKept } from "../genotypes/kept-problem.ts";
import { workOutKept } from "../genotypes/kept-answers.ts";
import { workOutLoci } from "./loci-family.ts";
import { ALL_STATES, narrowings } from "./narrowed-loci.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { tellSires } from "./told-sires.ts";

/** The genotypes of a herd at several loci, which have the doubt about sires in common. */
export interface LociAnswer {
  /** In the order of the problems. Their `sires` are those of all loci together; their likelihood is each locus's own. */
  readonly answers: readonly GenotypeAnswer[];
  /** What each locus says by itself; the very same answer where it was told nothing. */
  readonly alone: readonly GenotypeAnswer[];
  /** The animals of whose sires the loci told each other. */
  readonly told: ReadonlySet<AnimalId>;
  /** Chances of the possible sires of an animal, from all loci together; empty where no sire is recorded. */
  sires(id: AnimalId): ReadonlyMap<AnimalId | undefined, number>;
  /** `approximate` if any family was too entangled for the exact method at all loci together, or a sire was not told of. */
  readonly method: "exact" | "approximate";
  /**
   * 0 if exact, else the largest error of a chance that was found, or what a sire not told of would have moved by; 1 where
   * loci contradict each other about sires.
   */
  readonly error: number;
}

/** How much work an answer of several loci may take, and of which sires they are to tell each other. */
export interface LociOptions extends InferenceOptions {
  /**
   * By how much the other loci together must move the chance of a sire for a locus to be told of him: of all, unless given.
   * In a large herd most written sires are as good as certain, and telling of each costs many times what the loci cost
   * by themselves.
   */
  readonly leastTold?: number;
}

/**
 * The genotypes at several loci together: what one locus says of a kid's sire is told to all the others.
 *
 * Unlinked loci know nothing of each other but the pedigree. So the tables of a family at all loci are joined at one
 * variable per doubtful sire, litter mates' at one for the litter, and summed out together, however many sires are in doubt. Where that would exceed the budget,
 * as many sires as it allows are told of together, and the others one at a time, until nothing changes.
 *
 * Assumes: the same animals with the same parents in every problem; loci on different chromosomes, or far apart. What is
 *          known of an animal's sex is known without the loci (the possible sires are bucks), or from one of them alone.
 * Shape:   loci that leave no way who the sires may be stand by themselves, with an error of 1.
 * Source:  [lauritzen1988], [pearl1988] (messages between parts that share variables); rule GE-26.
 */
export function inferLoci(problems: readonly PedigreeProblem[], options: LociOptions = {}): LociAnswer {
  const { cellBudget = DEFAULT_CELL_BUDGET, layouts = layoutMemory(), leastTold = 0 } = options;
  const kept = problems.map((problem) => soundKept(problem, layouts));
  const sound = kept.map((k) => k.sound);
  const usable = sound.filter((s) => s.locus.alleles.length > 0);
  const families = kept.find((k) => k.sound === usable[0])?.families ?? [];
  const byFamily = families.map((family) =>
    familyAtLoci(
      usable.map(({ locus, members }) => ({ locus, members, family, cellBudget, layouts })),
      leastTold,
    ),
  );
  const answersOf = (which: "alone" | "together"): readonly GenotypeAnswer[] =>
    sound.map((s) => {
      const at = usable.indexOf(s);
      if (at < 0) return emptyAnswer(s);
      return answerFrom(
        s,
        families,
        byFamily.map((family) => present(family[which][at], "the answer of a locus")),
      );
    });
  const alone = answersOf("alone");
  const told = new Set(byFamily.flatMap((f) => f.told.map((i) => present(usable[0]?.members[i], "a member").id)));
  const answers = byFamily.every((f) => f.together === f.alone) ? alone : answersOf("together");
  const untold = Math.max(0, ...byFamily.map((f) => f.untold));
  const first = Math.max(
    0,
    sound.findIndex((s) => usable.includes(s)),
  );
  return {
    answers,
    alone,
    told,
    method: untold === 0 && answers.every((a) => a.method === "exact") ? "exact" : "approximate",
    error: answers.reduce((most, a) => Math.max(most, a.error), untold),
    sires: (id) => present(answers[first], "an answer").belief(id).sires,
  };
}

interface FamilyAtLoci {
  readonly alone: readonly FamilyAnswer[];
  readonly together: readonly FamilyAnswer[];
  readonly told: readonly number[];
  /** How far the others would have moved what a locus thinks of a sire of whom it was not told. */
  readonly untold: number;
}

/** One family at every locus: alone first, for the contradictions within each, then together. */
function familyAtLoci(tasks: readonly FamilyTask[], leastTold: number): FamilyAtLoci {
  const alone = tasks.map(workOutKept);
  const doubts = tasks.length < 2 ? [] : doubtsOf(present(tasks[0], "a locus"), alone);
  const told = doubts.filter(({ moved }) => moved >= leastTold).map(({ litter }) => litter);
  const untold = doubts.reduce((most, { moved }) => (moved < leastTold ? Math.max(most, moved) : most), 0);
  if (told.length === 0) return { alone, together: alone, told: [], untold };
  const holding = tasks.map((task, l) => ({ ...task, members: present(alone[l], "an answer").members }));
  return { alone, together: toldTogether(holding, alone, told), told: told.flatMap(({ kids }) => kids), untold };
}

/** A family whose loci tell each other of sires: exactly if it goes, else without what parents as good as cannot be. */
function toldTogether(
  tasks: readonly FamilyTask[],
  alone: readonly FamilyAnswer[],
  told: readonly Litter[],
): readonly FamilyAnswer[] {
  const kids = new Set(told.flatMap((litter) => litter.kids));
  const exact = workOutLoci(tasks, alone, kids);
  if (exact === "impossible") return alone.map((a) => ({ ...a, method: "approximate", error: 1 }));
  if (exact !== "too-large") return exact;
  const ways = narrowings(tasks, alone);
  for (const narrowing of ways) {
    const found = workOutLoci(tasks, alone, kids, narrowing);
    if (typeof found === "object") return found;
  }
  return tellSires(tasks, alone, told, ways.at(-1) ?? ALL_STATES);
}

interface Doubt {
  /** Kids that know something of each other's sires, or one kid. */
  readonly litter: Litter;
  /** The most that a locus's chances of its sires differ from what all say together; 1 if that leaves nobody. */
  readonly moved: number;
  /** What is left of the doubt once all have spoken: the chance that it is not the likeliest. */
  readonly open: number;
}

/** The litters of doubtful sire of a family, those first about whom most stays open: they are what loci say of combinations. */
function doubtsOf({ members, family }: FamilyTask, alone: readonly FamilyAnswer[]): readonly Doubt[] {
  return littersOf(members, family)
    .map((litter): Doubt => {
      const given = litter.kids.map((i) => present(members[i], "a member").sires.map((s) => s.said));
      const byLocus = alone.map((a) => litter.kids.map((i) => a.sires(i) ?? []));
      const said = byLocus.map((chances) => ratiosBetween(saidOfLitter(litter, chances), given));
      const all = siresOfLitter(litter, said.reduce(productsOf, given));
      if (all === undefined) return { litter, moved: 1, open: 1 };
      const moved = byLocus.flatMap((chances) =>
        chances.flatMap((row, kid) => row.map((p, k) => Math.abs(p - (all[kid]?.[k] ?? 0)))),
      );
      return { litter, moved: Math.max(...moved), open: 1 - Math.min(...all.map((row) => Math.max(...row))) };
    })
    .sort((a, b) => b.open - a.open);
}
