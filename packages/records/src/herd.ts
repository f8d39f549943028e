import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Growth, HeadSigns, KnobShape } from "@pollard/husbandry";
import type { BodyOf, FactKind, GrownHead, KidChoice, PhotoSubject, ServiceWay, Sex } from "./entry/entry-kinds.ts";
import type { EntryId, HerdId, Stamp } from "./entry/ids.ts";

/** Where a piece of the herd comes from: the entry, its day (and time if given), who saw it, when it was written. */
export interface Provenance {
  /** The entry that started it; corrections do not change it. */
  readonly entry: EntryId;
  readonly on: Day;
  /** Local time of day, `HH:MM`, where the person gave one. */
  readonly time: string | undefined;
  readonly by: string;
  readonly at: Stamp;
}

/**
 * One goat as the entries tell it. Lists are in order of day, then stamp. `undefined` = not recorded.
 *
 * An animal that is only named by others (`unknown-animal`) is here too, with the sex that its role says: without it the
 * pedigree would have a hole. What cannot have been so (before its birth, after today) is in the history and in no list.
 */
export interface Animal {
  readonly id: AnimalId;
  /** The entry that made it known: the kidding it was born in, an `animal` entry, or else the first that names it. */
  readonly entry: EntryId;
  readonly name: string | undefined;
  readonly tag: string | undefined;
  /** The number of its electronic chip. */
  readonly chip: string | undefined;
  readonly mark: string | undefined;
  readonly sex: Sex;
  readonly born: Day | undefined;
  readonly bornAs: "alive" | "dead" | undefined;
  readonly breed: string | undefined;
  readonly dam: AnimalId | undefined;
  /** The sires the record names: none = not recorded, one = certain by the record, several = one of these. */
  readonly sires: readonly AnimalId[];
  /** The kidding it was born in. */
  readonly kidding: EntryId | undefined;
  readonly head: (Provenance & { readonly head: GrownHead }) | undefined;
  readonly readings: readonly (Provenance & { readonly signs: HeadSigns; readonly budSites: 2 | 4 | undefined })[];
  readonly outcomes: readonly (Provenance & {
    readonly left: Growth;
    readonly right: Growth;
    readonly knobs: KnobShape | undefined;
  })[];
  readonly disbuddings: readonly (Provenance & Omit<BodyOf<"disbudding">, "kid">)[];
  readonly tests: readonly (Provenance & {
    readonly locus: string;
    readonly alleles: readonly [string, string];
    readonly lab: string | undefined;
  })[];
  readonly traits: readonly (Provenance & { readonly trait: string; readonly value: string })[];
  /** Where it was put, and when; `undefined` = out of every pen. */
  readonly moves: readonly (Provenance & { readonly pen: string | undefined })[];
  readonly weights: readonly (Provenance & { readonly kg: number; readonly how: "weighed" | "guessed" })[];
  readonly choices: readonly (Provenance & { readonly choice: KidChoice; readonly day: Day | undefined })[];
  readonly notes: readonly (Provenance & { readonly text: string })[];
  /** Photos by the name of the picture, which is kept beside the ledger and may be elsewhere. */
  readonly photos: readonly (Provenance & { readonly photo: string; readonly what: PhotoSubject })[];
  /** Heats that were seen without a service. */
  readonly heats: readonly Provenance[];
  readonly pregnancyChecks: readonly (Provenance & Omit<BodyOf<"pregnancy-check">, "doe">)[];
  /** Days on which she lost her kids before their time. */
  readonly abortions: readonly Provenance[];
  /** What became of tasks of care. */
  readonly care: readonly (Provenance & Omit<BodyOf<"care">, "animals">)[];
  /** The last one recorded; an animal may be lent first and sold later. */
  readonly departure:
    | (Provenance & { readonly why: BodyOf<"departure">["why"]; readonly to: string | undefined })
    | undefined;
}

