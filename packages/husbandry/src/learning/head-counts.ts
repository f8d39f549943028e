import { present, type Random } from "@pollard/base";
import { budCourses } from "../heads/bud-courses.ts";
import { type HeadCounts, headLayout } from "./head-layout.ts";
import { breedDelay, type HeadKid } from "../heads/head-network.ts";
import { type HeadChances, type HeadTables, HORNED_STAGES, POLLED_STAGES } from "../heads/head-tables.ts";
import { BUCK_SHARE } from "../kid-sex.ts";
import {
  chanceOf,
  type Hidden,
  hiddenPlaces,
  type Kind,
  type LearningKid,
  type Piece,
  prepare,
  type PreparedKid,
  weigh,
} from "./prepared-kid.ts";

/** Counts the same kids again and again, as beliefs about the tables change. */
export interface HeadCounter {
  /**
   * The counts expected if heads follow these chances: every hidden truth counts as far as it is believed.
   *
   * `log` is the natural log of the chance of all readings, given what is known of the kids from elsewhere.
   */
  expect(chances: HeadChances): HeadCounts & { readonly log: number };
  /** The counts of one whole head drawn for each kid, as likely as it is believed. */
  draw(chances: HeadChances, random: Random): HeadCounts;
}

/** What one kid is taken to be: weights that sum to those of its genotypes, expected or drawn. */
interface Taken {
  readonly patterns: readonly number[];
  readonly stages: readonly [PP: readonly number[], Pp: readonly number[]];
  readonly whorl: readonly [horned: readonly number[], polled: readonly number[]];
  readonly crown: readonly [horned: readonly number[], polled: readonly number[]];
}

/**
 * A counter of these kids. `apart` are the readers counted by rows of their own.
 *
 * This is the expectation step of learning, and its sampling twin. Everything that does not depend on the chances is laid
 * out once: of the hundred ways in which a bud may come, those that look alike on the days a kid was touched are one.
 */
export function headCounter(
  kids: readonly LearningKid[],
  { breedDelayDays }: Pick<HeadTables, "breedDelayDays">,
  apart: Iterable<string> = [],
): HeadCounter {
  const layout = headLayout(apart);
  const hidden = hiddenPlaces(layout);
  const kinds = new Map<string, Kind>();
  const kindOf = (kid: HeadKid): Kind => {
    const delay = breedDelay(kid, { breedDelayDays });
    const name = `${kid.sex} ${delay}`;
    const buds = kinds.get(name)?.buds ?? budCourses(kid.sex, delay);
    const kind = kinds.get(name) ?? {
      buds,
      buckShare: BUCK_SHARE[kid.sex],
      weights: new Float64Array(buds.courses.length),
    };
    kinds.set(name, kind);
    return kind;
  };
  const prepared = kids.map((k) => prepare(k, kindOf(k.kid), layout));
  const count = (chances: HeadChances, random: Random | undefined) => {
    const list = layout.flat(chances);
    for (const kind of kinds.values()) weigh(kind, list, hidden);
    const into = new Float64Array(layout.size);
    let log = 0;
    for (const kid of prepared) log += countKid(kid, list, into, hidden, random);
    return { ...layout.counts(into), log };
  };
  return { expect: (chances) => count(chances, undefined), draw: (chances, random) => count(chances, random) };
}

/** Counts one kid, expected or drawn. @returns the log chance of its readings. */
function countKid(
  kid: PreparedKid,
  list: Float64Array,
  into: Float64Array,
  hidden: Hidden,
  random: Random | undefined,
): number {
  const under = underSkin(kid, list, hidden);
  const whorl = hair(kid.whorls, hidden.whorl, list);
  const crown = hair(kid.crowns, hidden.crown, list);
  const polledHair = sum(whorl.polled) * sum(crown.polled);
  const PP = kid.known.PP * sum(under.PP) * polledHair;
  const Pp = kid.known.Pp * sum(under.Pp) * polledHair;
  const horned = kid.known.pp * sum(under.patterns) * sum(whorl.horned) * sum(crown.horned);
  const total = PP + Pp + horned;
  const take = random === undefined ? scaledTo : (amount: number, w: readonly number[]) => oneOf(amount, w, random);
  const [isPP = 0, isPp = 0, isHorned = 0] = take(1, [PP / total, Pp / total, horned / total]);
  const taken: Taken = {
    patterns: take(isHorned, under.patterns),
    stages: [take(isPP, under.PP), take(isPp, under.Pp)],
    whorl: [take(isHorned, whorl.horned), take(isPP + isPp, whorl.polled)],
    crown: [take(isHorned, crown.horned), take(isPP + isPp, crown.polled)],
  };
  addHidden(kid, under.priors, taken, into, list, hidden, random);
  addSeen(kid, taken, into, list, random);
  return Math.log(total) + under.log + whorl.log + crown.log;
}

