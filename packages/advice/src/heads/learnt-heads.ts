import { probability, seededRandom } from "@pollard/base";
import { type AnimalId, POLLED, POLLED_GENOTYPES, type PolledBelief } from "@pollard/genetics";
import {
  asSureAs,
  DEFAULT_HEAD_TABLES,
  type HeadTables,
  learnHeads,
  type LearningKid,
  type LearntHeads,
} from "@pollard/husbandry";
import type { Animal, Herd } from "@pollard/records";
import { hasFinding, headKidOf, headReadingsOf, kidAges } from "./kid-facts.ts";
import { factsBesideReadings, type ParentRole } from "../belief/own-facts.ts";
import { type Truth, truthOf } from "./truths.ts";

/** The tables by which this herd's heads are read, and what they were learnt from. One set for every answer of a situation. */
export interface HerdHeads {
  readonly tables: HeadTables;
  readonly learnt: LearntHeads;
  /** The heads behind it: read when newborn, and known for themselves since. */
  readonly truths: ReadonlyMap<AnimalId, Truth>;
  /** The same tables with whole sets drawn from what was learnt, for ranges. Worked out when first asked for. */
  sure(): HeadTables;
}

/** Learns a herd's tables. */
export type HeadLearner = (herd: Herd) => HerdHeads;

/** Most heads learnt from, the newest first: more would be slow, and fingers change over the years. Our judgement. */
const MOST_HEADS = 120;
/** Seed of the draws behind ranges: the same herd shows the same range on every device. */
const DRAW_SEED = 23;

/**
 * What the herd's own heads have taught: the keeper's tables, moved by every kid whose head was read when newborn and is known
 * for itself since.
 *
 * Learning takes each kid's readings and what was found on it later; it takes no belief. What the pedigree makes of a kid,
 * and what readings made of its kin, stay out, so nothing that these tables helped to say comes back to move them.
 *
 * Source: rules AD-22, AD-23; husbandry's HD-23 to HD-25.
 */
export const learntHeads: HeadLearner = (herd) => {
  const lessons = lessonsOf(herd);
  return learntFrom(lessons, new Map(lessons.map(({ id, truth }) => [id, truth])));
};

/** The same, remembering the last herd's lessons: entries that teach nothing new cost nothing. */
export function headLearner(): HeadLearner {
  let last: { readonly key: string; readonly heads: HerdHeads } | undefined;
  return (herd) => {
    const lessons = lessonsOf(herd);
    const key = JSON.stringify(lessons);
    if (last?.key !== key)
      last = { key, heads: learntFrom(lessons, new Map(lessons.map(({ id, truth }) => [id, truth]))) };
    return last.heads;
  };
}

function learntFrom(lessons: readonly LearningKid[], truths: HerdHeads["truths"]): HerdHeads {
  const learnt = learnHeads(lessons, DEFAULT_HEAD_TABLES);
  let sure: HeadTables | undefined;
  return {
    tables: learnt.tables,
    learnt,
    truths,
    sure: () => {
      sure ??=
        lessons.length === 0
          ? DEFAULT_HEAD_TABLES
          : asSureAs(lessons, learnt.tables, DEFAULT_HEAD_TABLES, seededRandom(DRAW_SEED));
      return sure;
    },
  };
}

interface Lesson extends LearningKid {
  readonly id: AnimalId;
  readonly truth: Truth;
}

/** Every kid that teaches, the oldest first. */
function lessonsOf(herd: Herd): readonly Lesson[] {
  return [...herd.animals.values()]
    .flatMap((animal) => {
      const truth = truthOf(animal);
      if (truth === undefined || animal.born === undefined) return [];
      const readings = headReadingsOf(animal, kidAges(herd, animal, animal.born)).filter(hasFinding);
      return readings.length === 0 ? [] : [{ animal, truth, readings }];
    })
    .sort((a, b) => compareText(a.truth.on, b.truth.on) || compareText(a.animal.id, b.animal.id))
    .slice(-MOST_HEADS)
    .map(({ animal, truth, readings }) => ({
      id: animal.id,
      truth,
      kid: headKidOf(animal, herd),
      readings,
      known: knownOf(herd, animal),
    }));
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What the kid's own later findings say of its genotype, from a start that favours neither horns nor polled. */
function knownOf(herd: Herd, animal: Animal): PolledBelief {
  const shared = evenStart(herd, animal);
  const facts = factsBesideReadings(animal, NO_PARENTS);
  const weights = POLLED_GENOTYPES.map((g, i) =>
    (["XX", "XY"] as const).reduce(
      (sum, sex) => sum + facts.reduce((w, f) => w * (f.likelihood[sex][i] ?? 0), shared[g] / 2),
      0,
    ),
  );
  const total = weights.reduce((a, b) => a + b, 0);
  if (total === 0) return shared;
  const [PP = 0, Pp = 0, pp = 0] = weights;
  return { PP: probability(PP / total), Pp: probability(Pp / total), pp: probability(pp / total) };
}

const NO_PARENTS: ReadonlyMap<AnimalId, ParentRole> = new Map();

/**
 * Half horned, half polled; the polled half shared as among founders, or all Pp where a parent is known to be horned.
 */
function evenStart(herd: Herd, { dam, sires }: Animal): PolledBelief {
  const parents = [dam, ...(sires.length === 1 ? sires : [])];
  const isHorned = (id: AnimalId | undefined): boolean => {
    const parent = id === undefined ? undefined : herd.animals.get(id);
    return parent !== undefined && truthOf(parent)?.head === "horned";
  };
  const [P = 0] = POLLED.founders.default.value;
  const share = parents.some(isHorned) ? 0 : P / (2 - P);
  return { PP: probability(share / 2), Pp: probability((1 - share) / 2), pp: probability(0.5) };
}
