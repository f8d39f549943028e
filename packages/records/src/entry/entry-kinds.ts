import type { Day } from "@pollard/base";
import { parseDay } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { BUD_FEELS, CROWNS, GROWTHS, KNOB_SHAPES, NO_FINDINGS, SKIN_HOLDS, WHORLS } from "@pollard/husbandry";
import * as v from "valibot";
import type { EntryId } from "./ids.ts";

/** Longest text a name, tag or id may have, and longest note. Limits keep one bad entry from filling a phone. */
const NAME_LIMIT = 80;
const NOTE_LIMIT = 4000;
/** Most kids one kidding may list, and most bucks one service may name. */
const LIST_LIMIT = 40;
/** Most animals that one entry of care may name: a whole herd done on one day. */
const CARE_LIMIT = 500;
/** Heaviest goat that is not a slip of the finger, kg. Common practice, no source: large bucks reach about 160. */
export const HEAVIEST_KG = 250;

const name = v.pipe(v.string(), v.minLength(1), v.maxLength(NAME_LIMIT));
const note = v.pipe(v.string(), v.minLength(1), v.maxLength(NOTE_LIMIT));
const animal = name as unknown as v.GenericSchema<string, AnimalId>;
const entryId = name as unknown as v.GenericSchema<string, EntryId>;
const kilograms = v.pipe(v.number(), v.gtValue(0), v.maxValue(HEAVIEST_KG));
const dayText = v.pipe(
  v.string(),
  v.regex(/^\d{4}-\d{2}-\d{2}$/),
  v.check((text) => parseDay(text) !== undefined),
) as unknown as v.GenericSchema<string, Day>;

/** What an animal is taken for by eye. `intersex` = signs of both; `unsure` = looked and could not tell. */
export const SEXES = ["doe", "buck", "wether", "intersex", "unsure"] as const;
export type Sex = (typeof SEXES)[number];

/** Whether an animal of this sex can be a dam, or a sire. A wether may have sired before he was one; a doe never. */
export const canBe = (role: "dam" | "sire", sex: Sex | undefined): boolean =>
  role === "dam" ? sex !== "buck" && sex !== "wether" : sex !== "doe";

/** The grown head of an animal that came to the herd as more than a kid. A disbudded head says nothing of the genotype. */
export const GROWN_HEADS = ["polled", "horned", "disbudded", "unsure"] as const;
export type GrownHead = (typeof GROWN_HEADS)[number];

/** How a doe was served. */
export const SERVICE_WAYS = ["hand", "pen", "insemination"] as const;
export type ServiceWay = (typeof SERVICE_WAYS)[number];

/** What the keeper chose to do about a kid's head. */
export const KID_CHOICES = ["leave", "look-again", "vet-list"] as const;
export type KidChoice = (typeof KID_CHOICES)[number];

/** How a pregnancy was looked for. */
export const PREGNANCY_CHECKS = ["ultrasound", "blood", "progesterone", "radiograph", "belly"] as const;
export type PregnancyCheckWay = (typeof PREGNANCY_CHECKS)[number];
/** What was found of a pregnancy. `unsure` = looked and could not tell. */
export const PREGNANCY_FINDINGS = ["pregnant", "empty", "unsure"] as const;
export type PregnancyFinding = (typeof PREGNANCY_FINDINGS)[number];

/** What a photo shows. */
export const PHOTO_SUBJECTS = ["head", "goat"] as const;
export type PhotoSubject = (typeof PHOTO_SUBJECTS)[number];

/** How the keeper answered a task of care. */
export const CARE_ANSWERS = ["done", "not-needed", "put-off"] as const;
export type CareAnswer = (typeof CARE_ANSWERS)[number];

const sided = <T extends v.GenericSchema>(sign: T) =>
  v.union([
    v.strictObject({ both: sign }),
    v.strictObject({ left: v.exactOptional(sign), right: v.exactOptional(sign) }),
  ]);

