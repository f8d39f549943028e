import { present, type Random, type Sourced } from "@pollard/base";
import { type AnimalId, type GenotypeAnswer, POLLED_GENOTYPES } from "@pollard/genetics";
import type { PairParent } from "../pairing/pair.ts";
import { drawn } from "./chance-streams.ts";

/** Genotypes of a herd, drawn as likely as they are believed: places in `POLLED_GENOTYPES`, the does, then the bucks. */
export type HerdDraw = (random: Random) => Uint8Array;

/** Most bucks that are drawn together; with more, the table of their genotypes grows beyond use. */
const TOGETHER: Sourced<number> = { value: 5, source: "judgement", checked: "judgement" };

const COUNT = POLLED_GENOTYPES.length;

/**
 * Draws what the animals of a herd may be, together.
 *
 * The bucks are drawn from their joint belief, each doe given all of them. So a doe's kids by any of them are exactly as
 * likely as the joint belief of the two says; that two does may share a doubt which no buck shares is left out, which
 * narrows the spread of a herd's total a little and moves no mean.
 *
 * Assumes: does are XX, bucks XY. From the sixth buck on, bucks are drawn one by one, as is one from elsewhere, given by
 *          what is believed of him; no buck stands twice.
 * Cost:    one joint question per doe.
 */
export function herdDraw(answer: GenotypeAnswer, does: readonly AnimalId[], bucks: readonly PairParent[]): HerdDraw {
  const own = bucks.filter((buck) => typeof buck === "string");
  const together = own.slice(0, TOGETHER.value);
  const placeOf = (buck: PairParent): number => does.length + bucks.indexOf(buck);
  const alone = bucks
    .filter((buck) => typeof buck !== "string" || !together.includes(buck))
    .map((buck) => ({
      place: placeOf(buck),
      chances: scaled(typeof buck === "string" ? answer.belief(buck).bySex.XY : POLLED_GENOTYPES.map((g) => buck[g])),
    }));
  const ofBucks = withSex(answer, together, "XY", together.length === 0 ? [1] : answer.joint(together).chances);
  const ofDoes = does.map((doe) => {
    const joint = withSex(answer, [doe], "XX", answer.joint([...together, doe]).chances);
    return Array.from({ length: ofBucks.length }, (_, row) => scaled(joint.slice(row * COUNT, (row + 1) * COUNT)));
  });
  const bucksScaled = scaled(ofBucks);
  return (random) => {
    const genotypes = new Uint8Array(does.length + bucks.length);
    const row = drawn(random, bucksScaled);
    let rest = row;
    for (let b = together.length - 1; b >= 0; b--) {
      genotypes[placeOf(present(together[b], "a buck"))] = rest % COUNT;
      rest = Math.floor(rest / COUNT);
    }
    for (const { place, chances } of alone) genotypes[place] = drawn(random, chances);
    ofDoes.forEach((rows, d) => {
      genotypes[d] = drawn(random, present(rows[row], "a row"));
    });
    return genotypes;
  };
}

/** Joint chances with each of the last animals taken as of this sex; the others are left as they stand. */
function withSex(
  answer: GenotypeAnswer,
  ids: readonly AnimalId[],
  sex: "XX" | "XY",
  chances: readonly number[],
): readonly number[] {
  const shares = ids.map((id) => {
    const { genotypes, bySex } = answer.belief(id);
    return genotypes.map((whole, g) => (whole === 0 ? 0 : (bySex[sex][g] ?? 0) / whole));
  });
  return chances.map((chance, cell) => {
    let weight = chance;
    let rest = cell;
    for (const share of shares.toReversed()) {
      weight *= share[rest % COUNT] ?? 0;
      rest = Math.floor(rest / COUNT);
    }
    return weight;
  });
}

function scaled(weights: readonly number[]): readonly number[] {
  const total = weights.reduce((a, b) => a + b, 0);
  return total === 0 ? weights.map((_, i) => (i === weights.length - 1 ? 1 : 0)) : weights.map((w) => w / total);
}
