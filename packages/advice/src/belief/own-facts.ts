import { daysFrom } from "@pollard/base";
import {
  type AnimalId,
  dnaTestLikelihood,
  type Evidence,
  FERTILE_DAM,
  FERTILE_SIRE,
  grownHeadLikelihood,
  headLikelihood as hornsOrPolled,
  knobsLikelihood,
  NO_POLLED_EVIDENCE,
  POLLED,
  POLLED_GENOTYPES,
  sexLookLikelihood,
  VET_FOUND_DOE,
} from "@pollard/genetics";
import {
  headLikelihood as headReadingLikelihood,
  type HeadKid,
  type HeadReading,
  type HeadTables,
  outcomeLikelihood,
  vetFindingLikelihood,
} from "@pollard/husbandry";
import { type Animal, type EntryId, type Herd, saidToHaveKidded } from "@pollard/records";
import { disbuddedBy, hasFinding, headKidOf, headReadingsOf, kidAges } from "../heads/kid-facts.ts";
import { INTERSEX_TRAIT, lastIntersexLook } from "./intersex-look.ts";
import type { WeighedFactKind } from "../heads/kid-models.ts";

/** One finding about one animal, as what it says of its polled genotype. */
export interface OwnFact extends Evidence {
  /** The entries it stands in; empty for what follows from others' entries (it has had young here). */
  readonly entries: readonly EntryId[];
  readonly about: "look" | "fertility" | "readings" | "vet-finding" | "growth" | "grown-head" | "dna-test" | "trait";
  /** How a screen names it; `undefined` where it speaks of horns only by the way. */
  readonly said: WeighedFactKind | undefined;
  readonly leans: "horned" | "polled" | "neither";
}

/** What an animal was to its young by the record. That proves it fertile, whatever it looked like when it was born. */
export type ParentRole = "dam" | "sire";

/** Age in days that an outcome is taken to be seen at where the birth date is not on record: a grown goat. */
const GROWN_AGE_UNKNOWN = 365;

/**
 * Everything found on one animal that says something of its polled genotype, in the order of a life: its look at birth, head
 * readings, the vet's finding, what grew, a grown head, tests, a look for intersex, and having had young.
 *
 * All readings of a kid are one fact, since they look at the same whorl and the same bud.
 *
 * Shape:  ids are unique within the herd.
 * Source: rules AD-2, AD-100, AD-101; the figures stand in genetics and husbandry.
 */
export function ownFacts(
  herd: Herd,
  animal: Animal,
  parents: ReadonlyMap<AnimalId, ParentRole>,
  tables: HeadTables,
): readonly OwnFact[] {
  return [...look(animal), ...readings(herd, animal, tables), ...laterFacts(animal, parents)];
}

/** As `ownFacts`, without what was read on its newborn head. */
export const factsBesideReadings = (animal: Animal, parents: ReadonlyMap<AnimalId, ParentRole>): readonly OwnFact[] => [
  ...look(animal),
  ...laterFacts(animal, parents),
];

const laterFacts = (animal: Animal, parents: ReadonlyMap<AnimalId, ParentRole>): readonly OwnFact[] => [
  ...vetFindings(animal),
  ...growth(animal),
  ...grownHead(animal),
  ...dnaTests(animal),
  ...intersexLooks(animal),
  ...fertility(animal, parents),
];

type Likelihood = Evidence["likelihood"];

function look(animal: Animal): readonly OwnFact[] {
  if (animal.sex === "unsure") return [];
  return [
    {
      fact: `look:${animal.id}`,
      likelihood: sexLookLikelihood(animal.sex),
      entries: [],
      about: "look",
      said: undefined,
      leans: "neither",
    },
  ];
}

/** What was read on each kid last, and by what: to weigh a reading costs as much as all else about an animal together. */
const READ = new WeakMap<
  Animal,
  {
    readonly tables: HeadTables;
    readonly early: number | undefined;
    readonly breed: string | undefined;
    readonly facts: readonly OwnFact[];
  }
>();

/** Nothing new is weighed where the animal, its due date and the tables are those of the time before. */
function readings(herd: Herd, animal: Animal, tables: HeadTables): readonly OwnFact[] {
  if (animal.born === undefined || animal.readings.length === 0) return [];
  const ages = kidAges(herd, animal, animal.born);
  const kid = headKidOf(animal, herd);
  const [early, { breed }] = [ages?.early, kid];
  const known = READ.get(animal);
  if (known?.tables === tables && known.early === early && known.breed === breed) return known.facts;
  const facts = readingFacts(headReadingsOf(animal, ages).filter(hasFinding), kid, tables);
  READ.set(animal, { tables, early, breed, facts });
  return facts;
}

