import { err, ok, type Result } from "@pollard/base";
import {
  type AnimalId,
  dnaTestLikelihood,
  type DnaTestProblem,
  type Evidence,
  type GenotypeAnswer,
  inferGenotypes,
  type Locus,
  type LocusProblem,
  type Member,
  type PedigreeProblem,
  parseLocus,
  POLLED,
  SHIPPED_LOCI,
  traitLikelihood,
  type TraitSeenProblem,
} from "@pollard/genetics";
import type { Animal, EntryId, Herd } from "@pollard/records";
import type { Situation } from "../situation.ts";
import type { OwnFact } from "./own-facts.ts";

/** Settings under which a keeper's own loci stand: this and the locus's id. The value is its description as JSON. */
export const LOCUS_SETTING = "locus:";

/**
 * Settings under which the keeper's own founder frequencies stand: this and the locus's id. The value says how many in 100 alleles
 * of unknown parents are of the locus's first allele; it counts for every breed. Only loci of two alleles have one.
 */
export const FREQUENCY_SETTING = "frequency:";

/** The founder frequencies that the keeper set for a locus; `undefined` where none are set, or none that can be. */
export function ownFrequencies(
  { settings }: Pick<Herd, "settings">,
  locus: Locus,
): readonly [number, number] | undefined {
  const value = settings.get(`${FREQUENCY_SETTING}${locus.id}`);
  if (typeof value !== "number" || !(value > 0 && value < 100) || locus.alleles.length !== 2) return undefined;
  return [value / 100, 1 - value / 100];
}

/** The same as an inference takes it. */
export function frequenciesFor(herd: Pick<Herd, "settings">, locus: Locus): Pick<PedigreeProblem, "frequencies"> {
  const own = ownFrequencies(herd, locus);
  return own === undefined ? {} : { frequencies: { default: own } };
}

/** Why a keeper's own locus cannot be used. */
export type LocusSettingProblem =
  | LocusProblem
  | { readonly code: "not-json"; readonly path: string }
  /** Its id is that of a locus that comes with the program. */
  | { readonly code: "comes-with-pollard"; readonly path: string; readonly got: string };

/** The loci of a herd, and what kept a keeper's own from being among them. */
export interface HerdLoci {
  readonly loci: readonly Locus[];
  readonly problems: readonly { readonly locus: string; readonly problem: LocusSettingProblem }[];
}

/**
 * Reads the description of a keeper's own locus. Its id may be left out; given, it must be the one it stands under.
 *
 * Shape: as `parseLocus` of genetics takes it.
 */
export function locusFromText(id: string, text: string): Result<Locus, LocusSettingProblem> {
  if (SHIPPED_LOCI.some((locus) => locus.id === id)) return err({ code: "comes-with-pollard", path: "id", got: id });
  const json = jsonOf(text);
  if (!json.ok) return json;
  const described = json.value;
  if (typeof described !== "object" || described === null || Array.isArray(described)) return parseLocus(described);
  const locus = parseLocus({ id, ...described });
  if (locus.ok && locus.value.id !== id)
    return err({ code: "not-one-of", path: "id", got: locus.value.id, allowed: [id] });
  return locus;
}

function jsonOf(text: string): Result<unknown, LocusSettingProblem> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch (cause) {
    if (cause instanceof SyntaxError) return err({ code: "not-json", path: "$" });
    throw cause;
  }
}

/**
 * Every locus this herd can be asked about: those that come with the program, then the keeper's own.
 *
 * A description that cannot be used is a problem of its own and takes nothing else away; an empty one is a locus no longer
 * wanted.
 *
 * Source: rule AD-51.
 */
export function herdLoci({ settings }: Herd): HerdLoci {
  const loci = [...SHIPPED_LOCI];
  const problems: { locus: string; problem: LocusSettingProblem }[] = [];
  for (const [key, value] of settings) {
    if (!key.startsWith(LOCUS_SETTING) || value === "") continue;
    const id = key.slice(LOCUS_SETTING.length);
    const read = locusFromText(id, String(value));
    if (read.ok) loci.push(read.value);
    else problems.push({ locus: id, problem: read.error });
  }
  return { loci, problems };
}

/** One test or trait on record, as what it says at a locus, or why it says nothing there. */
interface Finding {
  readonly entry: EntryId;
  readonly read: Result<Evidence["likelihood"], DnaTestProblem | TraitSeenProblem>;
}

/** What is on record of one animal at a locus: the tests of that locus, and the traits that it makes. */
function findingsAt(locus: Locus, { tests, traits }: Animal): readonly Finding[] {
  const seen = new Set((locus.traits ?? []).map((t) => t.id));
  return [
    ...tests
      .filter((test) => test.locus === locus.id)
      .map(({ entry, alleles }) => ({ entry, read: dnaTestLikelihood(locus, alleles) })),
    ...traits
      .filter(({ trait }) => seen.has(trait))
      .map(({ entry, trait, value }) => ({ entry, read: traitLikelihood(locus, { trait, phenotype: value }) })),
  ];
}

