import type { CareCaution } from "@pollard/husbandry";

/** The cautions of the vet's list. No doses, ever: the weight goes to the vet, the vet decides. */
export const CAUTIONS: Readonly<Record<CareCaution | "very-small-kid", string>> = {
  "vet-and-local-law": "The vet decides whether, when and how. Local law comes first.",
  "weigh-on-the-morning": "Weigh each kid this morning. The vet needs the weight.",
  "pain-relief-is-the-vets": "Ask the vet about sedation, nerve block and pain relief.",
  "tetanus-cover": "Tell the vet about tetanus cover: the dam's booster, the kid's own.",
  "healthy-kids-only": "A kid that scours, is cold or does not suck waits. Tell the vet.",
  "thin-skull": "A kid's skull is thin. Heat can harm the brain: practised hands only.",
  "iron-only": "No caustic paste, no clove oil, no rubber rings, no freezing.",
  "wounds-stay-sore-for-weeks": "Wounds stay sore for weeks. Dull, circling or in fits: ring the vet at once.",
  "check-at-three-months": "See at three months what grew. A scur then means regrowth, not genes.",
  "very-small-kid": "A very small kid has the least room for error. Tell the vet.",
};