/** Weights of patterns and polled stages, near 1; the common factor is in `log`. `priors` are the patterns' before any touch. */
function underSkin(kid: PreparedKid, list: Float64Array, hidden: Hidden) {
  const { kind, patternOf, stages, touched } = kid;
  const priors = Array.from({ length: kid.patterns }, () => 0);
  for (let c = 0; c < patternOf.length; c++) {
    const q = patternOf[c] ?? 0;
    priors[q] = (priors[q] ?? 0) + (kind.weights[c] ?? 0);
  }
  const patterns = [...priors];
  const polled = (g: "PP" | "Pp") =>
    POLLED_STAGES.map((_, s) => {
      const { buck, doe } = hidden.stage[g];
      return kind.buckShare * (list[buck + s] ?? 0) + (1 - kind.buckShare) * (list[doe + s] ?? 0);
    });
  const [PP, Pp] = [polled("PP"), polled("Pp")];
  let log = 0;
  for (let t = 0; t < touched.length; t++) {
    const piece = present(touched[t], "touch");
    const chances = HORNED_STAGES.map((_, s) => chanceOf(piece, s, list));
    for (let q = 0; q < patterns.length; q++)
      patterns[q] = (patterns[q] ?? 0) * (chances[stages[q * touched.length + t] ?? 0] ?? 0);
    for (let s = 0; s < PP.length; s++) {
      const chance = chanceOf(piece, HORNED_STAGES.length + s, list);
      PP[s] = (PP[s] ?? 0) * chance;
      Pp[s] = (Pp[s] ?? 0) * chance;
    }
    log += rescale(patterns, PP, Pp);
  }
  return { patterns, priors, PP, Pp, log };
}

/** Weights of a hair truth for horned and polled heads, near 1; the common factor is in `log`. */
function hair(pieces: readonly Piece[], row: Hidden["whorl"], list: Float64Array) {
  const before = (head: "horned" | "polled") => [0, 1].map((t) => list[row[head] + t] ?? 0);
  const [horned, polled] = [before("horned"), before("polled")];
  let log = 0;
  for (const piece of pieces) {
    for (let t = 0; t < 2; t++) {
      const chance = chanceOf(piece, t, list);
      horned[t] = (horned[t] ?? 0) * chance;
      polled[t] = (polled[t] ?? 0) * chance;
    }
    log += rescale(horned, polled);
  }
  return { horned, polled, log };
}

/** Brings the largest of the lists' sums to 1, alike for all of them; the natural log of what was divided out. */
function rescale(...lists: number[][]): number {
  const top = Math.max(...lists.map(sum));
  for (const xs of lists) for (let i = 0; i < xs.length; i++) xs[i] = (xs[i] ?? 0) / top;
  return Math.log(top);
}

