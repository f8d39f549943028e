import type { Day, WeightUnit } from "@pollard/base";
import { type AnimalId, POLLED } from "@pollard/genetics";
import type { BodyOf, Fact } from "@pollard/records";
import { readWeight, type TypedWeight } from "../../parts/answers/typed-weight.ts";

export const OTHER_FACTS = ["weight", "note", "move", "dna-test", "trait", "departure"] as const;
export type OtherFact = (typeof OTHER_FACTS)[number];

/** Answers to whichever of the questions belong to the kind chosen. */
export interface FactAnswers {
  readonly kind?: OtherFact;
  readonly on: Day;
  readonly weight: TypedWeight;
  readonly how?: "weighed" | "guessed";
  readonly note: string;
  /** The gene that was tested; the polled gene has its own three answers, others the alleles on the paper. */
  readonly locus: string;
  readonly genotype?: "PP" | "Pp" | "pp";
  readonly alleles: readonly string[];
  readonly lab: string;
  readonly trait?: string;
  readonly phenotype?: string | undefined;
  readonly moved?: "into" | "out";
  readonly pen: string;
  readonly why?: BodyOf<"departure">["why"];
  readonly to: string;
}

export const firstFact = (today: Day, unit: WeightUnit): FactAnswers => ({
  on: today,
  weight: { text: "", unit },
  note: "",
  locus: POLLED.id,
  alleles: [],
  lab: "",
  pen: "",
  to: "",
});

const ALLELES = { PP: ["P", "P"], Pp: ["P", "p"], pp: ["p", "p"] } as const;

/** The questions that a fact may still lack an answer to. */
type FactField =
  | "kind"
  | "weight"
  | "how"
  | "note"
  | "genotype"
  | "allele-0"
  | "allele-1"
  | "trait"
  | "phenotype"
  | "moved"
  | "pen"
  | "why";

/** What is still to be said, in the order in which it is asked. */
export function factMissing(answers: FactAnswers): readonly FactField[] {
  const needed = (all: Partial<Record<FactField, boolean>>): readonly FactField[] =>
    (Object.keys(all) as FactField[]).filter((field) => all[field] === false);
  const { kind } = answers;
  if (kind === undefined) return ["kind"];
  switch (kind) {
    case "weight":
      return needed({ weight: readWeight(answers.weight).state === "weight", how: answers.how !== undefined });
    case "note":
      return needed({ note: answers.note.trim() !== "" });
    case "dna-test": {
      const [first = "", second = ""] = answers.alleles;
      return answers.locus === POLLED.id
        ? needed({ genotype: answers.genotype !== undefined })
        : needed({ "allele-0": first !== "", "allele-1": second !== "" });
    }
    case "trait":
      return answers.trait === undefined ? ["trait"] : needed({ phenotype: answers.phenotype !== undefined });
    case "move":
      return answers.moved === undefined
        ? ["moved"]
        : needed({ pen: answers.moved === "out" || answers.pen.trim() !== "" });
    case "departure":
      return needed({ why: answers.why !== undefined });
  }
}

/** The fact, once the questions of its kind are answered. */
export function otherFact(answers: FactAnswers, animal: AnimalId): Fact | undefined {
  const { on } = answers;
  switch (answers.kind) {
    case undefined:
      return undefined;
    case "weight": {
      const read = readWeight(answers.weight);
      return read.state !== "weight" || answers.how === undefined
        ? undefined
        : { kind: "weight", on, body: { animal, kg: read.kg, how: answers.how } };
    }
    case "note": {
      const text = answers.note.trim();
      return text === "" ? undefined : { kind: "note", on, body: { animal, text } };
    }
    case "dna-test": {
      const { locus, genotype } = answers;
      const [first = "", second = ""] =
        locus !== POLLED.id ? answers.alleles : genotype === undefined ? [] : ALLELES[genotype];
      if (first === "" || second === "") return undefined;
      const lab = answers.lab.trim() === "" ? {} : { lab: answers.lab.trim() };
      return { kind: "dna-test", on, body: { animal, locus, alleles: [first, second], ...lab } };
    }
    case "trait":
      return answers.trait === undefined || answers.phenotype === undefined
        ? undefined
        : { kind: "trait", on, body: { animal, trait: answers.trait, value: answers.phenotype } };
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