/** A doe with a buck or several, from `on` to `until` (the same day unless a pen period was given). */
export interface Service extends Provenance {
  readonly doe: AnimalId;
  readonly bucks: readonly AnimalId[];
  readonly way: ServiceWay;
  readonly until: Day;
}

/**
 * A birth; its kids are animals of the herd. A kidding whose dam cannot have been one is not listed: its kids are animals
 * all the same, without that dam.
 */
export interface Kidding extends Provenance {
  readonly dam: AnimalId;
  readonly kids: readonly AnimalId[];
}

/** A day on which the vet is to come. */
export interface VetDay extends Provenance {
  readonly vet: string | undefined;
}

/** One line of the herd's history: what was entered, and whether it still stands. For "undo" and for looking back. */
export interface HistoryLine extends Provenance {
  readonly kind: FactKind;
  readonly animals: readonly AnimalId[];
  readonly state: "stands" | "replaced" | "struck";
  /** The entry that replaced or struck it; striking that one brings this back. */
  readonly undoneBy: EntryId | undefined;
}

/** The herd as its entries tell it. Derived, never stored as truth. */
export interface Herd {
  readonly id: HerdId | undefined;
  readonly animals: ReadonlyMap<AnimalId, Animal>;
  readonly services: readonly Service[];
  readonly kiddings: readonly Kidding[];
  readonly vetDays: readonly VetDay[];
  /** The latest value of each setting. */
  readonly settings: ReadonlyMap<string, string | number>;
  /** Notes that name no animal. */
  readonly notes: readonly (Provenance & { readonly text: string })[];
  /** Newest first. */
  readonly history: readonly HistoryLine[];
  /** How many entries were kept unread because a later version of the program wrote them. */
  readonly tooNew: number;
}

/** What in the entries makes no sense. Nothing is dropped in silence: each names its entry, and the rest of the herd stands. */
export type HerdProblem =
  | { readonly code: "unknown-animal"; readonly entry: EntryId; readonly animal: AnimalId }
  | { readonly code: "born-twice"; readonly entry: EntryId; readonly animal: AnimalId; readonly first: EntryId }
  | {
      readonly code: "two-with-one-tag";
      readonly entry: EntryId;
      readonly tag: string;
      readonly animals: readonly AnimalId[];
    }
  | { readonly code: "sire-is-no-buck"; readonly entry: EntryId; readonly animal: AnimalId; readonly sire: AnimalId }
  | { readonly code: "dam-is-no-doe"; readonly entry: EntryId; readonly animal: AnimalId; readonly dam: AnimalId }
  | { readonly code: "own-ancestor"; readonly entry: EntryId; readonly animals: readonly AnimalId[] }
  | {
      readonly code: "older-than-parent";
      readonly entry: EntryId;
      readonly animal: AnimalId;
      readonly parent: AnimalId;
    }
  | { readonly code: "in-the-future"; readonly entry: EntryId; readonly on: Day; readonly today: Day }
  | {
      readonly code: "before-birth";
      readonly entry: EntryId;
      readonly animal: AnimalId;
      readonly on: Day;
      readonly born: Day;
    }
  | {
      readonly code: "after-departure";
      readonly entry: EntryId;
      readonly animal: AnimalId;
      readonly on: Day;
      readonly left: Day;
    }
  | { readonly code: "ends-before-it-starts"; readonly entry: EntryId; readonly on: Day; readonly until: Day }
  | { readonly code: "corrects-nothing"; readonly entry: EntryId; readonly target: EntryId }
  | { readonly code: "other-kind"; readonly entry: EntryId; readonly target: EntryId }
  | { readonly code: "rival-corrections"; readonly entry: EntryId; readonly rivals: readonly EntryId[] }
  | { readonly code: "one-id-two-entries"; readonly entry: EntryId }
  | { readonly code: "other-herd"; readonly entry: EntryId; readonly herd: HerdId }
  | { readonly code: "too-new"; readonly entry: EntryId };