/** Counts what is hidden. A truth nothing was seen of teaches nothing: its row is left out. */
function addHidden(
  kid: PreparedKid,
  priors: readonly number[],
  taken: Taken,
  into: Float64Array,
  list: Float64Array,
  hidden: Hidden,
  random: Random | undefined,
): void {
  const add = (place: number, w: number) => {
    into[place] = (into[place] ?? 0) + w;
  };
  if (kid.touched.length > 0) {
    const { buds, weights, buckShare } = kid.kind;
    const addCourse = (c: number, w: number) => {
      const { sex, age, pace, clock } = present(buds.courses[c], "course");
      add(hidden.budAge[sex] + age, w);
      add(hidden.pace[sex] + pace, w);
      if (kid.early) add(hidden.clock + clock, w);
    };
    for (const [q, w] of taken.patterns.entries()) {
      if (w === 0) continue;
      // Within a pattern nothing was seen that tells its courses apart: they share, or one is drawn, by their chances.
      let rest = random === undefined ? 0 : random.next() * (priors[q] ?? 0);
      for (let c = 0; c < weights.length; c++) {
        if (kid.patternOf[c] !== q) continue;
        const weight = weights[c] ?? 0;
        if (random === undefined) addCourse(c, (w * weight) / (priors[q] ?? 1));
        else {
          rest -= weight;
          if (rest >= 0) continue;
          addCourse(c, w);
          break;
        }
      }
    }
    for (const [g, of] of (["PP", "Pp"] as const).entries())
      for (const [s, w] of (taken.stages[g] ?? []).entries()) {
        if (w === 0) continue;
        const places = hidden.stage[of];
        const buck = buckShare * (list[places.buck + s] ?? 0);
        const doe = (1 - buckShare) * (list[places.doe + s] ?? 0);
        const share = random === undefined ? buck / (buck + doe) : random.next() * (buck + doe) < buck ? 1 : 0;
        add(places.buck + s, w * share);
        add(places.doe + s, w * (1 - share));
      }
  }
  for (const [h, head] of (["horned", "polled"] as const).entries())
    for (let t = 0; t < 2; t++) {
      if (kid.whorls.length > 0) add(hidden.whorl[head] + t, taken.whorl[h]?.[t] ?? 0);
      if (kid.crowns.length > 0) add(hidden.crown[head] + t, taken.crown[h]?.[t] ?? 0);
    }
}

/** Counts what was reported, by the truths it may have come from. */
function addSeen(
  kid: PreparedKid,
  taken: Taken,
  into: Float64Array,
  list: Float64Array,
  random: Random | undefined,
): void {
  const add = (place: number, w: number) => {
    into[place] = (into[place] ?? 0) + w;
  };
  const addPiece = (piece: Piece, t: number, w: number) => {
    if (w === 0) return;
    const place = piece.places[t] ?? 0;
    if (piece.second < 0) return add(place, w);
    const chance = ((list[piece.second + 1] ?? 0) * (list[place] ?? 0)) / chanceOf(piece, t, list);
    const own = random === undefined ? chance : random.next() < chance ? 1 : 0;
    add(place, w * own);
    add(piece.second, w * (1 - own));
    add(piece.second + 1, w * own);
  };
  for (const [t, piece] of kid.touched.entries()) {
    const reached = HORNED_STAGES.map(() => 0);
    for (const [q, w] of taken.patterns.entries()) {
      const s = kid.stages[q * kid.touched.length + t] ?? 0;
      reached[s] = (reached[s] ?? 0) + w;
    }
    for (const [s, w] of reached.entries()) addPiece(piece, s, w);
    for (let s = 0; s < POLLED_STAGES.length; s++)
      addPiece(piece, HORNED_STAGES.length + s, (taken.stages[0][s] ?? 0) + (taken.stages[1][s] ?? 0));
  }
  for (let t = 0; t < 2; t++) {
    for (const piece of kid.whorls) addPiece(piece, t, (taken.whorl[0][t] ?? 0) + (taken.whorl[1][t] ?? 0));
    for (const piece of kid.crowns) addPiece(piece, t, (taken.crown[0][t] ?? 0) + (taken.crown[1][t] ?? 0));
  }
}

function sum(xs: readonly number[]): number {
  let total = 0;
  for (let i = 0; i < xs.length; i++) total += xs[i] ?? 0;
  return total;
}

/** The weights brought to this sum. */
function scaledTo(amount: number, weights: readonly number[]): readonly number[] {
  const by = amount === 0 ? 0 : amount / sum(weights);
  return weights.map((w) => w * by);
}

/** `amount` at one place, drawn by the weights, and 0 elsewhere. */
function oneOf(amount: number, weights: readonly number[], random: Random): readonly number[] {
  const out = weights.map(() => 0);
  if (amount === 0) return out;
  let rest = random.next() * sum(weights);
  let place = 0;
  for (; place < weights.length - 1; place++) {
    rest -= weights[place] ?? 0;
    if (rest < 0) break;
  }
  out[place] = amount;
  return out;
}
