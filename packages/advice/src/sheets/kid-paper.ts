import { type Day, daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { kiddingOf } from "@pollard/records";
import { genotypeSaid } from "../animal-model.ts";
import { animalRef } from "../animal-ref.ts";
import { mayBeIntersex } from "../heads/kid-model.ts";
import type { AnimalRef } from "../animal-ref.ts";
import type { GenotypeSaid } from "../animal-models.ts";
import type { HornsBelief } from "../heads/kid-models.ts";
import { hornsBelief } from "../heads/horns-belief.ts";
import { herdNameOf } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { type CareGiven, careGiven, damBooster } from "../season/care.ts";

/** What a head is by what was seen of it; `disbudded` and `regrown` say nothing of what it would have grown by itself. */
export type PaperHead = "horned" | "polled" | "scurred" | "disbudded" | "regrown" | "not-seen";

/** How a statement is known, the surest first. */
export type PaperGround = "dna-test" | "what-grew" | "vet-found" | "head-reading" | "record" | "family";

/** What is not known of an animal, and a buyer might take for granted. */
export type PaperGap =
  | "sire-not-certain"
  | "sire-not-recorded"
  | "dam-not-recorded"
  | "birth-not-recorded"
  | "genotype-not-tested"
  | "head-not-confirmed"
  | "intersex-not-ruled-out"
  | "dam-booster-not-recorded"
  | "colostrum-not-recorded"
  | "vaccination-not-recorded"
  | "herd-tests-not-recorded";

/** Warnings that a buyer must read. */
export type PaperWarning =
  | "never-two-polled"
  | "not-for-breeding-yet"
  | "watch-for-regrowth"
  | "milk-held-back"
  | "meat-held-back";

/** One parent, by what is known of it. */
export interface PaperParent {
  readonly ref: AnimalRef;
  readonly head: PaperHead;
  readonly genotype: GenotypeSaid;
}

/** What a buyer is told of a goat: what is known, how it is known, what is not. */
export interface KidPaperModel {
  readonly today: Day;
  readonly herdName: string | undefined;
  readonly goat: AnimalRef;
  readonly born: Day | undefined;
  readonly ageDays: number | undefined;
  readonly breed: string | undefined;
  readonly bornTogether: number | undefined;
  readonly dam: PaperParent | undefined;
  /** The bucks that may be the sire, likeliest first, with their chance; a buck nobody wrote down is not among them. */
  readonly sires: readonly (PaperParent & { readonly chance: number })[];
  readonly head: PaperHead;
  /** Days of what was done and seen: disbudding, what grew. */
  readonly disbudded: Day | undefined;
  readonly grewSeen: Day | undefined;
  /** Withheld while a head that still matters is unread: eyes first. */
  readonly genotype: GenotypeSaid | undefined;
  /** Of a kid whose head was read and not yet settled. */
  readonly belief: HornsBelief | undefined;
  readonly grounds: readonly PaperGround[];
  readonly warnings: readonly PaperWarning[];
  readonly milkUntil: Day | undefined;
  readonly meatUntil: Day | undefined;
  readonly weights: readonly { readonly kg: number; readonly on: Day; readonly how: "weighed" | "guessed" }[];
  readonly care: readonly CareGiven[];
  readonly gaps: readonly PaperGap[];
  /** Only where ticked. */
  readonly notes: readonly { readonly on: Day; readonly text: string }[];
}

/** What the keeper may tick to be on the paper; without a tick it stays private. */
export interface PaperTicks {
  readonly notes?: "show";
}

/** Chance from which one buck is named as the sire without another word. */
const SIRE_CERTAIN = 0.95;
/** Chance of a polled gene from which a buyer is warned of two polled parents. */
const MAY_BE_POLLED = 0.02;
/** Weights shown: the first and the latest few. */
const WEIGHTS_SHOWN = 4;

/**
 * What a buyer of this goat is told; `undefined` for an animal the herd does not know.
 *
 * What people wrote in notes, who saw what, and to whom others were sold stays private unless ticked.
 *
 * Source: rules AD-47, AD-48.
 */
export function kidPaper(situation: Situation, id: AnimalId, ticks: PaperTicks = {}): KidPaperModel | undefined {
  const { herd, beliefs, today } = situation;
  const goat = herd.animals.get(id);
  if (goat === undefined) return undefined;
  const parent = (of: AnimalId): PaperParent | undefined => {
    const found = herd.animals.get(of);
    return found && { ref: animalRef(herd, of), head: headSeen(found), genotype: genotypeSaid(situation, found) };
  };
  const sires = beliefs.sires(id).flatMap(([sire, chance]) => {
    const found = sire === undefined ? undefined : parent(sire);
    return found === undefined || chance < 0.01 ? [] : [{ ...found, chance }];
  });
  const born = kiddingOf(herd, goat)?.kids.length;
  const care = careGiven(goat).filter((c) => c.answer === "done");
  const latest = (days: readonly (Day | undefined)[]) =>
    days
      .flatMap((day) => (day !== undefined && day >= today ? [day] : []))
      .sort()
      .at(-1);
  const milkUntil = latest(care.map((c) => c.noMilkUntil));
  const meatUntil = latest(care.map((c) => c.noMeatUntil));
  const advised = situation.advice(id)?.kind;
  const genotype = advised === "read-head" || advised === "finish-reading" ? undefined : genotypeSaid(situation, goat);
  const intersex = mayBeIntersex(situation, goat);
  const head = headSeen(goat);
  const disbudded = goat.disbuddings.findLast((d) => d.done !== "not-done")?.on;
  const grewSeen = goat.outcomes.at(-1)?.on;
  const mayBePolled = head !== "horned" && 1 - beliefs.polled(id).pp >= MAY_BE_POLLED;
  const weights = [...goat.weights.slice(0, 1), ...goat.weights.slice(1).slice(1 - WEIGHTS_SHOWN)];
  return {
    today,
    herdName: herdNameOf(herd),
    goat: animalRef(herd, id),
    born: goat.born,
    ageDays: goat.born === undefined ? undefined : daysFrom(goat.born, today),
    breed: goat.breed,
    bornTogether: born,
    dam: goat.dam === undefined ? undefined : parent(goat.dam),
    sires,
    head,
    disbudded,
    grewSeen,
    genotype,
    belief: head === "not-seen" ? hornsBelief(situation, goat) : undefined,
    grounds: groundsOf(goat),
    warnings: [
      ...(mayBePolled ? (["never-two-polled"] as const) : []),
      ...(intersex ? (["not-for-breeding-yet"] as const) : []),
      ...(disbudded === undefined ? [] : (["watch-for-regrowth"] as const)),
      ...(milkUntil === undefined ? [] : (["milk-held-back"] as const)),
      ...(meatUntil === undefined ? [] : (["meat-held-back"] as const)),
    ],
    milkUntil,
    meatUntil,
    weights: weights.map(({ kg, on, how }) => ({ kg, on, how })),
    care,
    gaps: gapsOf(situation, goat, { sires, genotype, grewSeen, intersex, care }),
    notes: ticks.notes === "show" ? goat.notes.map(({ on, text }) => ({ on, text })) : [],
  };
}

type Goat = Parameters<typeof hornsBelief>[1];

/** What was seen of a head, the latest first: what grew, then what was done, then what it came with. */
function headSeen({ outcomes, disbuddings, head }: Goat): PaperHead {
  const grew = outcomes.at(-1);
  const sides = grew === undefined ? [] : [grew.left, grew.right];
  if (sides.includes("horn")) return "horned";
  const disbudded = disbuddings.some((d) => d.done !== "not-done");
  if (sides.includes("scur")) return disbudded ? "regrown" : "scurred";
  if (disbudded) return "disbudded";
  if (sides.length > 0 && sides.every((side) => side === "nothing" || side === "knob")) return "polled";
  if (head === undefined || head.head === "unsure") return "not-seen";
  return head.head;
}

function groundsOf({ tests, outcomes, disbuddings, readings, head }: Goat): readonly PaperGround[] {
  return [
    ...(tests.length > 0 ? (["dna-test"] as const) : []),
    ...(outcomes.length > 0 ? (["what-grew"] as const) : []),
    ...(disbuddings.some((d) => d.found !== undefined) ? (["vet-found"] as const) : []),
    ...(readings.length > 0 ? (["head-reading"] as const) : []),
    ...(head === undefined ? [] : (["record"] as const)),
    "family",
  ];
}

function gapsOf(
  { herd }: Situation,
  goat: Goat,
  known: Pick<KidPaperModel, "sires" | "genotype" | "grewSeen" | "care"> & { readonly intersex: boolean },
): readonly PaperGap[] {
  const has = (task: string) => known.care.some((c) => c.code === task);
  const homeBorn = goat.kidding !== undefined;
  const [likeliest] = known.sires;
  return [
    ...(goat.born === undefined ? (["birth-not-recorded"] as const) : []),
    ...(goat.dam === undefined ? (["dam-not-recorded"] as const) : []),
    ...(likeliest === undefined
      ? (["sire-not-recorded"] as const)
      : likeliest.chance < SIRE_CERTAIN
        ? (["sire-not-certain"] as const)
        : []),
    ...(goat.tests.length === 0 && known.genotype?.surety !== "proven" ? (["genotype-not-tested"] as const) : []),
    ...(known.grewSeen === undefined && goat.head === undefined ? (["head-not-confirmed"] as const) : []),
    ...(known.intersex ? (["intersex-not-ruled-out"] as const) : []),
    ...(homeBorn && damBooster(herd, goat) === undefined ? (["dam-booster-not-recorded"] as const) : []),
    ...(homeBorn && !has("colostrum") ? (["colostrum-not-recorded"] as const) : []),
    ...(has("kid-vaccine") ? [] : (["vaccination-not-recorded"] as const)),
    "herd-tests-not-recorded",
  ];
}
