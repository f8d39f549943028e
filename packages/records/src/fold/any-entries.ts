import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { CROWNS, GROWTHS } from "@pollard/husbandry";
import fc from "fast-check";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import { stampOf } from "../entry/entry-builders.ts";
import {
  type BodyOf,
  CARE_ANSWERS,
  type Fact,
  FACT_KINDS,
  type FactKind,
  GROWN_HEADS,
  KID_CHOICES,
  PHOTO_SUBJECTS,
  PREGNANCY_CHECKS,
  PREGNANCY_FINDINGS,
  SERVICE_WAYS,
  SEXES,
} from "../entry/entry-kinds.ts";
import type { EntryId } from "../entry/ids.ts";

/** Small pools, so that entries meet: the same animals, ids, days and tags over and over, most of it nonsense. */
const ANIMALS = ["ash", "birch", "cedar", "dogwood", "elder"] as AnimalId[];
const IDS = Array.from({ length: 14 }, (_, at) => `e${String(at).padStart(2, "0")}` as EntryId);
const DAYS = ["2020-03-01", "2022-03-01", "2022-03-02", "2024-10-10", "2026-05-31", "2026-06-02"] as Day[];

const animal = fc.constantFrom(...ANIMALS);
const anId = fc.constantFrom(...IDS);
const aDay = fc.constantFrom(...DAYS);
const text = fc.constantFrom("one", "two");

type Bodies = { readonly [K in FactKind]: fc.Arbitrary<BodyOf<K>> };

const kid = fc.record(
  {
    kid: animal,
    sex: fc.constantFrom(...SEXES),
    born: fc.constantFrom("alive" as const, "dead" as const),
    name: text,
    tag: text,
    mark: text,
    weightKg: fc.constantFrom(2.5, 3),
  },
  { requiredKeys: ["kid", "sex", "born"] },
);

const bodies: Bodies = {
  animal: fc.record(
    {
      animal,
      sex: fc.constantFrom(...SEXES),
      name: text,
      tag: text,
      chip: text,
      mark: text,
      born: aDay,
      breed: text,
      dam: animal,
      sire: animal,
      head: fc.constantFrom(...GROWN_HEADS),
    },
    { requiredKeys: ["animal", "sex"] },
  ),
  service: fc.record(
    {
      doe: animal,
      bucks: fc.array(animal, { minLength: 1, maxLength: 3 }),
      way: fc.constantFrom(...SERVICE_WAYS),
      until: aDay,
    },
    { requiredKeys: ["doe", "bucks", "way"] },
  ),
  kidding: fc.record(
    { dam: animal, kids: fc.array(kid, { maxLength: 3 }), bucks: fc.array(animal, { maxLength: 3 }) },
    { requiredKeys: ["dam", "kids"] },
  ),
  "head-reading": fc.record({ kid: animal, signs: fc.record({ crown: fc.constantFrom(...CROWNS) }) }),
  outcome: fc.record({ animal, left: fc.constantFrom(...GROWTHS), right: fc.constantFrom(...GROWTHS) }),
  disbudding: fc.record(
    { kid: animal, done: fc.constantFrom("both-sides", "left", "right", "not-done"), operator: text },
    { requiredKeys: ["kid", "done"] },
  ),
  "dna-test": fc.record({ animal, locus: text, alleles: fc.tuple(text, text) }),
  trait: fc.record({ animal, trait: text, value: text }),
  weight: fc.record({ animal, kg: fc.constantFrom(3, 40), how: fc.constantFrom("weighed", "guessed") }),
  move: fc.record({ animal, pen: text }, { requiredKeys: ["animal"] }),
  departure: fc.record(
    { animal, why: fc.constantFrom("sold", "died", "slaughtered", "lent", "other"), to: text },
    { requiredKeys: ["animal", "why"] },
  ),
  photo: fc.record({ animal, photo: text, what: fc.constantFrom(...PHOTO_SUBJECTS) }),
  note: fc.record({ text, animal }, { requiredKeys: ["text"] }),
  "vet-day": fc.record({ vet: text }, { requiredKeys: [] }),
  choice: fc.record(
    { kid: animal, choice: fc.constantFrom(...KID_CHOICES), day: aDay },
    { requiredKeys: ["kid", "choice"] },
  ),
  heat: fc.record({ doe: animal }),
  "pregnancy-check": fc.record({
    doe: animal,
    way: fc.constantFrom(...PREGNANCY_CHECKS),
    found: fc.constantFrom(...PREGNANCY_FINDINGS),
  }),
  abortion: fc.record({ doe: animal }),
  care: fc.record(
    {
      animals: fc.array(animal, { minLength: 1, maxLength: 3 }),
      task: text,
      answer: fc.constantFrom(...CARE_ANSWERS),
      until: aDay,
    },
    { requiredKeys: ["animals", "task", "answer"] },
  ),
  setting: fc.record({ key: text, value: fc.oneof(text, fc.nat(3)) }),
};