const signs = v.object({
  feel: v.exactOptional(sided(v.picklist([...BUD_FEELS, ...NO_FINDINGS]))),
  skin: v.exactOptional(sided(v.picklist([...SKIN_HOLDS, ...NO_FINDINGS]))),
  whorls: v.exactOptional(sided(v.picklist([...WHORLS, ...NO_FINDINGS]))),
  crown: v.exactOptional(v.picklist([...CROWNS, ...NO_FINDINGS])),
});

const vetFinding = v.picklist(["bud", "no-bud", "unsure"]);

/**
 * The body of every kind of fact, as stored. A released shape never changes meaning: a new meaning is a new kind, or a
 * new version with a step up from the old one. Fields that are not listed are kept and passed on, never interpreted.
 */
export const BODIES = {
  /** An animal of the herd, a bought one, or an ancestor known by name only. */
  animal: v.object({
    animal,
    name: v.exactOptional(name),
    tag: v.exactOptional(name),
    /** The number of its electronic chip, fifteen digits, as text. */
    chip: v.exactOptional(name),
    /** What it is known by where it has neither name nor tag: a colour, a spot, a collar. */
    mark: v.exactOptional(name),
    sex: v.picklist(SEXES),
    born: v.exactOptional(dayText),
    breed: v.exactOptional(name),
    dam: v.exactOptional(animal),
    sire: v.exactOptional(animal),
    head: v.exactOptional(v.picklist(GROWN_HEADS)),
  }),
  /** A doe with one buck or several: on one day, or in a pen from the entry's day to `until`. */
  service: v.object({
    doe: animal,
    bucks: v.pipe(v.array(animal), v.minLength(1), v.maxLength(LIST_LIMIT)),
    way: v.picklist(SERVICE_WAYS),
    until: v.exactOptional(dayText),
  }),
  /** A heat that was seen without a service; a service by hand is a heat of its own. */
  heat: v.object({ doe: animal }),
  /** Was she in kid? `kids` where they were counted. */
  "pregnancy-check": v.object({
    doe: animal,
    way: v.picklist(PREGNANCY_CHECKS),
    found: v.picklist(PREGNANCY_FINDINGS),
    kids: v.exactOptional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(LIST_LIMIT))),
  }),
  /** Kids lost before their time: she carries none any more. */
  abortion: v.object({ doe: animal }),
  /** A birth. `bucks` only where the keeper names the possible sires; otherwise the services tell. */
  kidding: v.object({
    dam: animal,
    bucks: v.exactOptional(v.pipe(v.array(animal), v.maxLength(LIST_LIMIT))),
    kids: v.pipe(
      v.array(
        v.object({
          kid: animal,
          sex: v.picklist(SEXES),
          born: v.picklist(["alive", "dead"]),
          name: v.exactOptional(name),
          tag: v.exactOptional(name),
          mark: v.exactOptional(name),
          weightKg: v.exactOptional(kilograms),
        }),
      ),
      v.maxLength(LIST_LIMIT),
    ),
  }),
  /** What fingers and eyes found on a kid's head. `budSites` 4 = a four-horned head. */
  "head-reading": v.object({ kid: animal, signs, budSites: v.exactOptional(v.picklist([2, 4])) }),
  /** What had grown on each side, seen weeks later. */
  outcome: v.object({
    animal,
    left: v.picklist(GROWTHS),
    right: v.picklist(GROWTHS),
    knobs: v.exactOptional(v.picklist(KNOB_SHAPES)),
  }),
  /** What was done at disbudding, and what the operator found under the hair. `not-done` = looked and left alone. */
  disbudding: v.object({
    kid: animal,
    done: v.picklist(["both-sides", "left", "right", "not-done"]),
    operator: v.exactOptional(name),
    technique: v.exactOptional(v.picklist(["bud-removed", "bud-left", "unsure"])),
    found: v.exactOptional(v.object({ left: vetFinding, right: vetFinding })),
  }),
  /** A laboratory's result at one locus. */
  "dna-test": v.object({ animal, locus: name, alleles: v.strictTuple([name, name]), lab: v.exactOptional(name) }),
  /** A trait as seen: wattles, eye colour, signs of intersex. */
  trait: v.object({ animal, trait: name, value: name }),
  weight: v.object({ animal, kg: kilograms, how: v.picklist(["weighed", "guessed"]) }),
  /** From the entry's day on the goat is in this pen; without a pen, in none. Who shares a pen may have been mated. */
  move: v.object({ animal, pen: v.exactOptional(name) }),
  departure: v.object({
    animal,
    why: v.picklist(["sold", "died", "slaughtered", "lent", "other"]),
    to: v.exactOptional(name),
  }),
  /** A photo was taken. The picture itself is kept beside the ledger under this name, and may be on another device. */
  photo: v.object({ animal, photo: name, what: v.picklist(PHOTO_SUBJECTS) }),
  note: v.object({ animal: v.exactOptional(animal), text: note }),
  /** A day on which the vet is to come; the entry's own day is that day. */
  "vet-day": v.object({ vet: v.exactOptional(name) }),
  /** What the keeper chose for a kid; `day` is the day of the next look or of the visit. */
  choice: v.object({ kid: animal, choice: v.picklist(KID_CHOICES), day: v.exactOptional(dayText) }),
  /**
   * What became of a task of care: its code, for one animal or several. `until` only for what was put off. `means` and
   * the days of withdrawal are written down as the vet told them; nothing is computed from `means`.
   */
  care: v.object({
    animals: v.pipe(v.array(animal), v.minLength(1), v.maxLength(CARE_LIMIT)),
    task: name,
    answer: v.picklist(CARE_ANSWERS),
    until: v.exactOptional(dayText),
    because: v.exactOptional(note),
    means: v.exactOptional(name),
    noMilkUntil: v.exactOptional(dayText),
    noMeatUntil: v.exactOptional(dayText),
  }),
  setting: v.object({ key: name, value: v.union([v.pipe(v.string(), v.maxLength(NOTE_LIMIT)), v.number()]) }),
} as const;

