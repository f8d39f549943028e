import type { Sourced } from "@pollard/base";

/**
 * What must be said to whoever comes among the goats while kids are born, as codes with the keys of the sources that say so.
 * The words live in the catalogue.
 */
export const VISITOR_CAUTIONS = [
  { code: "pregnant-stay-away", sources: ["govuk-pregnancy"] },
  { code: "weak-immunity-ask-doctor", sources: ["cdc-qfever"] },
  { code: "wash-hands", sources: ["north-yorkshire-farms"] },
  { code: "no-gel-instead", sources: ["north-yorkshire-farms"] },
  { code: "no-food", sources: ["north-yorkshire-farms"] },
  { code: "children-held", sources: ["north-yorkshire-farms"] },
  { code: "no-afterbirth", sources: ["cdc-qfever", "govuk-pregnancy"] },
  { code: "clothes-washed-hot", sources: ["govuk-pregnancy"] },
  { code: "bucks-apart", sources: ["common-practice"] },
] as const;

/** The same for the keeper, when a doe loses her kids before their time: it can be catching, for people too. */
export const ABORTION_CAUTIONS = [
  { code: "isolate-her", sources: ["cdc-qfever"] },
  { code: "gloves-and-vet", sources: ["cdc-qfever", "govuk-pregnancy"] },
  { code: "keep-what-came", sources: ["cdc-qfever"] },
] as const;

/** A caution for whoever comes to see kids, by its code. */
export type VisitorCaution = (typeof VISITOR_CAUTIONS)[number]["code"];
/** A caution after a loss, by its code. */
export type AbortionCaution = (typeof ABORTION_CAUTIONS)[number]["code"];

/** Days after the last birth, or loss, for which the cautions stay up. No figure was found; some weeks are our judgement. */
export const CAUTIONS_STAY_DAYS: Sourced<number> = { value: 28, source: "judgement", checked: "judgement" };
