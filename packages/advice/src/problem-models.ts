import type { Probability } from "@pollard/base";
import type { Suspects } from "@pollard/genetics";
import type { EntryId, HerdProblem } from "@pollard/records";
import type { AnimalRef } from "./animal-ref.ts";
import type { FindingProblem } from "./belief/findings.ts";
import type { LocusSettingProblem } from "./belief/herd-loci.ts";

/** The locus at which something does not fit, and the records that may be wrong. */
export interface ProblemLocus {
  readonly id: string;
  readonly name: string;
  readonly suspects: Suspects;
}

/** What contradicts itself: in the record, or between the record and how polledness is inherited. */
export type AdviceProblem =
  | HerdProblem
  | {
      readonly code: "cannot-be";
      readonly locus: ProblemLocus;
      /** The smallest set of facts that cannot all be true. */
      readonly entries: readonly EntryId[];
      readonly animals: readonly AnimalRef[];
      readonly what: "horned-kid-of-polled" | "polled-kid-of-horned" | "other";
    }
  | {
      readonly code: "hard-to-believe";
      readonly locus: ProblemLocus;
      readonly entries: readonly EntryId[];
      readonly animal: AnimalRef;
      readonly what: "horned-kid-of-polled" | "polled-kid-of-horned" | "other";
      /** Chance that the recorded sire is not the sire, after everything known. */
      readonly wrongSire: Probability;
    }
  /** Likely one newborn, entered on two phones: a person says, and the answer is kept as the setting `key`. */
  | {
      readonly code: "same-kid";
      /** The two kiddings that it stands in. */
      readonly entries: readonly EntryId[];
      readonly animals: readonly [AnimalRef, AnimalRef];
      readonly key: string;
    }
  | { readonly code: "odd-gestation"; readonly entry: EntryId; readonly animal: AnimalRef; readonly days: number }
  /** A locus of the keeper's own that cannot be used; it stands in the settings, so no entry is named. */
  | {
      readonly code: "bad-locus";
      readonly entries: readonly EntryId[];
      readonly locus: string;
      readonly problem: LocusSettingProblem;
    }
  /**
   * Founder frequencies that the keeper set, for one breed or for every one, and that cannot be used; they stand in the
   * settings, so no entry is named.
   */
  | {
      readonly code: "bad-frequencies";
      readonly entries: readonly EntryId[];
      readonly locus: string;
      readonly breed: string | undefined;
    }
  /** A test or trait on record that says nothing at its locus. */
  | {
      readonly code: "unreadable-finding";
      readonly entry: EntryId;
      readonly animal: AnimalRef;
      /** By id; of one that nobody knows that is its name too. */
      readonly locus: { readonly id: string; readonly name: string };
      readonly problem: FindingProblem;
    };