/** The kind of a fact. */
export type FactKind = keyof typeof BODIES;
/** What is written down of a fact of one kind. */
export type BodyOf<K extends FactKind> = v.InferOutput<(typeof BODIES)[K]>;

/** The kinds of fact, in a fixed order. */
export const FACT_KINDS = Object.keys(BODIES) as readonly FactKind[];

/** A local day, or a local day and time of day; never with a zone. */
export const happenedText = v.pipe(
  v.string(),
  v.regex(/^\d{4}-\d{2}-\d{2}(T([01]\d|2[0-3]):[0-5]\d)?$/),
  v.check((text) => parseDay(text.slice(0, 10)) !== undefined),
);

const facts = FACT_KINDS.map((kind) => v.object({ kind: v.literal(kind), on: happenedText, body: BODIES[kind] }));

/** What a correction puts in the place of an earlier entry: a fact of the same kind. */
const replacementFact = v.variant("kind", facts as never) as unknown as v.GenericSchema<unknown, Fact>;

/** The two kinds that speak of other entries. */
export const CORRECTIONS = {
  /** Puts `fact` in the place of `entry`. `settles` lists the rival corrections that this one decides between. */
  replace: v.object({ entry: entryId, fact: replacementFact, settles: v.exactOptional(v.array(entryId)) }),
  /** Withdraws `entry`. Striking a strike brings the entry back. */
  strike: v.object({ entry: entryId, because: v.exactOptional(note) }),
} as const;

/** A fact of any kind, with the day (or day and time) on which it happened. */
export type Fact = { [K in FactKind]: { readonly kind: K; readonly on: string; readonly body: BodyOf<K> } }[FactKind];

/** An entry about an entry: another wording of it, or that it does not count. */
export type Correction =
  | { readonly kind: "replace"; readonly on: string; readonly body: v.InferOutput<typeof CORRECTIONS.replace> }
  | { readonly kind: "strike"; readonly on: string; readonly body: v.InferOutput<typeof CORRECTIONS.strike> };
