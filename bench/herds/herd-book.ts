import { present, type Random, seededRandom } from "@pollard/base";
import {
  ALPHA_S1_CASEIN,
  type AnimalId,
  animalId,
  dnaTestLikelihood,
  FERTILE_DAM,
  FERTILE_SIRE,
  grownHeadLikelihood,
  type Locus,
  type Member,
  MPS_IIID,
  type PedigreeProblem,
  POLLED,
  sexLookLikelihood,
  WATTLES,
} from "@pollard/genetics";

/** Loci that a herd of dairy goats may follow; one of them has five alleles. */
export const FOUR_LOCI: readonly Locus[] = [POLLED, WATTLES, MPS_IIID, ALPHA_S1_CASEIN];
/** Share of heads that were read, and of written sires that are not the sire. */
const READ = 0.9;
const WRONG_SIRE = 32 / 2500;

/** The same herd at another locus: alleles dropped through the pedigree, and half of the animals tested. */
export function at(locus: Locus, problem: PedigreeProblem, random: Random = seededRandom(11)): PedigreeProblem {
  if (locus === POLLED) return problem;
  const alleles = new Map<AnimalId, readonly string[]>();
  const founders = locus.founders.default.value;
  const drawn = (): string => {
    let rest = random.next();
    return present(locus.alleles.find((_, a) => (rest -= founders[a] ?? 0) < 0) ?? locus.alleles[0], "an allele");
  };
  const handed = (parent: AnimalId | undefined): string => {
    const own = parent === undefined ? undefined : alleles.get(parent);
    return own?.[random.next() < 0.5 ? 0 : 1] ?? drawn();
  };
  const members = problem.members.map((m): Member => {
    const own = [handed(m.dam), handed(m.sires[0]?.sire)];
    alleles.set(m.id, own);
    const tested = random.next() < 0.5 ? dnaTestLikelihood(locus, own) : undefined;
    return { ...m, evidence: tested?.ok ? [{ fact: `${m.id} ${locus.id}`, likelihood: tested.value }] : [] };
  });
  return { ...problem, locus, members };
}

interface Goat {
  readonly id: string;
  readonly alleles: string;
  readonly isDoe: boolean;
  readonly dam: Goat | undefined;
  readonly sire: Goat | undefined;
  /** Names the litter it was born in, if it was born here. */
  readonly litter: string | undefined;
}

/** A herd over the years: a fifth of the does and half of the bucks replaced each year, twins most often. */
export function herdBook(size: { animals: number; does: number; bucks: number }, random: Random): PedigreeProblem {
  const pick = <T>(from: readonly T[]): T => present(from[Math.floor(random.next() * from.length)], "one of several");
  const all: Goat[] = [];
  const born = (isDoe: boolean, dam?: Goat, sire?: Goat, litter?: string): Goat => {
    const allele = (parent: Goat | undefined) =>
      parent ? pick(parent.alleles.split("")) : random.next() < 0.2 ? "P" : "p";
    const id = `${isDoe ? "doe" : "buck"}${all.length}`;
    const goat = { id, isDoe, dam, sire, litter, alleles: allele(dam) + allele(sire) };
    all.push(goat);
    return goat;
  };
  const isFertile = (goat: Goat) => goat.alleles !== "PP";
  let does = Array.from({ length: size.does }, () => born(true)).filter(isFertile);
  let bucks = Array.from({ length: size.bucks }, () => born(false));
  while (all.length < size.animals) {
    const kids = does.flatMap((doe) => {
      const [size, sire] = [random.next() < 0.3 ? 1 : 2, pick(bucks)];
      const litter = `litter${all.length}`;
      return Array.from({ length: size }, () => born(random.next() < 0.5, doe, sire, litter));
    });
    const daughters = kids.filter((k) => k.isDoe && isFertile(k));
    const sons = kids.filter((k) => !k.isDoe);
    const young = daughters.slice(0, Math.ceil(size.does / 5));
    does = [...does.slice(young.length), ...young];
    bucks = [...bucks.slice(Math.ceil(size.bucks / 2)), ...sons.slice(0, Math.ceil(size.bucks / 2))];
    if (bucks.length === 0) bucks = [born(false)];
  }
  return { locus: POLLED, members: recorded(all.slice(0, size.animals), random) };
}

/** What a keeper has written down of them. */
function recorded(herd: readonly Goat[], random: Random): readonly Member[] {
  const parents = new Set(herd.flatMap((g) => [g.dam, g.sire]));
  return herd.map((goat): Member => {
    const head = goat.alleles.includes("P") ? "polled" : "horned";
    const facts = [
      ...(random.next() < READ ? [{ fact: `${goat.id} head`, likelihood: grownHeadLikelihood(head) }] : []),
      { fact: `${goat.id} look`, likelihood: sexLookLikelihood(goat.isDoe ? "doe" : "buck") },
      ...(parents.has(goat)
        ? [{ fact: `${goat.id} kidded`, likelihood: goat.isDoe ? FERTILE_DAM : FERTILE_SIRE }]
        : []),
    ];
    return {
      id: animalId(goat.id),
      dam: goat.dam && animalId(goat.dam.id),
      sires: goat.sire
        ? [
            { sire: animalId(goat.sire.id), weight: 1 - WRONG_SIRE },
            { sire: undefined, weight: WRONG_SIRE },
          ]
        : [],
      ...(goat.litter === undefined ? {} : { litter: { id: goat.litter, mixed: 0 } }),
      xx: 0.5,
      breed: undefined,
      evidence: facts,
    };
  });
}
