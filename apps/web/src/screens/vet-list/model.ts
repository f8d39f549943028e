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
