import type { Day } from "@pollard/base";
import { type AnimalId, POLLED } from "@pollard/genetics";
import type { BodyOf, Fact } from "@pollard/records";
import { weightOf } from "../kidding/model.ts";

export const OTHER_FACTS = ["weight", "note", "move", "dna-test", "departure"] as const;
export type OtherFact = (typeof OTHER_FACTS)[number];

/** Answers to whichever of the questions belong to the kind chosen. */
export interface FactAnswers {
  readonly kind?: OtherFact;
  readonly on: Day;
  readonly kg: string;
  readonly how?: "weighed" | "guessed";
  readonly note: string;
  readonly genotype?: "PP" | "Pp" | "pp";
  readonly lab: string;
  readonly moved?: "into" | "out";
  readonly pen: string;
  readonly why?: BodyOf<"departure">["why"];
  readonly to: string;
}

export const firstFact = (today: Day): FactAnswers => ({ on: today, kg: "", note: "", lab: "", pen: "", to: "" });

const ALLELES = { PP: ["P", "P"], Pp: ["P", "p"], pp: ["p", "p"] } as const;

/** The fact, once the questions of its kind are answered. */
export function otherFact(answers: FactAnswers, animal: AnimalId): Fact | undefined {
  const { on } = answers;
  switch (answers.kind) {
    case undefined:
      return undefined;
    case "weight": {
      const kg = weightOf(answers.kg);
      return kg === undefined || answers.how === undefined
        ? undefined
        : { kind: "weight", on, body: { animal, kg, how: answers.how } };
    }
    case "note": {
      const text = answers.note.trim();
      return text === "" ? undefined : { kind: "note", on, body: { animal, text } };
    }
    case "dna-test": {
      if (answers.genotype === undefined) return undefined;
      const [first, second] = ALLELES[answers.genotype];
      const lab = answers.lab.trim() === "" ? {} : { lab: answers.lab.trim() };
      return { kind: "dna-test", on, body: { animal, locus: POLLED.id, alleles: [first, second], ...lab } };
    }
    case "move": {
      if (answers.moved === "out") return { kind: "move", on, body: { animal } };
      const pen = answers.pen.trim();
      return answers.moved === undefined || pen === "" ? undefined : { kind: "move", on, body: { animal, pen } };
    }
    case "departure": {
      const to = answers.to.trim() === "" ? {} : { to: answers.to.trim() };
      return answers.why === undefined
        ? undefined
        : { kind: "departure", on, body: { animal, why: answers.why, ...to } };
    }
  }
}
