import { Bug, present } from "@pollard/base";
import { genotypesOf } from "../locus.ts";
import type { AnimalId, ChromosomalSex } from "../vocabulary.ts";
import { beliefFrom } from "./belief.ts";
import type { FamilyAnswer } from "./family-answer.ts";
import type { AnimalBelief, GenotypeAnswer, JointBelief, KidAssumptions, SiresTogether } from "./genotype-answer.ts";
import { ownEvidence } from "./own-evidence.ts";
import { littersOf } from "../pedigree/litters.ts";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import type { SoundMember, SoundProblem } from "../pedigree/sound-problem.ts";
import { type Gametes, gametesOf, type StateSpace, stateSpaces, transmissionTable } from "./state-space.ts";

/** Most combinations a joint belief lists. */
const MOST_COMBINATIONS = 1_000_000;

/** One animal with all that is needed to answer for it. */
interface Subject {
  readonly at: number;
  readonly member: SoundMember;
  readonly answer: FamilyAnswer;
  readonly variable: number;
  readonly space: StateSpace;
}

/** The answer about a locus without alleles: nothing, for everyone. */
export function emptyAnswer({ issues, positions, members }: SoundProblem): GenotypeAnswer {
  const belief = (id: AnimalId): AnimalBelief => {
    const member = members[positions.get(id) ?? -1];
    if (!member) throw new Bug(`not an animal of the problem: ${id}`);
    return { genotypes: [], bySex: { XX: [], XY: [] }, xx: member.xx, sires: new Map() };
  };
  return {
    method: "exact",
    error: 0,
    logLikelihood: 0,
    conflicts: [],
    issues,
    belief,
    forecast: belief,
    kid: () => [],
    siresTogether: (ids) => [{ sires: ids.map(() => undefined), chance: 1 }],
    joint: (ids) => ({ ids, chances: [] }),
  };
}

/** The questions of a herd, answered from its families. */
export function answerFrom(
  sound: SoundProblem,
  families: readonly (readonly number[])[],
  answers: readonly FamilyAnswer[],
): GenotypeAnswer {
  const { locus } = sound;
  const homes = new Map<number, FamilyAnswer>();
  families.forEach((family, f) => {
    for (const i of family) homes.set(i, present(answers[f], "the answer of a family"));
  });
  const subject = (id: AnimalId): Subject => {
    const at = sound.positions.get(id);
    if (at === undefined) throw new Bug(`not an animal of the problem: ${id}`);
    const answer = present(homes.get(at), "an animal's family");
    return {
      at,
      answer,
      member: present(answer.members[at], "a member"),
      variable: present(answer.network.variables.get(at), "an animal's variable"),
      space: present(answer.network.spaces.get(at), "an animal's states"),
    };
  };
  const beliefs = new Map<AnimalId, AnimalBelief>();
  const answer: GenotypeAnswer = {
    method: answers.every((a) => a.method === "exact") ? "exact" : "approximate",
    error: answers.reduce((most, a) => Math.max(most, a.error), 0),
    logLikelihood: answers.reduce((s, a) => s + a.logLikelihood, 0),
    conflicts: answers.flatMap((a) => a.conflicts),
    issues: sound.issues,
    belief(id) {
      const known = beliefs.get(id);
      if (known) return known;
      const { at, member, answer: family } = subject(id);
      const { space, logs } = family.cavity(at);
      let sires: AnimalBelief["sires"] | undefined;
      const belief: AnimalBelief = {
        ...beliefFrom(locus, space, logs, member),
        get sires() {
          return (sires ??= siresOf(sound, family, at, member));
        },
      };
      beliefs.set(id, belief);
      return belief;
    },
    forecast(id, facts) {
      const { at, member, answer: family } = subject(id);
      const evidence = facts === undefined ? [] : member.evidence.filter((e) => !facts.includes(e.fact));
      const { space, logs } = family.cavityWith(at, evidence);
      return beliefFrom(locus, space, logs, { xx: member.xx, evidence });
    },
    kid: (sire, dam, assuming = {}) =>
      kidOf(
        sound,
        sire === undefined ? undefined : subject(sire),
        dam === undefined ? undefined : subject(dam),
        assuming,
      ),
    siresTogether: (ids) => siresTogetherOf(sound, ids.map(subject)),
    joint: (ids) => jointOf(genotypesOf(locus).length, ids, ids.map(subject)),
  };
  return answer;
}

