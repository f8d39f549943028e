import { present } from "@pollard/base";
import { type AnimalId, animalId, type GenotypeAnswer, type PolledBelief, PP_BUCK_FERTILITY } from "@pollard/genetics";
import { litterSizes } from "@pollard/husbandry";
import { pairOutlook, type PairOutlook, type PlanQuestion } from "@pollard/planning";
import { hasKidded } from "@pollard/records";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { Situation } from "../situation.ts";
import { type BreedingStock, breedingStock, hasSired } from "./breeding-stock.ts";
import { comingHeadLoss } from "./coming-heads.ts";
import { type FollowedLocus, followedLoci } from "./followed-loci.ts";
import { type HerdKinship, herdKinship } from "./herd-kinship.ts";
import type { PairingBuck, PairLosses } from "./pairing-models.ts";
import { type PairingRules, pairingRulesOf } from "./pairing-rules.ts";

/** A buck that is not bought yet: what he is called, and what is known of him. He is taken as unrelated. */
export interface CandidateBuck {
  readonly name: string;
  readonly belief: PolledBelief;
}

/** Everything that the pairs of a herd are weighed with. Worked out once; a table can be filled from any answer. */
export interface PairingGround {
  readonly situation: Situation;
  readonly stock: BreedingStock;
  /** The herd's bucks, and the candidate last. */
  readonly bucks: readonly PairingBuck[];
  readonly rules: PairingRules;
  readonly kinship: HerdKinship;
  /** Chance of each number of kids of each doe, from none. */
  readonly litters: readonly (readonly number[])[];
  readonly headLoss: (horns: number) => number;
  /** Loci beside horns. */
  readonly loci: readonly FollowedLocus[];
}

/** Every doe with every buck, by doe, then by buck; and the plan's question made of them. */
export interface PairingTable {
  readonly outlooks: readonly (readonly PairOutlook[])[];
  readonly losses: readonly (readonly PairLosses[])[];
  readonly question: PlanQuestion;
}

/** What the pairs of a herd are weighed with, under the keeper's rules; with a buck more, if one is thought of. */
export function pairingGround(
  situation: Situation,
  rules: PairingRules = pairingRulesOf(situation.herd),
  candidate?: CandidateBuck,
): PairingGround {
  const stock = breedingStock(situation);
  const kiddings = situation.herd.kiddings.filter((k) => k.kids.length > 0);
  const own = { kiddings: kiddings.length, kids: kiddings.reduce((sum, k) => sum + k.kids.length, 0) };
  return {
    situation,
    stock,
    bucks: [
      ...stock.bucks.map(({ id }) => ({
        id,
        ref: animalRef(situation.herd, id),
        parent: id,
        ppFertile: hasSired(situation, id) ? 1 : PP_BUCK_FERTILITY.value,
      })),
      ...(candidate === undefined ? [] : [candidateBuck(candidate)]),
    ],
    rules,
    kinship: herdKinship(situation),
    litters: stock.does.map((doe) => {
      const kiddedBefore = hasKidded({ kiddings }, doe) ? "yes" : "no";
      return [0, ...litterSizes({ kiddedBefore, own })];
    }),
    headLoss: comingHeadLoss(situation),
    loci: followedLoci(situation),
  };
}

function candidateBuck({ name, belief }: CandidateBuck): PairingBuck {
  const id = animalId(`candidate ${name}`);
  const ref: AnimalRef = { id, name, tag: undefined, mark: undefined, sex: "buck", damName: undefined };
  return { id, ref, parent: belief, ppFertile: PP_BUCK_FERTILITY.value };
}

/** How kin a doe and a buck are; a buck from elsewhere is kin to nobody. */
export const kinshipOf = ({ kinship }: PairingGround, doe: AnimalId, buck: PairingBuck): number =>
  typeof buck.parent === "string" ? kinship.kin.kinship(buck.id, doe) : 0;

/** The table of pairs as far as this answer knows the animals. */
export function pairingTable(ground: PairingGround, answer: GenotypeAnswer): PairingTable {
  const { stock, bucks, rules, litters } = ground;
  const outlooks = stock.does.map((doe) => bucks.map((b) => pairOutlook(answer, b.parent, doe.id, b.ppFertile)));
  const inbreeding = (d: number, b: number): number =>
    kinshipOf(ground, present(stock.does[d], "a doe").id, present(bucks[b], "a buck"));
  const losses = outlooks.map((row, d) =>
    row.map((outlook, b) =>
      lossesOfPair(ground, outlook, {
        kids: meanOf(present(litters[d], "a litter")),
        inbreeding: inbreeding(d, b),
        parents: [present(stock.does[d], "a doe").id, present(bucks[b], "a buck").id],
      }),
    ),
  );
  const ids = [...stock.does, ...bucks].map((a) => a.id);
  return {
    outlooks,
    losses,
    question: {
      does: stock.does.map((d) => d.id),
      bucks: bucks.map(({ id }) => {
        const said = rules.bucks.get(id);
        return { id, least: said?.least ?? 0, most: said?.most ?? rules.mostDoes, cost: said?.cost ?? 0 };
      }),
      pairs: outlooks.map((row, d) =>
        row.map((outlook, b) => ({
          loss: present(losses[d]?.[b], "a pair's loss").total,
          inbreeding: inbreeding(d, b),
          intersex: outlook.kids.intersex,
          bothPolled: outlook.bothPolled,
        })),
      ),
      ...(rules.openDoe === undefined ? {} : { openDoe: rules.openDoe }),
      inbreedingCeiling: rules.inbreedingCeiling,
      intersexCeiling: rules.intersexCeiling,
      polledTogether: rules.polledTogether,
      must: rules.must.filter(({ doe, buck }) => ids.includes(doe) && ids.includes(buck)),
      never: rules.never.filter(({ doe, buck }) => ids.includes(doe) && ids.includes(buck)),
      ...(rules.cropKinship === 0
        ? {}
        : {
            crop: {
              weight: rules.cropKinship,
              kinship: kinshipTable(ground),
            },
          }),
    },
  };
}

/** Kinship over the does, then the bucks, themselves included. */
function kinshipTable({ stock, bucks, kinship }: PairingGround): readonly (readonly number[])[] {
  const known = [
    ...stock.does.map((d) => d.id),
    ...bucks.map((b) => (typeof b.parent === "string" ? b.id : undefined)),
  ];
  return known.map((a, i) =>
    known.map((b, j) => (a === undefined || b === undefined ? (i === j ? 0.5 : 0) : kinship.kin.kinship(a, b))),
  );
}

/** Kids to be expected of a litter. */
export const meanOf = (litter: readonly number[]): number => litter.reduce((sum, chance, k) => sum + chance * k, 0);

/** What one pair is expected to cost, part by part. */
function lossesOfPair(
  { rules, headLoss }: Pick<PairingGround, "rules" | "headLoss">,
  { kids: shares, fertile }: PairOutlook,
  of: { readonly kids: number; readonly inbreeding: number; readonly parents: readonly AnimalId[] },
): PairLosses {
  const kids = of.kids * fertile;
  const points = of.parents.reduce((sum, id) => sum + (rules.merits.get(id) ?? 0), 0) / 2;
  const parts = {
    horned: kids * shares.horned * rules.hornedKid,
    heads: kids * headLoss(shares.horned),
    intersex: kids * shares.infertile * rules.intersexKid,
    inbreeding: kids * of.inbreeding * rules.inbredKid,
    barren: (1 - fertile) * rules.barrenDoe,
    merit: -kids * points * rules.merit,
  };
  return { ...parts, total: Object.values(parts).reduce((a, b) => a + b, 0) };
}
