import { type AnimalId, CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import type { Evidence, PedigreeProblem } from "../pedigree/pedigree-problem.ts";

/** A fact that fits badly with everything else that is known. */
export interface Surprise {
  readonly animal: AnimalId;
  readonly fact: string;
  /**
   * How well the rest explains it: its probability given everything else, as a share of what it would be if the animal had
   * the sex and genotype that explain it best. Near 0 for a horned kid of a buck that seems PP, 1 for what was sure anyway.
   */
  readonly fit: number;
}

/** From this fit on down a fact is worth a question. Our judgement: one in fifty would be so by chance alone. */
const WORTH_ASKING = 0.02;

/**
 * The facts that fit worst with all the others, for the keeper to look at again: a kid that contradicts its recorded parents
 * has more often another sire than a new mutation.
 *
 * Shape:  worst first, those of a fit below `below`. Facts that were set aside in a conflict are not among them.
 * Source: rule GE-30.
 */
export function surprises(
  { members }: PedigreeProblem,
  answer: GenotypeAnswer,
  below: number = WORTH_ASKING,
): readonly Surprise[] {
  const aside = new Set(answer.conflicts.flatMap((c) => c.setAside));
  return members
    .flatMap((m) =>
      m.evidence
        .filter((e) => !aside.has(e.fact))
        .map((e): Surprise => ({ animal: m.id, fact: e.fact, fit: fitOf(answer, m.id, e) })),
    )
    .filter((s) => s.fit < below)
    .sort((a, b) => a.fit - b.fit);
}

function fitOf(answer: GenotypeAnswer, animal: AnimalId, { fact, likelihood }: Evidence): number {
  const { bySex } = answer.forecast(animal, [fact]);
  const best = Math.max(...likelihood.XX, ...likelihood.XY);
  const expected = CHROMOSOMAL_SEXES.reduce(
    (sum, sex) => sum + bySex[sex].reduce((s, p, g) => s + p * (likelihood[sex][g] ?? 0), 0),
    0,
  );
  return best > 0 ? expected / best : 0;
}
