import { item } from "../inference/cell.ts";
import type { Locus } from "../locus.ts";
import type { BirthLitter, Evidence, FrequencyOverride, Member, PedigreeProblem } from "./pedigree-problem.ts";
import type { SoundMember } from "./sound-problem.ts";

/**
 * What stays the same from one question about a herd to the next. Records are written anew for every question, so that it is
 * what they hold that is compared.
 */

/** Whether nothing but findings differs: the same animals in the same order, of the same parents, at the same locus. */
export function isSamePedigree(a: PedigreeProblem, b: PedigreeProblem): boolean {
  return (
    isSameLocus(a.locus, b.locus) &&
    isSameFrequencies(a.frequencies, b.frequencies) &&
    isSameList(a.members, b.members, isSameButFindings)
  );
}

const isSameButFindings = (a: Member, b: Member): boolean =>
  a === b ||
  (a.id === b.id &&
    a.dam === b.dam &&
    a.xx === b.xx &&
    a.breed === b.breed &&
    isSameLitter(a.litter, b.litter) &&
    isSameList(a.sires, b.sires, isSameCandidate) &&
    isSameList(a.founderPrior, b.founderPrior));

/** A possible sire, by id or by position. */
interface Candidate {
  readonly sire: unknown;
  readonly weight: number;
  readonly said?: number;
}

const isSameCandidate = (a: Candidate, b: Candidate): boolean =>
  a.sire === b.sire && a.weight === b.weight && a.said === b.said;

const isSameLitter = (a: BirthLitter | undefined, b: BirthLitter | undefined): boolean =>
  a?.id === b?.id && a?.mixed === b?.mixed;

/** As far as inference goes. */
const isSameLocus = (a: Locus, b: Locus): boolean =>
  a === b ||
  (a.id === b.id &&
    a.inheritance === b.inheritance &&
    isSameList(a.alleles, b.alleles) &&
    isSameList(a.founders.default.value, b.founders.default.value) &&
    isSameByBreed(a.founders.breeds, b.founders.breeds, (x, y) => isSameList(x.value, y.value)));

const isSameFrequencies = (a: FrequencyOverride = {}, b: FrequencyOverride = {}): boolean =>
  isSameList(a.default, b.default) && isSameByBreed(a.breeds ?? {}, b.breeds ?? {}, isSameList);

function isSameByBreed<T>(
  a: Readonly<Record<string, T>>,
  b: Readonly<Record<string, T>>,
  isSame: (x: T, y: T) => boolean,
): boolean {
  return isSameList(Object.entries(a), Object.entries(b), ([breed, x], [other, y]) => breed === other && isSame(x, y));
}

/** Whether all that inference knows of two members is the same. */
export const isSameMember = (a: SoundMember, b: SoundMember): boolean =>
  a === b || (isSameBirth(a, b) && isSameFindings(a.evidence, b.evidence));

/** Whether two sound members differ in their findings at most. */
export const isSameBirth = (a: SoundMember, b: SoundMember): boolean =>
  a === b ||
  (a.id === b.id &&
    a.dam === b.dam &&
    a.xx === b.xx &&
    a.priorXx === b.priorXx &&
    isSameList(a.sires, b.sires, isSameCandidate) &&
    isSameLitter(a.litter, b.litter) &&
    isSameList(a.frequencies, b.frequencies) &&
    isSameList(a.founderPrior, b.founderPrior));

/** Whether two lists of findings say the same under the same names. */
export const isSameFindings = (a: readonly Evidence[], b: readonly Evidence[]): boolean =>
  isSameList(
    a,
    b,
    (x, y) =>
      x.fact === y.fact && isSameList(x.likelihood.XX, y.likelihood.XX) && isSameList(x.likelihood.XY, y.likelihood.XY),
  );

/** Whether two lists, or two that are not there, hold the same. */
export function isSameList<T>(
  a: readonly T[] | undefined,
  b: readonly T[] | undefined,
  isSame: (x: T, y: T) => boolean = Object.is,
): boolean {
  if (a === b) return true;
  if (a === undefined || b?.length !== a.length) return false;
  for (let i = 0; i < a.length; i++) if (!isSame(item(a, i), item(b, i))) return false;
  return true;
}
