import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Growth, KnobShape } from "@pollard/husbandry";
import type { Fact } from "@pollard/records";

/** What grew, as far as it is answered. */
export interface OutcomeDraft {
  readonly on: Day;
  readonly left?: Growth;
  readonly right?: Growth;
  readonly knobs?: KnobShape;
}

export const firstOutcome = (today: Day): OutcomeDraft => ({ on: today });

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readOutcome(stored: unknown): OutcomeDraft | undefined {
  const draft = stored as Partial<OutcomeDraft> | undefined;
  return typeof draft?.on === "string" ? (draft as OutcomeDraft) : undefined;
}

/** Is the shape of the knobs asked? Only where a knob grew. */
export const asksKnobs = (draft: OutcomeDraft): boolean => draft.left === "knob" || draft.right === "knob";

/** The fact, once both sides are answered; a shape of knobs only where a knob grew. */
export function outcomeFact(draft: OutcomeDraft, animal: AnimalId): Fact | undefined {
  const { on, left, right, knobs } = draft;
  if (left === undefined || right === undefined) return undefined;
  const shape = asksKnobs(draft) && knobs !== undefined ? { knobs } : {};
  return { kind: "outcome", on, body: { animal, left, right, ...shape } };
}
