import type { Day, WeightUnit } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, Fact, Sex } from "@pollard/records";
import { readWeight, type TypedWeight } from "../../parts/answers/typed-weight.ts";

/** A newborn as far as it is answered. */
export interface NewbornDraft {
  /** The id that the kid will have; given at once, so that finishing twice makes one goat. */
  readonly kid: AnimalId;
  readonly sex?: Sex;
  readonly born?: "alive" | "dead";
  readonly mark?: string;
  readonly tag?: string;
  readonly weightText?: string;
  /** In what the weight was typed; earlier drafts say nothing, and are in kilograms. */
  readonly weightUnit?: WeightUnit;
  /** Taken off by mistake or by intent; can be put back until the litter is finished. */
  readonly off?: "off";
}

export interface KiddingDraft {
  readonly on: Day;
  readonly time: string | undefined;
  readonly kids: readonly NewbornDraft[];
}

export const firstKidding = (today: Day, time: string, kid: AnimalId): KiddingDraft => ({
  on: today,
  time,
  kids: [{ kid }],
});

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readKidding(stored: unknown): KiddingDraft | undefined {
  const draft = stored as Partial<KiddingDraft> | undefined;
  return typeof draft?.on === "string" && Array.isArray(draft.kids) ? (draft as KiddingDraft) : undefined;
}

/** Changes one newborn's answers; a text that was emptied is not answered. */
export function answerKid(draft: KiddingDraft, at: number, answer: Partial<NewbornDraft>): KiddingDraft {
  const kids = draft.kids.map((kid, index) => (index === at ? withoutEmpty({ ...kid, ...answer }) : kid));
  return { ...draft, kids };
}

const withoutEmpty = (kid: NewbornDraft): NewbornDraft =>
  Object.fromEntries(
    Object.entries(kid).filter(([, value]) => value !== "" && value !== undefined),
  ) as unknown as NewbornDraft;

/** Takes a kid off the litter, or puts it back. */
export function toggleKid(draft: KiddingDraft, at: number): KiddingDraft {
  const kids = draft.kids.map(({ off, ...kid }, index) =>
    index === at ? (off ? kid : { ...kid, off: "off" as const }) : off ? { ...kid, off } : kid,
  );
  return { ...draft, kids };
}

export const addKid = (draft: KiddingDraft, kid: AnimalId): KiddingDraft => ({
  ...draft,
  kids: [...draft.kids, { kid }],
});

/** Up to which hour of the night a kid is likelier to have been born the evening before. Our own choice. */
const NIGHT_UNTIL = "03:00";

/** Is it so soon after midnight that the day may be the one before? Asked, never changed by itself. */
export const maybeYesterday = (draft: KiddingDraft, today: Day): boolean =>
  draft.on === today && draft.time !== undefined && draft.time < NIGHT_UNTIL;

/** The weight in its field: in the unit in which it was typed, whatever the phone uses by now; empty, in the phone's own. */
export const weightTyped = (kid: NewbornDraft | undefined, unit: WeightUnit): TypedWeight =>
  kid?.weightText === undefined ? { text: "", unit } : { text: kid.weightText, unit: kid.weightUnit ?? "kg" };

/**
 * The fact that the answers make. What was skipped stays unrecorded: a kid whose sex nobody answered is "not sure", a
 * kid nobody called dead was alive. Only the identity of dam and kids is needed to finish.
 */
export function kiddingFact(draft: KiddingDraft, dam: AnimalId): Fact {
  const kids = draft.kids
    .filter((kid) => kid.off === undefined)
    .map((kid): BodyOf<"kidding">["kids"][number] => {
      const weight = readWeight(weightTyped(kid, "kg"));
      return {
        kid: kid.kid,
        sex: kid.sex ?? "unsure",
        born: kid.born ?? "alive",
        ...(kid.mark === undefined ? {} : { mark: kid.mark }),
        ...(kid.tag === undefined ? {} : { tag: kid.tag }),
        ...(weight.state === "weight" ? { weightKg: weight.kg } : {}),
      };
    });
  return {
    kind: "kidding",
    on: draft.time === undefined ? draft.on : `${draft.on}T${draft.time}`,
    body: { dam, kids },
  };
}
