import { present, type Random, type Sourced } from "@pollard/base";
import {
  type AnimalId,
  type GenotypeAnswer,
  type HerdDrawer,
  herdDrawer,
  type PedigreeProblem,
  POLLED_GENOTYPES,
} from "@pollard/genetics";
import type { PairParent } from "../pairing/pair.ts";
import { drawn } from "./chance-streams.ts";

/** Genotypes of a herd, drawn as likely as they are believed: places in `POLLED_GENOTYPES`, the does, then the bucks. */
export type HerdDraw = (random: Random) => Uint8Array;

/** Whose genotypes are drawn, and from what. A buck that is not of the herd is given by what is believed of him. */
export interface HerdDrawQuestion {
  readonly problem: PedigreeProblem;
  /** What was inferred from the problem. */
  readonly answer: GenotypeAnswer;
  readonly does: readonly AnimalId[];
  readonly bucks: readonly PairParent[];
}

/** Draws in which a doe came out XY, or a buck XX, are thrown away, up to so many in a row. */
const TRIES = 50;
/** Most bucks that are drawn together where the herd is too entangled; with more, their table grows beyond use. */
const TOGETHER: Sourced<number> = { value: 5, source: "judgement", checked: "judgement" };

const COUNT = POLLED_GENOTYPES.length;

/**
 * Draws what the animals of a herd may be, all together, as they fit each other and everything known.
 *
 * Where a family is too entangled for that, the bucks are drawn from their joint belief and each doe given all of them: a
 * doe's kids by any of them are then as likely as the joint belief of the two says, and only the doubt that two does
 * share and no buck does is left out.
 *
 * Assumes: does are XX, bucks XY; a buck from elsewhere is independent of the herd; no buck stands twice.
 */
export function herdDraw(question: HerdDrawQuestion): HerdDraw {
  const { problem, answer, does, bucks } = question;
  const whole = herdDrawer(problem, answer);
  const own = whole === undefined ? blockDraw(answer, does, bucks.filter(isOwn)) : wholeDraw(whole, question);
  const placeOf = new Map(bucks.map((buck, b) => [buck, does.length + b]));
  const ownPlaces = [...does.keys(), ...bucks.flatMap((buck, b) => (isOwn(buck) ? [does.length + b] : []))];
  const strangers = bucks.flatMap((buck) =>
    isOwn(buck)
      ? []
      : [{ place: present(placeOf.get(buck), "a place"), chances: POLLED_GENOTYPES.map((g) => buck[g]) }],
  );
  return (random) => {
    const genotypes = new Uint8Array(does.length + bucks.length);
    own(random).forEach((genotype, k) => {
      genotypes[present(ownPlaces[k], "a place")] = genotype;
    });
    for (const { place, chances } of strangers) genotypes[place] = drawn(random, chances);
    return genotypes;
  };
}

const isOwn = (buck: PairParent): buck is AnimalId => typeof buck === "string";

/** The herd's own animals out of whole draws of the herd. */
function wholeDraw(draw: HerdDrawer, { does, bucks }: HerdDrawQuestion): HerdDraw {
  const wanted = [...does.map((id) => ({ id, sex: "XX" })), ...bucks.filter(isOwn).map((id) => ({ id, sex: "XY" }))];
  return (random) => {
    let herd = draw(random);
    for (let tries = 1; tries < TRIES && wanted.some(({ id, sex }) => herd.get(id)?.sex !== sex); tries++)
      herd = draw(random);
    return Uint8Array.from(wanted, ({ id }) => present(herd.get(id), "an animal of the herd").genotype);
  };
}

/** Bucks together (from the sixth on one by one), then each doe given the bucks. */
export function blockDraw(answer: GenotypeAnswer, does: readonly AnimalId[], bucks: readonly AnimalId[]): HerdDraw {
  const together = bucks.slice(0, TOGETHER.value);
  const alone = bucks.slice(TOGETHER.value).map((id) => scaled(answer.belief(id).bySex.XY));
  const ofBucks = withSex(answer, together, "XY", together.length === 0 ? [1] : answer.joint(together).chances);
  const ofDoes = does.map((doe) => {
    const joint = withSex(answer, [doe], "XX", answer.joint([...together, doe]).chances);
    return Array.from({ length: ofBucks.length }, (_, row) => scaled(joint.slice(row * COUNT, (row + 1) * COUNT)));
  });
  const rows = scaled(ofBucks);
  return (random) => {
    const genotypes = new Uint8Array(does.length + bucks.length);
    const row = drawn(random, rows);
    let rest = row;
    for (let b = together.length - 1; b >= 0; b--) {
      genotypes[does.length + b] = rest % COUNT;
      rest = Math.floor(rest / COUNT);
    }
    alone.forEach((chances, b) => {
      genotypes[does.length + together.length + b] = drawn(random, chances);
    });
    ofDoes.forEach((byRow, d) => {
      genotypes[d] = drawn(random, present(byRow[row], "a row"));
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
