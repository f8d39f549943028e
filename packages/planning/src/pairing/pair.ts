import { present, type Probability, probability } from "@pollard/base";
import {
  type AnimalId,
  FERTILE_DAM,
  type GenotypeAnswer,
  INTERSEX_LOOKS,
  kidOfIndependent,
  POLLED,
  POLLED_GENOTYPES,
  type PolledBelief,
  type PolledGenotype,
  PP_BUCK_FERTILITY,
} from "@pollard/genetics";

/** One way the two parents may be, and what their kids would then be. */
export interface Mating {
  readonly sire: PolledGenotype;
  readonly dam: PolledGenotype;
  readonly chance: Probability;
  readonly kids: KidShares;
}

/** What kids of a pair are, as chances of each kid. */
export interface KidShares {
  readonly horned: Probability;
  readonly Pp: Probability;
  readonly PP: Probability;
  /** Sex-reversed (PP with XX chromosomes, sterile, though half of them are not seen to be), or intersex for another reason. */
  readonly intersex: Probability;
  /** Unable to breed: the intersex, and the PP bucks that are not fertile. */
  readonly infertile: Probability;
}

/**
 * What a buck and a doe would have for kids.
 *
 * Shape: `matings` only those that are possible, the likeliest first; chances sum to 1. `kids` is their mean.
 */
export interface PairOutlook {
  readonly kids: KidShares;
  /** Doubt: what the parents may be. Within each of them the rest is luck. */
  readonly matings: readonly Mating[];
  /** Chance that both parents can breed at all, as far as the polled gene decides it. */
  readonly fertile: Probability;
  readonly bothPolled: Probability;
}

/** One parent: an animal of the herd, or one from elsewhere of which a belief is all there is. */
export type PairParent = AnimalId | PolledBelief;

/** Share of kids with XX chromosomes. */
const XX_SHARE = 0.5;

const isBelief = (parent: PairParent): parent is PolledBelief => typeof parent !== "string";
const certain = (genotype: PolledGenotype): readonly number[] => POLLED_GENOTYPES.map((g) => (g === genotype ? 1 : 0));

/**
 * What is to be expected of a pair, from the joint belief about both.
 *
 * The parents may share ancestors or kids, so their joint belief is asked for; a parent from elsewhere is independent of the
 * herd. Kids are only had by parents that can have them, which is taken into account: a doe that may be PP gives none.
 *
 * Units:   `ppSireFertile` is the chance that the buck can breed if he is PP: about half, or 1 once he has sired.
 * Assumes: does are XX and bucks XY; kids of both sexes are as likely.
 * Source:  [mendel1866]; [hancock-louca1975] for intersex kids outside PP; [krausslich-brem1997]; rule PA-1.
 */
export function pairOutlook(
  answer: GenotypeAnswer,
  sire: PairParent,
  dam: PairParent,
  ppSireFertile: number = PP_BUCK_FERTILITY.value,
): PairOutlook {
  const weights = jointOf(answer, sire, dam);
  const fertileDam = FERTILE_DAM.XX;
  const able = (s: number, d: number): number => (s === 0 ? ppSireFertile : 1) * (fertileDam[d] ?? 0);
  const all = weights.flat().reduce((a, b) => a + b, 0);
  let fertile = 0;
  let bothPolled = 0;
  const raw = POLLED_GENOTYPES.flatMap((s, i) =>
    POLLED_GENOTYPES.map((d, j) => {
      const weight = (weights[i]?.[j] ?? 0) * able(i, j);
      fertile += weight;
      if (s !== "pp" && d !== "pp") bothPolled += weight;
      return { sire: s, dam: d, weight };
    }),
  );
  const matings = raw
    .filter(({ weight }) => weight > 0)
    .map(({ sire: s, dam: d, weight }) => ({
      sire: s,
      dam: d,
      chance: probability(weight / fertile),
      kids: kidsOf(s, d),
    }))
    .sort((a, b) => b.chance - a.chance);
  const mean = (of: (kids: KidShares) => number): Probability =>
    probability(matings.reduce((sum, m) => sum + m.chance * of(m.kids), 0));
  return {
    kids: {
      horned: mean((k) => k.horned),
      Pp: mean((k) => k.Pp),
      PP: mean((k) => k.PP),
      intersex: mean((k) => k.intersex),
      infertile: mean((k) => k.infertile),
    },
    matings,
    fertile: probability(all === 0 ? 0 : fertile / all),
    bothPolled: probability(fertile === 0 ? 0 : bothPolled / fertile),
  };
}

