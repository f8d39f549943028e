import type { Sourced } from "@pollard/base";
import { present } from "@pollard/base";
import { layoutMemory } from "../inference/layout-memory.ts";
import { allelePairs } from "../locus.ts";
import { type AnimalId, CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { Conflict, ParentLink } from "./conflicts.ts";
import type { GenotypeAnswer } from "./genotype-answer.ts";
import { familiesAround, logEvidence } from "./log-evidence.ts";
import type { Evidence, Member, PedigreeProblem } from "./pedigree-problem.ts";
import { withoutFacts } from "./questions.ts";
import { soundProblem } from "./sound-problem.ts";

/** What may lie behind facts that do not go together. */
export type Explanation =
  /** Everything is as written, or misread as now and then happens, which the facts' own errors allow for. */
  | { readonly kind: "as-written"; readonly chance: number }
  /** The sire or dam of a kid is another animal. */
  | { readonly kind: "wrong-parent"; readonly link: ParentLink; readonly chance: number }
  /** The fact belongs to another animal, beyond what its own error allows for. */
  | { readonly kind: "wrong-fact"; readonly fact: string; readonly chance: number };

/** How often each kind of record is wrong, before looking. */
export interface RecordErrors {
  readonly sire: Sourced<number>;
  readonly dam: Sourced<number>;
  readonly fact: Sourced<number>;
}

/**
 * Sires as in an old herd book, in which 32 of 2,500 kids of two horned parents stood as hornless; dams and facts by our
 * judgement: a keeper sees who kids, and tags get mixed up now and then.
 */
export const RECORD_ERRORS: RecordErrors = {
  sire: { value: 32 / 2500, source: "asdell-crew1925", checked: "read-in-source" },
  dam: { value: 0.002, source: "judgement", checked: "judgement" },
  fact: { value: 0.005, source: "judgement", checked: "judgement" },
};

/** The facts and parentages among which the wrong one is looked for. A `Conflict` is one such choice. */
export interface Suspects {
  readonly facts: readonly string[];
  readonly links: readonly ParentLink[];
}

/**
 * What most likely lies behind facts that contradict each other or hardly go together, each explanation with its chance.
 *
 * One record at a time is supposed wrong: a wrong parent is replaced by an unknown animal of the founder population, a
 * wrong fact by one about a random animal of it. The probability of everything else, times how often such a record is
 * wrong, ranks them.
 *
 * Shape:   most likely first; chances sum to 1 over the explanations that are possible at all. Empty where no single
 *          wrong record makes the rest possible.
 * Assumes: one wrong record. A sire already given with an unknown buck among the candidates keeps that weight as the chance
 *          that he is wrong.
 * Cost:    one likelihood of the family per suspect.
 * Source:  Bayes' rule; rule GE-30.
 */
export function explanations(
  problem: PedigreeProblem,
  suspects: Suspects,
  errors: RecordErrors = RECORD_ERRORS,
): readonly Explanation[] {
  const layouts = layoutMemory();
  const isSuspect = (kid: AnimalId): boolean => suspects.links.some((l) => l.kid === kid && l.parent === "sire");
  const written = { ...problem, members: problem.members.map((m) => (isSuspect(m.id) ? withoutUnknownBuck(m) : m)) };
  const around = animalsAround(problem, suspects);
  const weigh = (members: readonly Member[]): number => logEvidence({ ...problem, members }, around, layouts);
  const hypotheses = [
    { explanation: { kind: "as-written" } as const, log: weigh(written.members) },
    ...suspects.links.map((link) => ({
      explanation: { kind: "wrong-parent", link } as const,
      log: logOdds(errorOf(problem, link, errors)) + weigh(written.members.map((m) => withoutParent(m, link))),
    })),
    ...suspects.facts.map((fact) => ({
      explanation: { kind: "wrong-fact", fact } as const,
      log:
        logOdds(errors.fact.value) +
        weigh(written.members.map((m) => withoutFact(m, fact))) +
        logChanceElsewhere(problem, fact),
    })),
  ];
  const top = Math.max(...hypotheses.map((h) => h.log));
  if (top === Number.NEGATIVE_INFINITY) return [];
  const total = hypotheses.reduce((sum, h) => sum + Math.exp(h.log - top), 0);
  return hypotheses
    .map(({ explanation, log }): Explanation => ({ ...explanation, chance: Math.exp(log - top) / total }))
    .filter((e) => e.chance > 0)
    .sort((a, b) => b.chance - a.chance);
}

/**
 * What most likely lies behind one of a herd's contradictions, the facts that were set aside for the others left out.
 *
 * Shape: as `explanations`.
 */
export function explainConflict(
  problem: PedigreeProblem,
  answer: GenotypeAnswer,
  conflict: Conflict,
  errors: RecordErrors = RECORD_ERRORS,
): readonly Explanation[] {
  const aside = new Set(answer.conflicts.flatMap((c) => c.setAside).filter((f) => !conflict.facts.includes(f)));
  return explanations(withoutFacts(problem, aside), conflict, errors);
}

/** Wrong against right, as a natural log. */
const logOdds = (error: number): number => Math.log(error) - Math.log1p(-error);

function withoutUnknownBuck(m: Member): Member {
  const named = m.sires.filter((s) => s.sire !== undefined);
  return { ...m, sires: named };
}

function errorOf({ members }: PedigreeProblem, { kid, parent }: ParentLink, errors: RecordErrors): number {
  const { sires } = present(
    members.find((m) => m.id === kid),
    "the kid of a link",
  );
  const total = sires.reduce((sum, s) => sum + s.weight, 0);
  const unknown = sires.reduce((sum, s) => sum + (s.sire === undefined ? s.weight : 0), 0);
  return parent === "dam" ? errors.dam.value : unknown > 0 ? unknown / total : errors.sire.value;
}

const withoutParent = (m: Member, { kid, parent }: ParentLink): Member =>
  m.id !== kid ? m : parent === "dam" ? { ...m, dam: undefined } : { ...m, sires: [] };

const withoutFact = (m: Member, fact: string): Member => ({
  ...m,
  evidence: m.evidence.filter((e) => e.fact !== fact),
});

/** The chance that the fact would have been written of a random animal of the founder population. */
function logChanceElsewhere(problem: PedigreeProblem, fact: string): number {
  const sound = soundProblem({ ...problem, members: [] });
  const frequencies = sound.frequenciesOf(undefined);
  const chanceOf = ({ likelihood }: Evidence): number =>
    CHROMOSOMAL_SEXES.reduce((sum, sex) => {
      const pairs = allelePairs(problem.locus, sex);
      const share = (at: number): number => {
        const [a, b] = present(pairs[at], "a genotype");
        const [p = 0, q] = [frequencies[a], b === undefined ? undefined : frequencies[b]];
        return q === undefined ? p : p * q * (a === b ? 1 : 2);
      };
      return sum + 0.5 * likelihood[sex].reduce((s, l, g) => s + l * share(g), 0);
    }, 0);
  const all = problem.members.flatMap((m) => m.evidence.filter((e) => e.fact === fact));
  return all.reduce((log, e) => log + Math.log(chanceOf(e)), 0);
}

/** The animals a suspect is about, with their families. */
function animalsAround(problem: PedigreeProblem, { facts, links }: Suspects): ReadonlySet<AnimalId> {
  const named = new Set<AnimalId>(links.map((l) => l.kid));
  for (const m of problem.members) if (m.evidence.some((e) => facts.includes(e.fact))) named.add(m.id);
  return familiesAround(problem, named);
}