function readingFacts(read: readonly HeadReading[], kid: HeadKid, tables: HeadTables): readonly OwnFact[] {
  if (read.length === 0) return [];
  const of = headReadingLikelihood(read, kid, tables);
  const row = POLLED_GENOTYPES.map((g) => of[g]);
  return [
    {
      fact: read.map((r) => r.reading).join("+"),
      likelihood: { XX: row, XY: row },
      entries: read.map((r) => r.reading as EntryId),
      about: "readings",
      said: undefined,
      leans: of.pp > Math.max(of.PP, of.Pp) ? "horned" : "polled",
    },
  ];
}

function vetFindings(animal: Animal): readonly OwnFact[] {
  return animal.disbuddings.flatMap((d) => {
    if (d.found === undefined) return [];
    const seen = vetFindingLikelihood(d.found);
    return [fromHead(d.entry, "vet-finding", seen, { kind: "vet-finding", finding: bothAlike(d.found) })];
  });
}

function growth(animal: Animal): readonly OwnFact[] {
  return animal.outcomes.flatMap((o) => {
    const ageDays = animal.born === undefined ? GROWN_AGE_UNKNOWN : daysFrom(animal.born, o.on);
    const disbudded = disbuddedBy(animal, o.on);
    const grew = fromHead(o.entry, "growth", outcomeLikelihood({ left: o.left, right: o.right, ageDays, disbudded }), {
      kind: "growth",
      finding: bothAlike(o),
    });
    const scurs = [o.left, o.right].includes("scur")
      ? "seen"
      : [o.left, o.right].includes("unsure")
        ? "unsure"
        : "none";
    const knobs = knobsLikelihood({
      shape: o.knobs ?? "unsure",
      scurs,
      ageDays,
      head: disbudded.left || disbudded.right ? "disbudded" : "natural",
    });
    return [{ ...grew, likelihood: times(grew.likelihood, knobs) }];
  });
}

function grownHead(animal: Animal): readonly OwnFact[] {
  const head = animal.head;
  if (head === undefined || (head.head !== "polled" && head.head !== "horned")) return [];
  return [
    {
      fact: `${head.entry}:head`,
      likelihood: grownHeadLikelihood(head.head),
      entries: [head.entry],
      about: "grown-head",
      said: { kind: "growth", finding: { both: head.head === "horned" ? "horn" : "nothing" } },
      leans: head.head,
    },
  ];
}

function dnaTests(animal: Animal): readonly OwnFact[] {
  return animal.tests.flatMap((test) => {
    if (test.locus !== POLLED.id) return [];
    const read = dnaTestLikelihood(POLLED, test.alleles);
    if (!read.ok) return [];
    return [
      {
        fact: test.entry,
        likelihood: read.value,
        entries: [test.entry],
        about: "dna-test",
        said: { kind: "dna-test", finding: [...test.alleles].sort().join("") },
        leans: test.alleles.includes("P") ? "polled" : "horned",
      },
    ];
  });
}

function intersexLooks(animal: Animal): readonly OwnFact[] {
  const look = lastIntersexLook(animal);
  if (look === undefined) return [];
  const found = { fact: look.entry, entries: [look.entry], about: "trait", said: undefined } as const;
  if (look.value === INTERSEX_TRAIT.ruledOut) return [{ ...found, likelihood: VET_FOUND_DOE, leans: "neither" }];
  if (animal.sex === "intersex") return [];
  return [{ ...found, likelihood: sexLookLikelihood("intersex"), leans: "polled" }];
}

/** A kidding that the keeper tells of is the same fact as one on record: that she has kidded counts once. */
function fertility(animal: Animal, parents: ReadonlyMap<AnimalId, ParentRole>): readonly OwnFact[] {
  const role = parents.get(animal.id);
  const told = saidToHaveKidded(animal).map(({ entry }) => entry);
  const fertile = { about: "fertility", said: undefined, leans: "neither" } as const;
  return [
    ...(role === "dam" || told.length > 0
      ? [{ ...fertile, fact: `young:${animal.id}`, likelihood: FERTILE_DAM, entries: told }]
      : []),
    ...(role === "sire" ? [{ ...fertile, fact: `sired:${animal.id}`, likelihood: FERTILE_SIRE, entries: [] }] : []),
  ];
}

function fromHead(
  entry: EntryId,
  about: OwnFact["about"],
  seen: { readonly horned: number; readonly polled: number },
  said: WeighedFactKind,
): OwnFact {
  const leans = seen.horned === seen.polled ? "neither" : seen.horned > seen.polled ? "horned" : "polled";
  return { fact: entry, likelihood: hornsOrPolled(seen), entries: [entry], about, said, leans };
}

function times(a: Likelihood, b: Likelihood): Likelihood {
  if (b === NO_POLLED_EVIDENCE) return a;
  const row = (sex: "XX" | "XY") => a[sex].map((x, i) => x * (b[sex][i] ?? 1));
  return { XX: row("XX"), XY: row("XY") };
}

const bothAlike = <T extends string>(of: { readonly left: T; readonly right: T }) =>
  of.left === of.right ? { both: of.left } : { left: of.left, right: of.right };