/** Weights of every pair of genotypes, sire by dam, the sire taken as XY and the dam as XX. */
function jointOf(answer: GenotypeAnswer, sire: PairParent, dam: PairParent): readonly (readonly number[])[] {
  const own = (parent: PairParent, sex: "XX" | "XY"): readonly number[] =>
    isBelief(parent) ? POLLED_GENOTYPES.map((g) => parent[g]) : answer.belief(parent).bySex[sex];
  const [s, d] = [own(sire, "XY"), own(dam, "XX")];
  if (isBelief(sire) || isBelief(dam)) return s.map((x) => d.map((y) => x * y));
  const { chances } = answer.joint([sire, dam]);
  const [wholeSire, wholeDam] = [answer.belief(sire).genotypes, answer.belief(dam).genotypes];
  const share = (part: readonly number[], whole: readonly number[], g: number): number =>
    (whole[g] ?? 0) === 0 ? 0 : (part[g] ?? 0) / (whole[g] ?? 1);
  return POLLED_GENOTYPES.map((_, i) =>
    POLLED_GENOTYPES.map((_, j) => (chances[3 * i + j] ?? 0) * share(s, wholeSire, i) * share(d, wholeDam, j)),
  );
}

/** What the kids of two known genotypes are. */
export const kidsOf = (sire: PolledGenotype, dam: PolledGenotype): KidShares =>
  present(KIDS_OF[sire]?.[dam], "a mating");

function sharesOf(sire: PolledGenotype, dam: PolledGenotype): KidShares {
  const [PP, Pp, pp] = kidOfIndependent(POLLED, certain(sire), certain(dam)).map(probability);
  const both = present(PP, "PP");
  const reversed = both * XX_SHARE;
  const intersex = reversed + (1 - reversed) * INTERSEX_LOOKS.otherIntersex.value;
  const barrenBuck = both * (1 - XX_SHARE) * (1 - PP_BUCK_FERTILITY.value) * (1 - INTERSEX_LOOKS.otherIntersex.value);
  return {
    horned: present(pp, "pp"),
    Pp: present(Pp, "Pp"),
    PP: both,
    intersex: probability(intersex),
    infertile: probability(intersex + barrenBuck),
  };
}

const byGenotype = <T>(of: (g: PolledGenotype) => T) =>
  Object.fromEntries(POLLED_GENOTYPES.map((g) => [g, of(g)])) as Readonly<Record<PolledGenotype, T>>;
/** All nine matings, by sire, then dam. */
const KIDS_OF = byGenotype((sire) => byGenotype((dam) => sharesOf(sire, dam)));

/** How many of a number of kids are so, and how much of the spread is luck and how much doubt about the parents. */
export interface KidCounts {
  /** Chance of each count from none to all. */
  readonly chances: readonly Probability[];
  readonly mean: number;
  /** Standard deviations, in kids: what would be left if the parents were known, and what knowing them would take away. */
  readonly luck: number;
  readonly doubt: number;
}

/**
 * How many of so many kids of one pair would be horned (or whatever is asked for).
 *
 * Given the parents each kid is a fresh draw; the parents being what they are for all kids alike, doubt about them spreads
 * the count further. The two variances add up to that of the count.
 *
 * Source: law of total variance; rule PA-2.
 */
export function kidCounts(
  matings: readonly Mating[],
  kids: number,
  of: (shares: KidShares) => number = (shares) => shares.horned,
): KidCounts {
  const chances = Array.from({ length: kids + 1 }, () => 0);
  let mean = 0;
  let [luck, square] = [0, 0];
  for (const { chance, kids: shares } of matings) {
    const p = of(shares);
    binomial(kids, p).forEach((x, k) => {
      chances[k] = (chances[k] ?? 0) + chance * x;
    });
    mean += chance * kids * p;
    luck += chance * kids * p * (1 - p);
    square += chance * (kids * p) ** 2;
  }
  return {
    chances: chances.map(probability),
    mean,
    luck: Math.sqrt(luck),
    doubt: Math.sqrt(Math.max(0, square - mean ** 2)),
  };
}

/** Chance of each number of successes in `n` draws of chance `p`, from none to all. */
function binomial(n: number, p: number): readonly number[] {
  let chances = [1];
  for (let i = 0; i < n; i++)
    chances = [...chances, 0].map((x, k) => x * (1 - p) + (k > 0 ? (chances[k - 1] ?? 0) * p : 0));
  return chances;
}
