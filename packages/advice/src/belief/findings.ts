import type { Result } from "@pollard/base";
import {
  dnaTestLikelihood,
  type DnaTestProblem,
  type Evidence,
  type Locus,
  type Member,
  type PedigreeProblem,
  POLLED,
  traitLikelihood,
  type TraitSeenProblem,
} from "@pollard/genetics";
import type { Animal, EntryId, Herd } from "@pollard/records";
import { frequenciesFor, herdLoci } from "./herd-loci.ts";

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

/** A test or a trait on record that says nothing at its locus, and why. */
export interface UnreadFinding {
  readonly entry: EntryId;
  readonly animal: Animal;
  /** The locus; of one that nobody knows the id is its name too. */
  readonly locus: { readonly id: string; readonly name: string };
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
        read.ok ? [] : [{ entry, animal, locus: { id: locus.id, name: locus.name }, problem: read.error }],
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
        locus: { id: locus, name: locus },
        problem: { code: "no-such-locus", got: locus, allowed } as const,
      })),
  );
  return [...unread, ...stray];
}
