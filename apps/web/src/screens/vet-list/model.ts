import type { VetListLine } from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, Fact } from "@pollard/records";

type Body = BodyOf<"disbudding">;
type Finding = "bud" | "no-bud" | "unsure";

/** What was answered about one kid at the vet's. */
export interface DoneAnswers {
  readonly done?: Body["done"];
  readonly technique?: NonNullable<Body["technique"]>;
  readonly left?: Finding;
  readonly right?: Finding;
  readonly operator?: string;
}

/** The same, as far as it is answered, with the day of the visit that it was begun for. */
export interface DoneDraft extends DoneAnswers {
  readonly on: Day;
}

/** Who is still to be seen comes first, so that the next kid is on top; who was seen stands behind. */
export const inTurn = (list: readonly VetListLine[]) => ({
  toSee: list.filter(({ done }) => done === undefined),
  seen: list.filter(({ done }) => done !== undefined),
});

/** The questions, each a step at which the answering may be left. */
export const DONE_STEPS = [
  "done",
  "left",
  "right",
  "technique",
  "operator",
] as const satisfies readonly (keyof DoneAnswers)[];

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readDone(stored: unknown): DoneDraft | undefined {
  const draft = stored as Partial<DoneDraft> | undefined;
  return typeof draft?.on === "string" ? (draft as DoneDraft) : undefined;
}

/**
 * The fact, once it is said what was done. A side nobody told of is "not sure" as soon as the other was told; the
 * technique is kept only where something was done.
 */
export function disbuddingFact(answers: DoneAnswers, kid: AnimalId, on: Day): Fact | undefined {
  const { done, technique, left, right } = answers;
  if (done === undefined) return undefined;
  const operator = answers.operator?.trim() ?? "";
  const body: Body = {
    kid,
    done,
    ...(operator === "" ? {} : { operator }),
    ...(technique === undefined || done === "not-done" ? {} : { technique }),
    ...(left === undefined && right === undefined
      ? {}
      : { found: { left: left ?? "unsure", right: right ?? "unsure" } }),
  };
  return { kind: "disbudding", on, body };
}