const factOf = (...kinds: readonly FactKind[]): fc.Arbitrary<Fact> =>
  fc.oneof(
    ...kinds.map((kind) => fc.record({ kind: fc.constant(kind), on: aDay, body: bodies[kind] })),
  ) as unknown as fc.Arbitrary<Fact>;

/** Corrections of entries low in the list more often than of those high up. */
const target = fc.oneof(fc.constantFrom(...IDS.slice(0, 5)), anId);

const correctionOf = (fact: fc.Arbitrary<Fact>): fc.Arbitrary<object> =>
  fc.oneof(
    fc.record({ kind: fc.constant("strike"), on: aDay, body: fc.record({ entry: target }) }),
    fc.record({
      kind: fc.constant("replace"),
      on: aDay,
      body: fc.record(
        { entry: target, fact, settles: fc.array(anId, { maxLength: 3 }) },
        { requiredKeys: ["entry", "fact"] },
      ),
    }),
  );

const envelopeOf = (ids: readonly EntryId[], herds: readonly string[]) =>
  fc.record({
    v: fc.constant(1),
    id: fc.constantFrom(...ids),
    herd: fc.constantFrom(...herds),
    by: text,
    at: fc.nat(9).map((ms) => stampOf(ms)),
    device: fc.constant("barn"),
  });

const entryOf = (said: fc.Arbitrary<object>, ids: readonly EntryId[] = IDS, herds = ["herd"]): fc.Arbitrary<Entry> =>
  fc
    .tuple(envelopeOf(ids, herds), said)
    .map(([envelope, what]) => ({ ...envelope, ...what })) as unknown as fc.Arbitrary<Entry>;

/** All kinds of entry, a good half of them facts, some of another herd and some that are too new. */
const anyFact = factOf(...FACT_KINDS);
const herds = ["herd", "herd", "herd", "other"];
const mixed: fc.Arbitrary<Entry | TooNewEntry> = fc.oneof(
  { weight: 12, arbitrary: entryOf(anyFact, IDS, herds) },
  { weight: 8, arbitrary: entryOf(correctionOf(anyFact), IDS, herds) },
  { weight: 1, arbitrary: anId.map((id) => ({ id, tooNew: { v: 2, id } })) },
);

/** One or two facts and many corrections of them and of each other, of a kind that fits. */
const corrected = fc.oneof(
  { weight: 1, arbitrary: entryOf(factOf("weight", "weight", "note"), IDS.slice(0, 2)) },
  { weight: 5, arbitrary: entryOf(correctionOf(factOf("weight")), IDS.slice(2)) },
);

/** Births and parents, and their corrections: pedigrees with loops that come and go. */
const related = fc.oneof(
  { weight: 3, arbitrary: entryOf(factOf("animal", "kidding")) },
  { weight: 2, arbitrary: entryOf(correctionOf(factOf("animal"))) },
);

/** Entries that any program could have written: valid one by one, and together most of them nonsense. */
export const anyEntries: fc.Arbitrary<readonly (Entry | TooNewEntry)[]> = fc.oneof(
  fc.array(mixed, { maxLength: 24 }),
  fc.array(corrected, { minLength: 5, maxLength: 16 }),
  fc.array(related, { maxLength: 20 }),
);
