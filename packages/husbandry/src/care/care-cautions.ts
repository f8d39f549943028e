/**
 * What a vet's list must remind of, as codes with the key of the source that says so. The words live in the catalogue; no
 * dose is ever held here, only why a weight matters.
 */
export const CARE_CAUTIONS = [
  { code: "vet-and-local-law", sources: ["avma-disbudding", "wagmann2018"] },
  { code: "weigh-on-the-morning", sources: ["lidocaine-goat-kids", "mueller-disbudding"] },
  { code: "pain-relief-is-the-vets", sources: ["singh2024", "ava2022"] },
  { code: "tetanus-cover", sources: ["whitley-vaccination"] },
  { code: "healthy-kids-only", sources: ["extension-goat-handbook"] },
  { code: "thin-skull", sources: ["ava2022"] },
  { code: "iron-only", sources: ["ava2022"] },
  { code: "wounds-stay-sore-for-weeks", sources: ["animals2021-wounds"] },
  { code: "check-at-three-months", sources: ["hempstead2018"] },
] as const;

/** A caution around a kid's head, by its code. */
export type CareCaution = (typeof CARE_CAUTIONS)[number]["code"];

/** Birth weight below which a kid counts as very small, kg: the mean of Pygmy kids in the study. */
const SMALL_KID_KG = { value: 1.7, source: "amoah1996", checked: "read-in-source" } as const;

/** What is known of a kid that decides which cautions are pressing for it. */
export interface CareFacts {
  readonly weightKg?: number;
  /** Whether the weight was taken on the day of the visit. */
  readonly weighed: "that-morning" | "earlier" | "never";
  readonly tetanus: "covered" | "not-covered" | "unknown";
}

/**
 * What is pressing for this kid before the vet touches it; the general cautions hold for every kid.
 *
 * Shape: a subset of the codes, in their order; `very-small-kid` where the room for error of any drug is least.
 */
export function pressingCautions(facts: CareFacts): readonly (CareCaution | "very-small-kid")[] {
  return [
    ...(facts.weighed === "that-morning" ? [] : (["weigh-on-the-morning"] as const)),
    ...(facts.tetanus === "covered" ? [] : (["tetanus-cover"] as const)),
    ...(facts.weightKg !== undefined && facts.weightKg <= SMALL_KID_KG.value ? (["very-small-kid"] as const) : []),
  ];
}