function siresOf(
  sound: SoundProblem,
  family: FamilyAnswer,
  at: number,
  member: SoundMember,
): ReadonlyMap<AnimalId | undefined, number> {
  const chances = family.sires(at);
  return new Map(member.sires.map((s, k) => [idAt(sound.members, s.sire), chances?.[k] ?? 1]));
}

/** Mates of one litter as they hang together, and the others one by one. */
function siresTogetherOf({ members }: SoundProblem, subjects: readonly Subject[]): readonly SiresTogether[] {
  const byLitter = littersOf(
    members,
    subjects.map(({ at }) => at),
  );
  const open: SiresTogether[] = [
    { sires: subjects.map(({ member: { sires } }) => idAt(members, sires[0]?.sire)), chance: 1 },
  ];
  return byLitter.reduce<readonly SiresTogether[]>((ways, { kids }) => {
    const { answer, member } = present(
      subjects.find(({ at }) => at === kids[0]),
      "a kid",
    );
    const alone = (): readonly (readonly number[])[] => kids.map((i) => present(answer.sires(i), "a doubtful sire"));
    const chances = (kids.length > 1 ? answer.siresTogether(kids) : undefined) ?? products(alone());
    const count = member.sires.length;
    return chances.flatMap((chance, combination) => {
      if (chance === 0) return [];
      const sireOf = new Map(
        kids.map((i, k) => {
          const place = Math.floor(combination / count ** (kids.length - 1 - k)) % count;
          return [i, idAt(members, member.sires[place]?.sire)] as const;
        }),
      );
      return ways.map((way) => ({
        sires: way.sires.map((sire, s) => {
          const { at } = present(subjects[s], "an animal");
          return sireOf.has(at) ? sireOf.get(at) : sire;
        }),
        chance: way.chance * chance,
      }));
    });
  }, open);
}

/** Every product of one chance from each list, the last list's fastest. */
const products = (lists: readonly (readonly number[])[]): readonly number[] =>
  lists.reduce<readonly number[]>((all, list) => all.flatMap((p) => list.map((q) => p * q)), [1]);

const idAt = (members: readonly SoundMember[], at: number | undefined): AnimalId | undefined =>
  at === undefined || at < 0 ? undefined : present(members[at], "a sire").id;

/** A parent of a planned kid: what it hands on, by state, and the weight of each state. */
interface Parent {
  readonly gametes: Gametes;
  readonly subject: Subject | undefined;
  /** Natural logs of own evidence with what is assumed of it added. */
  readonly logUnary: Float64Array;
}

function kidOf(
  sound: SoundProblem,
  sire: Subject | undefined,
  dam: Subject | undefined,
  assuming: KidAssumptions,
): readonly number[] {
  const { locus } = sound;
  const founder = sound.frequenciesOf(assuming.breed);
  const parent = (subject: Subject | undefined, role: "dam" | "sire"): Parent => {
    if (!subject) return { gametes: [founder], subject, logUnary: Float64Array.of(0) };
    const gametes = gametesOf(subject.space, role, locus.alleles.length);
    return { gametes, subject, logUnary: asParent(subject, role, assuming[role]) };
  };
  const [d, s] = [parent(dam, "dam"), parent(sire, "sire")];
  const pair = pairWeights(d, s);
  const spaces = stateSpaces(locus);
  const chances = genotypesOf(locus, assuming.sex).map(() => 0);
  const sexes: readonly (ChromosomalSex | "merged")[] =
    locus.inheritance === "autosomal" ? ["merged"] : assuming.sex ? [assuming.sex] : ["XX", "XY"];
  for (const key of sexes) {
    const kid = spaces[key];
    const table = transmissionTable(d.gametes, s.gametes, kid);
    table.forEach((p, at) => {
      const state = present(kid.states[at % kid.states.length], "a state");
      const genotype = assuming.sex ? state.within : state.genotype;
      chances[genotype] = (chances[genotype] ?? 0) + p * (pair[Math.floor(at / kid.states.length)] ?? 0);
    });
  }
  const total = chances.reduce((a, b) => a + b, 0);
  return total > 0 ? chances.map((c) => c / total) : chances;
}

