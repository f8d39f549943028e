/** The cautions of the vet's list. No doses, ever: the weight goes to the vet, the vet decides. */
export const CAUTIONS: Readonly<Record<string, string>> = {
  "vet-decides": "The vet decides whether, when and how. Local law comes first.",
  "weigh-this-morning": "Weigh each kid this morning. Small kids stand very little.",
  "pain-relief": "Ask the vet about sedation, nerve block and pain relief. Kids need all three.",
  tetanus: "Tell the vet about tetanus cover: the dam's booster, the kid's own.",
  "no-paste": "No caustic paste, no clove oil, no rubber rings.",
  "healthy-only": "A kid that scours, does not suck or is cold waits. Tell the vet.",
  "after-signs": "Dull, head pressing, circling or fits afterwards: ring the vet at once.",
  "keep-warm": "Keep them warm and fed afterwards, and look at them through the evening.",
  "check-at-three-months": "See at three months what grew. A scur then means regrowth, not genes.",
};