/** The loci beside horns of which a test or a trait of any animal is on record, in the order of `herdLoci`. */
export const recordedLoci = (herd: Herd): readonly Locus[] =>
  herdLoci(herd).loci.filter(
    (locus) =>
      locus.id !== POLLED.id &&
      [...herd.animals.values()].some((a) => findingsAt(locus, a).some(({ read }) => read.ok)),
  );

/**
 * What every animal carries at a locus.
 *
 * At the polled locus and those that the herd follows that is the herd's one belief. Of a locus of which nothing is on record
 * the pedigree and the belief about each sire are all there is.
 *
 * Cost:   one inference, if the locus is not followed.
 * Source: rules AD-51, AD-53; the loci themselves are genetics'.
 */
export const locusAnswer = (situation: Situation, locus: Locus): GenotypeAnswer =>
  situation.beliefs.loci.get(locus.id)?.answer ??
  inferGenotypes(locusProblem(situation, locus), { layouts: situation.layouts });

/** What `locusAnswer` is inferred from, for whoever asks further. */
export function locusProblem({ herd, beliefs }: Situation, locus: Locus): PedigreeProblem {
  const known = beliefs.loci.get(locus.id);
  if (known !== undefined) return known.problem;
  const members = beliefs.problem.members.map((member) => ({
    ...member,
    sires: beliefs.sires(member.id).map(([sire, weight]) => ({ sire, weight })),
  }));
  return problemAt(herd, locus, members);
}

/** These animals' pedigree at another locus, with what is on record of it. A finding that cannot be read says nothing. */
export function problemAt(herd: Herd, locus: Locus, members: readonly Member[]): PedigreeProblem {
  const told = members.map((member): Member => {
    const animal = herd.animals.get(member.id);
    if (animal === undefined) return { ...member, evidence: [] };
    const evidence = findingsAt(locus, animal).flatMap(({ entry, read }) =>
      read.ok ? [{ fact: entry, likelihood: read.value }] : [],
    );
    // Signs of both sexes belong to horns; here an animal is what it is taken for.
    return { ...member, xx: animal.sex === "doe" ? 1 : animal.sex === "buck" ? 0 : member.xx, evidence };
  });
  return { locus, members: told, ...frequenciesFor(herd, locus) };
}

/** A fact that an inference at a locus rests on: whose it is, and what kind of finding. */
export interface NamedFact {
  readonly of: AnimalId;
  readonly about: OwnFact["about"];
}

/** What each fact of `locusProblem` is, by the name it has there. */
export function namedFacts({ herd, beliefs }: Situation, locus: Locus): ReadonlyMap<string, NamedFact> {
  const facts = new Map<string, NamedFact>();
  for (const { id, tests } of herd.animals.values()) {
    if (locus.id === POLLED.id) for (const { fact, about } of beliefs.facts(id)) facts.set(fact, { of: id, about });
    else for (const { entry } of tests) facts.set(entry, { of: id, about: "dna-test" });
  }
  if (locus.id !== POLLED.id)
    for (const { id, traits } of herd.animals.values())
      for (const { entry } of traits) facts.set(entry, { of: id, about: "trait" });
  return facts;
}

/** A test or a trait on record that says nothing at its locus, and why. */
export interface UnreadFinding {
  readonly entry: EntryId;
  readonly animal: Animal;
  /** What the locus is called; its id where there is none of it. */
  readonly locus: string;
  readonly problem: FindingProblem;
}

/** Why a test or a trait says nothing: it cannot be read at its locus, or there is no such locus. */
export type FindingProblem =
  | DnaTestProblem
  | TraitSeenProblem
  | { readonly code: "no-such-locus"; readonly got: string; readonly allowed: readonly string[] };

/** Tests and traits on record that cannot be read at the locus they are of, and tests of a locus that nobody knows. */
export function unreadFindings(herd: Herd): readonly UnreadFinding[] {
  const { loci, problems } = herdLoci(herd);
  const animals = [...herd.animals.values()];
  const unread = loci.flatMap((locus) =>
    animals.flatMap((animal) =>
      findingsAt(locus, animal).flatMap(({ entry, read }) =>
        read.ok ? [] : [{ entry, animal, locus: locus.name, problem: read.error }],
      ),
    ),
  );
  const allowed = loci.map(({ id }) => id);
  // A locus whose own description cannot be used is told of once, there.
  const told = new Set([...allowed, ...problems.map(({ locus }) => locus)]);
  const stray = animals.flatMap((animal) =>
    animal.tests
      .filter(({ locus }) => !told.has(locus))
      .map(({ entry, locus }) => ({
        entry,
        animal,
        locus,
        problem: { code: "no-such-locus", got: locus, allowed } as const,
      })),
  );
  return [...unread, ...stray];
}
