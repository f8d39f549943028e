import type { Sourced } from "@pollard/base";
import { present } from "@pollard/base";
import { layoutMemory } from "../inference/layout-memory.ts";
import { logTotal } from "../inference/log-total.ts";
import { allelePairs } from "../locus.ts";
import { type AnimalId, CHROMOSOMAL_SEXES } from "../vocabulary.ts";
import type { Conflict, ParentLink } from "./conflicts.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { familiesAround, logEvidence } from "./log-evidence.ts";
import { hangsTogether, littersOf } from "../pedigree/litters.ts";
import type { Evidence, Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { withoutFacts } from "./questions.ts";
import { soundProblem } from "../pedigree/sound-problem.ts";

/** One record that may be wrong. */
export type WrongRecord =
  /** The sire or dam of a kid is another animal. */
  | { readonly kind: "wrong-parent"; readonly link: ParentLink }
  /** The fact belongs to another animal, beyond what its own error allows for. */
  | { readonly kind: "wrong-fact"; readonly fact: string };

/** What may lie behind facts that do not go together. */
export type Explanation =
  /** Everything is as written, or misread as now and then happens, which the facts' own errors allow for. */
  | { readonly kind: "as-written"; readonly chance: number }
  | (WrongRecord & { readonly chance: number })
  /** Two records or more, all of them, where no single one will do. */
  | { readonly kind: "several-wrong"; readonly records: readonly WrongRecord[]; readonly chance: number };

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

/** Sets of wrong records that are tried at most before nothing is said. */
const MOST_TRIED = 400;

/**
 * What most likely lies behind facts that contradict each other or hardly go together, each explanation with its chance.
 *
 * One record at a time is supposed wrong: a wrong parent is replaced by an unknown animal of the founder population (a wrong
 * sire is one record for the mates of a litter, as far as they have one sire), a
 * wrong fact by one about a random animal of it. The probability of everything else, times how often such a record is
 * wrong, ranks them. Where no single one makes the rest possible, two at a time are, then three, and so on.
 *
 * Shape:   most likely first; chances sum to 1 over the explanations that are possible with so few wrong records. Empty
 *          where as many sets as are tried hold none that makes the rest possible.
 * Assumes: records go wrong independently of each other, and no more of them than it takes. A sire already given with an
 *          unknown buck among the candidates keeps that weight as the chance that he is wrong.
 * Cost:    one likelihood of the family per set tried: as many as there are suspects, or a few hundred.
 * Source:  Bayes' rule; rules GE-30, GE-34.
 */
export function explanations(
  problem: PedigreeProblem,
  suspects: Suspects,
  errors: RecordErrors = RECORD_ERRORS,
): readonly Explanation[] {
  const layouts = layoutMemory();
  const asked = withSires(withSexByRole(problem), suspects, errors);
  const around = animalsAround(problem, suspects);
  const sires = suspectSires(problem, asked, suspects);
  const written: SiresMeant = new Map(sires.flat().map((kid) => [kid, "named"]));
  const supposed: readonly Supposed[] = [
    ...sires.map(
      (mates): Supposed => ({
        record: { kind: "wrong-parent", link: { kid: present(mates[0], "a kid"), parent: "sire" } },
        logPrior: 0, // it stands among the weights of the sires
        // The first mate's sire is none of those named, or else the second's, and so on: every way once.
        ways: mates.map((kid, at) => new Map(mates.slice(at).map((m) => [m, m === kid ? "unknown" : "any"]))),
        without: (members) => members,
      }),
    ),
    ...suspects.links.filter(({ parent }) => parent === "dam").map((link) => wrongDam(link, errors)),
    ...suspects.facts.map((fact) => wrongFact(problem, fact, errors)),
  ];
  const weigh = (wrong: readonly Supposed[]): number => {
    const members = wrong.reduce((all, { without }) => without(all), asked);
    const ways = wrong.reduce<readonly SiresMeant[]>(
      (all, one) => all.flatMap((meant) => one.ways.map((way) => new Map([...meant, ...way]))),
      [written],
    );
    const logs = ways.map((meant) =>
      logEvidence({ ...problem, members: members.map((m) => meaning(m, meant.get(m.id))) }, around, layouts),
    );
    return logTotal(logs) + wrong.reduce((log, { logPrior }) => log + logPrior, 0);
  };
  const ranked = (sets: readonly (readonly Supposed[])[]): readonly Explanation[] => {
    const logs = sets.map(weigh);
    const top = Math.max(...logs);
    if (top === Number.NEGATIVE_INFINITY) return [];
    const weights = logs.map((log) => Math.exp(log - top));
    const total = weights.reduce((a, b) => a + b, 0);
    return sets
      .map((wrong, at) =>
        explanationOf(
          wrong.map(({ record }) => record),
          (weights[at] ?? 0) / total,
        ),
      )
      .filter((e) => e.chance > 0)
      .sort((a, b) => b.chance - a.chance);
  };
  const found = ranked([[], ...supposed.map((one) => [one])]);
  if (found.length > 0) return found;
  let tried = 0;
  for (let size = 2; size <= supposed.length; size++) {
    const sets = setsOf(supposed, size, MOST_TRIED - tried);
    if (!sets) return [];
    tried += sets.length;
    const several = ranked(sets);
    if (several.length > 0) return several;
  }
  return [];
}

function explanationOf(wrong: readonly WrongRecord[], chance: number): Explanation {
  const [only, ...more] = wrong;
  if (!only) return { kind: "as-written", chance };
  return more.length === 0 ? { ...only, chance } : { kind: "several-wrong", records: wrong, chance };
}

/** Every choice of `size` of the items, in order; nothing where there are more than `most`. */
function setsOf<T>(items: readonly T[], size: number, most: number): readonly (readonly T[])[] | undefined {
  let sets: readonly { readonly set: readonly T[]; readonly next: number }[] = [{ set: [], next: 0 }];
  for (let k = size; k > 0; k--) {
    // Each set is left with enough items to be filled up, so there are never more than in the end.
    sets = sets.flatMap(({ set, next }) =>
      items.slice(next, items.length - k + 1).map((item, at) => ({ set: [...set, item], next: next + at + 1 })),
    );
    if (sets.length > most) return undefined;
  }
  return sets.map(({ set }) => set);
}

/** Contradictions that have a fact or a link in common, and what lies behind all of them together. */
export interface ExplainedConflicts {
  readonly conflicts: readonly Conflict[];
  readonly explanations: readonly Explanation[];
}

/**
 * What most likely lies behind a herd's contradictions. Those that have a fact or a parentage in common are explained
 * together, since one wrong record may be the cause of all; for the others' sake the facts set aside are left out.
 *
 * Shape: every conflict once, groups in the order of their first; explanations as `explanations`.
 */
export function explainConflicts(
  problem: PedigreeProblem,
  { conflicts }: GenotypeAnswer,
  errors: RecordErrors = RECORD_ERRORS,
): readonly ExplainedConflicts[] {
  return connected(conflicts).map((group) => {
    const suspects = suspectsOf(group);
    const aside = new Set(conflicts.filter((c) => !group.includes(c)).flatMap((c) => c.setAside));
    return { conflicts: group, explanations: explanations(withoutFacts(problem, aside), suspects, errors) };
  });
}

/** The conflicts in groups that no fact and no link joins. */
function connected(conflicts: readonly Conflict[]): readonly (readonly Conflict[])[] {
  const partsOf = ({ facts, links }: Conflict): readonly string[] => [
    ...facts.map((f) => `fact ${f}`),
    ...links.map((l) => `${l.parent} ${l.kid}`),
  ];
  return conflicts.reduce<readonly (readonly Conflict[])[]>((groups, conflict) => {
    const parts = new Set(partsOf(conflict));
    const touches = (group: readonly Conflict[]): boolean => group.flatMap(partsOf).some((part) => parts.has(part));
    const [first, ...more] = groups.filter(touches);
    if (!first) return [...groups, [conflict]];
    const joined = [...first, ...more.flat(), conflict];
    return groups.filter((g) => !more.includes(g)).map((g) => (g === first ? joined : g));
  }, []);
}

/** Each fact and link once. */
function suspectsOf(conflicts: readonly Conflict[]): Suspects {
  const links = new Map(conflicts.flatMap((c) => c.links.map((l) => [`${l.parent} ${l.kid}`, l] as const)));
  return { facts: [...new Set(conflicts.flatMap((c) => c.facts))], links: [...links.values()] };
}

/** That an animal was taken for a sire or a dam tells its sex, also where it is then supposed that it was not this kid's. */
function withSexByRole(problem: PedigreeProblem): readonly Member[] {
  const sexes = new Map(soundProblem(problem).members.map(({ id, xx }) => [id, xx]));
  return problem.members.map((m) => ({ ...m, xx: sexes.get(m.id) ?? m.xx }));
}

/** A record supposed wrong: how often such a one is, as a natural log, and every way what would then hold in its place. */
interface Supposed {
  readonly record: WrongRecord;
  readonly logPrior: number;
  readonly ways: readonly SiresMeant[];
  readonly without: (members: readonly Member[]) => readonly Member[];
}

/** Of kids: whether the sire is one of those named, none of them, or any. */
type SiresMeant = ReadonlyMap<AnimalId, "named" | "unknown" | "any">;

/** What leaves the sires as they are written. */
const NO_SIRE: readonly SiresMeant[] = [new Map()];

const wrongDam = (link: ParentLink, errors: RecordErrors): Supposed => ({
  record: { kind: "wrong-parent", link },
  logPrior: logOdds(errors.dam.value),
  ways: NO_SIRE,
  without: (members) => members.map((m) => (m.id === link.kid ? { ...m, dam: undefined } : m)),
});

const wrongFact = (problem: PedigreeProblem, fact: string, errors: RecordErrors): Supposed => ({
  record: { kind: "wrong-fact", fact },
  logPrior: logOdds(errors.fact.value) + logChanceElsewhere(problem, fact),
  ways: NO_SIRE,
  without: (members) => members.map((m) => ({ ...m, evidence: m.evidence.filter((e) => e.fact !== fact) })),
});

/** Wrong against right, as a natural log. */
const logOdds = (error: number): number => Math.log(error) - Math.log1p(-error);

/** Names the litter of an animal and all that is written of its sires: mates of the same name may have one sire. */
const litterName = ({ id, litter, sires }: Member): string => JSON.stringify(litter ? [litter, sires] : [id]);

/** The members with an unknown buck among the sires of the suspects and of their litter mates, as likely as records err. */
function withSires(members: readonly Member[], { links }: Suspects, errors: RecordErrors): readonly Member[] {
  const kids = new Set(links.flatMap(({ kid, parent }) => (parent === "sire" ? [kid] : [])));
  const litters = new Set(members.filter(({ id }) => kids.has(id)).map(litterName));
  return members.map((m) => {
    const total = m.sires.reduce((sum, s) => sum + s.weight, 0);
    if (!litters.has(litterName(m)) || total === 0 || m.sires.some((s) => s.sire === undefined && s.weight > 0))
      return m;
    const weight = (total * errors.sire.value) / (1 - errors.sire.value);
    return { ...m, sires: [...m.sires, { sire: undefined, weight }] };
  });
}

/** The kids of whose sires is asked, litter by litter: mates who may have one sire have one record of it. */
function suspectSires(
  problem: PedigreeProblem,
  members: readonly Member[],
  { links }: Suspects,
): readonly (readonly AnimalId[])[] {
  const kids = new Set(links.flatMap(({ kid, parent }) => (parent === "sire" ? [kid] : [])));
  const sound = soundProblem({ ...problem, members }).members;
  return littersOf(sound, [...sound.keys()]).flatMap((litter) => {
    const asked = litter.kids.map((i) => present(sound[i], "a kid").id).filter((id) => kids.has(id));
    return hangsTogether(litter) && asked.length > 0 ? [asked] : asked.map((id) => [id]);
  });
}

/** The member with its sire taken to be one of those named, or none of them. */
function meaning(m: Member, which: "named" | "unknown" | "any" = "any"): Member {
  if (which === "any") return m;
  const isMeant = (sire: AnimalId | undefined): boolean => (sire === undefined) === (which === "unknown");
  return { ...m, sires: m.sires.map((s) => (isMeant(s.sire) ? s : { ...s, said: 0 })) };
}

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
