import type { Sourced } from "@pollard/base";
import type { Evidence } from "../pedigree/pedigree-problem.ts";
import { POLLED_GENOTYPES, type PolledGenotype } from "../vocabulary.ts";

type Likelihood = Evidence["likelihood"];

const byGenotype = (of: Readonly<Record<PolledGenotype, number>>): readonly number[] =>
  POLLED_GENOTYPES.map((g) => of[g]);
const sameInBoth = (of: Readonly<Record<PolledGenotype, number>>): Likelihood => {
  const row = byGenotype(of);
  return { XX: row, XY: row };
};

/** Says nothing of the genotype. */
export const NO_POLLED_EVIDENCE: Likelihood = sameInBoth({ PP: 1, Pp: 1, pp: 1 });

/**
 * How often the head of a grown animal is written down wrongly. Our judgement, from the herd book in which 32 of 2,500
 * kids of two horned parents stood as hornless: four things can be wrong there (two heads, the kid's head, a parent).
 */
export const GROWN_HEAD_ERROR: Sourced<number> = { value: 0.003, source: "asdell-crew1925", checked: "judgement" };

/**
 * What is learnt from a head that tells horned from polled but not PP from Pp.
 *
 * Units: `horned` and `polled` are P(what was seen | horned), P(what was seen | polled).
 */
export const headLikelihood = (seen: { readonly horned: number; readonly polled: number }): Likelihood =>
  sameInBoth({ PP: seen.polled, Pp: seen.polled, pp: seen.horned });

/**
 * What is learnt from the grown, never disbudded head of an animal: polled is dominant with full penetrance in both sexes.
 *
 * Source: [ricordeau1967], [pailhoux2005]; rule GE-10.
 */
export const grownHeadLikelihood = (head: "polled" | "horned"): Likelihood =>
  head === "horned"
    ? headLikelihood({ horned: 1 - GROWN_HEAD_ERROR.value, polled: GROWN_HEAD_ERROR.value })
    : headLikelihood({ horned: GROWN_HEAD_ERROR.value, polled: 1 - GROWN_HEAD_ERROR.value });

/** What a kid or grown animal is taken for by eye. */
export type SexLook = "doe" | "buck" | "wether" | "intersex" | "unsure";

/**
 * What polled intersexes look like at birth.
 *
 * `recognised`: of sex-reversed kids (XX PP) about half are seen to be intersex: 6.2 % against the 12.5 % expected
 * (range 0.4 to 0.7). `doeLike`: of the others, 7 in 13 pass for does, 6 for bucks. `otherIntersex`: intersex for another
 * reason, as in 0.3 % of kids that had one horned parent. `slip`: a doe written down as a buck or the reverse.
 */
export const INTERSEX_LOOKS = {
  recognised: { value: 0.5, source: "hancock-louca1975", checked: "read-in-source" },
  doeLike: { value: 7 / 13, source: "vaiman1997", checked: "read-in-source" },
  otherIntersex: { value: 0.003, source: "hancock-louca1975", checked: "read-in-source" },
  slip: { value: 0.002, source: "judgement", checked: "judgement" },
} as const satisfies Readonly<Record<string, Sourced<number>>>;

/**
 * What an animal's looks at birth say of its chromosomes and its genotype. "Looks like a doe" does not clear a polled kid
 * of two polled parents: half of the sex-reversed kids pass for does or bucks.
 *
 * Shape:  "unsure" says nothing; a wether was a buck.
 * Source: [hancock-louca1975], [vaiman1997]; rule GE-11.
 */
export function sexLookLikelihood(look: SexLook): Likelihood {
  if (look === "unsure") return NO_POLLED_EVIDENCE;
  const { recognised, doeLike, otherIntersex, slip } = INTERSEX_LOOKS;
  const missed = 1 - recognised.value;
  const plain = 1 - otherIntersex.value - slip.value;
  const reversed = { intersex: recognised.value, doe: missed * doeLike.value, buck: missed * (1 - doeLike.value) };
  const female = { intersex: otherIntersex.value, doe: plain, buck: slip.value };
  const male = { intersex: otherIntersex.value, doe: slip.value, buck: plain };
  const seen = look === "wether" ? "buck" : look;
  return {
    XX: byGenotype({ PP: reversed[seen], Pp: female[seen], pp: female[seen] }),
    XY: byGenotype({ PP: male[seen], Pp: male[seen], pp: male[seen] }),
  };
}