/** An animal's own evidence as they stand once it is known to be a dam (XX) or a sire (XY). */
function asParent(
  { space, member }: Subject,
  role: "dam" | "sire",
  assumed: Evidence["likelihood"] | undefined,
): Float64Array {
  const evidence = assumed === undefined ? member.evidence : [...member.evidence, { fact: "", likelihood: assumed }];
  const certain = ownEvidence(space, role === "dam" ? 1 : 0, evidence);
  return certain.some((log) => log > Number.NEGATIVE_INFINITY) ? certain : ownEvidence(space, member.xx, evidence);
}

/** Joint weight of the states of dam and sire, the sire's fastest. */
function pairWeights(dam: Parent, sire: Parent): Float64Array {
  const known = [dam, sire].flatMap((p) => (p.subject ? [{ ...p, subject: p.subject }] : []));
  const [first, second] = known;
  if (!first) return Float64Array.of(1);
  const weigh = (...parents: (typeof first)[]): Float64Array =>
    first.subject.answer.joint(
      parents.map((p) => p.subject.variable),
      new Map(parents.map((p) => [p.subject.variable, p.logUnary])),
    );
  if (!second) return weigh(first);
  if (second.subject.variable === first.subject.variable && second.subject.answer === first.subject.answer)
    throw new Bug(`both parents of a kid: ${first.subject.member.id}`);
  if (second.subject.answer === first.subject.answer) return weigh(first, second);
  const [a, b] = [
    weigh(first),
    second.subject.answer.joint([second.subject.variable], new Map([[second.subject.variable, second.logUnary]])),
  ];
  return Float64Array.from(
    { length: a.length * b.length },
    (_, i) => (a[Math.floor(i / b.length)] ?? 0) * (b[i % b.length] ?? 0),
  );
}

function jointOf(genotypes: number, ids: readonly AnimalId[], subjects: readonly Subject[]): JointBelief {
  if (new Set(ids).size !== ids.length) throw new Bug(`joint belief of an animal with itself: ${ids.join()}`);
  if (genotypes ** ids.length > MOST_COMBINATIONS) throw new Bug(`joint belief of too many animals: ${ids.length}`);
  const families = [...new Set(subjects.map((s) => s.answer))];
  const chances = Array.from({ length: genotypes ** ids.length }, () => 0);
  const tables = families.map((answer) => {
    const group = subjects.filter((s) => s.answer === answer);
    const variables = group.map((s) => s.variable);
    return { group, weights: answer.joint(variables, new Map()) };
  });
  // Each group's combinations of states, spread over the places its animals hold in the list.
  let spread: { readonly at: number; readonly chance: number }[] = [{ at: 0, chance: 1 }];
  for (const { group, weights } of tables) {
    const places = group.map((s) => genotypes ** (ids.length - 1 - subjects.indexOf(s)));
    const next: typeof spread = [];
    weights.forEach((w, combination) => {
      if (w === 0) return;
      let rest = combination;
      let offset = 0;
      for (let k = group.length - 1; k >= 0; k--) {
        const { states } = present(group[k], "a subject").space;
        offset += present(states[rest % states.length], "a state").genotype * present(places[k], "a place");
        rest = Math.floor(rest / states.length);
      }
      for (const { at, chance } of spread) next.push({ at: at + offset, chance: chance * w });
    });
    spread = next;
  }
  for (const { at, chance } of spread) chances[at] = (chances[at] ?? 0) + chance;
  return { ids, chances };
}