/**
 * She has kidded: sex-reversed goats never do, so a polled doe that has kidded is Pp.
 *
 * Source: [lauvergne1969], [vaiman1997]: XX PP are all sterile; rule GE-12.
 */
export const FERTILE_DAM: Likelihood = {
  XX: byGenotype({ PP: 0, Pp: 1, pp: 1 }),
  XY: byGenotype({ PP: 0, Pp: 0, pp: 0 }),
};

/** How often a vet who looks at a sex-reversed goat for it takes it for a doe. Nobody has measured it: our judgement. */
const VET_MISSES: Sourced<number> = { value: 0.05, source: "judgement", checked: "judgement" };

/** A vet looked at her for intersex, and found a doe: all but the few that a vet would miss are XX and no PP. */
export const VET_FOUND_DOE: Likelihood = {
  XX: byGenotype({ PP: VET_MISSES.value, Pp: 1, pp: 1 }),
  XY: byGenotype({ PP: VET_MISSES.value, Pp: VET_MISSES.value, pp: VET_MISSES.value }),
};

/** The share of PP bucks that are fertile: about half, and wide; the printed sources do not agree. */
export const PP_BUCK_FERTILITY: Sourced<number> = {
  value: 0.5,
  source: "krausslich-brem1997",
  checked: "read-in-source",
};

/** He has sired a kid for certain: half of the PP bucks could not have. */
export const FERTILE_SIRE: Likelihood = {
  XX: byGenotype({ PP: 0, Pp: 0, pp: 0 }),
  XY: byGenotype({ PP: PP_BUCK_FERTILITY.value, Pp: 1, pp: 1 }),
};

/** Bony knobs of a polled head as seen from three months on. */
export interface KnobsSeen {
  readonly shape: "rounded-apart" | "beans-in-v" | "unsure";
  readonly scurs: "seen" | "none" | "unsure";
  readonly ageDays: number;
  /** After disbudding neither a scur nor a smooth head says anything of the genotype. */
  readonly head: "natural" | "disbudded";
}

/** Age in days from which knobs and scurs tell PP from Pp: three months; better at five or six. */
const KNOBS_TELL_FROM: Sourced<number> = { value: 90, source: "ricordeau1972", checked: "read-in-source" };

/** None of the PP (25, the rest of the 78 examined) misjudged: half a case is added, since none seen is not never. */
const NONE_OF_25 = 0.5 / 26;
/** P(seen | PP) and P(seen | Pp). Of the Pp a tenth were doubtful: half of those are taken as looking like PP (judgement). */
const KNOBS = {
  "beans-in-v": { PP: NONE_OF_25, Pp: 0.9 },
  "rounded-apart": { PP: 1 - NONE_OF_25, Pp: 0.05 },
  scurs: { PP: NONE_OF_25, Pp: 30 / 53 },
  "no-scurs": { PP: 1 - NONE_OF_25, Pp: 1 - 30 / 53 },
} as const;

/**
 * What knobs and scurs of a grown polled head say of PP against Pp; of horned against polled they say nothing here, since
 * what grew is counted elsewhere: `pp` stands level with `Pp`.
 *
 * Shape and scurs belong to the same bone and were judged together in the study, so they are not multiplied: scurs count
 * where they were seen, else the shape, else their absence.
 *
 * Assumes: goats of Alpine origin; not tried in dwarf breeds, and not repeated by others.
 * Source:  [ricordeau1972]: 30 of 53 Pp had scurs; none of the PP misjudged, a tenth of the Pp doubtful; rule GE-13.
 */
export function knobsLikelihood({ shape, scurs, ageDays, head }: KnobsSeen): Likelihood {
  if (head === "disbudded" || ageDays < KNOBS_TELL_FROM.value) return NO_POLLED_EVIDENCE;
  const sign = scurs === "seen" ? "scurs" : shape !== "unsure" ? shape : scurs === "none" ? "no-scurs" : undefined;
  if (sign === undefined) return NO_POLLED_EVIDENCE;
  const { PP, Pp } = KNOBS[sign];
  return sameInBoth({ PP: PP / Pp, Pp: 1, pp: 1 });
}
