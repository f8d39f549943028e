import type { AnimalId } from "@pollard/genetics";
import type { HeadSigns } from "@pollard/husbandry";
import type { Animal, Herd, Provenance } from "../herd.ts";

/** One table of a herd: what its columns are called, and a row for each thing. Every cell is text. */
export interface HerdTable {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

type Cell = string | number | undefined;

/** What every table of things seen begins with, and ends with. */
const SEEN = ["animal", "on"] as const;
const TOLD = ["by", "entry"] as const;

/** Several ids in one cell, with a stroke between. */
const together = (ids: readonly string[]): string => ids.join("|");

/**
 * The whole herd as tables, for spreadsheets and other programs: what stands, not how it came to.
 *
 * Animals are named by their ids, which the first table explains. Days are `YYYY-MM-DD`; an empty cell is not recorded;
 * several animals in one cell have a stroke between. `siresOf` gives the bucks that may be an animal's sire.
 *
 * Shape: columns keep their names and their order; new ones are added at the end. Told in docs/FORMATS.md.
 */
export function herdTables(herd: Herd, siresOf: (animal: Animal) => readonly AnimalId[]): readonly HerdTable[] {
  const animals = [...herd.animals.values()];

  /** A table of what was seen of single animals, with who saw it. */
  function seen<T extends Provenance>(
    name: string,
    columns: readonly string[],
    of: (animal: Animal) => readonly T[],
    cells: (thing: T) => readonly Cell[],
  ): HerdTable {
    const rows = animals.flatMap((animal) =>
      of(animal).map((thing) => texts([animal.id, thing.on, ...cells(thing), thing.by, thing.entry])),
    );
    return { name, columns: [...SEEN, ...columns, ...TOLD], rows };
  }

  return [
    { name: "animals", columns: ANIMAL_COLUMNS, rows: animals.map((animal) => animalRow(animal, siresOf(animal))) },
    {
      name: "kiddings",
      columns: ["dam", "on", "kids", "born_alive", "born_dead", ...TOLD],
      rows: herd.kiddings.map(({ dam, on, kids, by, entry }) => {
        const dead = kids.filter((kid) => herd.animals.get(kid)?.bornAs === "dead").length;
        return texts([dam, on, together(kids), kids.length - dead, dead, by, entry]);
      }),
    },
    {
      name: "services",
      columns: ["doe", "on", "until", "bucks", "way", ...TOLD],
      rows: herd.services.map(({ doe, on, until, bucks, way, by, entry }) =>
        texts([doe, on, until, together(bucks), way, by, entry]),
      ),
    },
    seen(
      "readings",
      [...SIGNS.flatMap((sign) => [`${sign}_left`, `${sign}_right`]), "crown", "bud_sites"],
      ({ readings }) => readings,
      ({ signs, budSites }) => [...SIGNS.flatMap((sign) => sidesOf(signs[sign])), signs.crown, budSites],
    ),
    seen(
      "outcomes",
      ["left", "right", "knobs"],
      ({ outcomes }) => outcomes,
      ({ left, right, knobs }) => [left, right, knobs],
    ),
    seen(
      "disbuddings",
      ["done", "operator", "technique", "found_left", "found_right"],
      ({ disbuddings }) => disbuddings,
      ({ done, operator, technique, found }) => [done, operator, technique, found?.left, found?.right],
    ),
    seen(
      "tests",
      ["locus", "allele_1", "allele_2", "lab"],
      ({ tests }) => tests,
      ({ locus, alleles, lab }) => [locus, ...alleles, lab],
    ),
    seen(
      "traits",
      ["trait", "value"],
      ({ traits }) => traits,
      ({ trait, value }) => [trait, value],
    ),
    seen(
      "weights",
      ["kg", "how"],
      ({ weights }) => weights,
      ({ kg, how }) => [kg, how],
    ),
    seen(
      "pregnancy_checks",
      ["way", "found", "kids"],
      ({ pregnancyChecks }) => pregnancyChecks,
      ({ way, found, kids }) => [way, found, kids],
    ),
    seen(
      "heats",
      [],
      ({ heats }) => heats,
      () => [],
    ),
    seen(
      "abortions",
      [],
      ({ abortions }) => abortions,
      () => [],
    ),
    seen(
      "care",
      ["task", "answer", "until", "because", "means", "no_milk_until", "no_meat_until"],
      ({ care }) => care,
      (done) => [done.task, done.answer, done.until, done.because, done.means, done.noMilkUntil, done.noMeatUntil],
    ),
    seen(
      "pens",
      ["pen"],
      ({ moves }) => moves,
      ({ pen }) => [pen],
    ),
    seen(
      "choices",
      ["choice", "day"],
      ({ choices }) => choices,
      ({ choice, day }) => [choice, day],
    ),
    seen(
      "notes",
      ["text"],
      ({ notes }) => notes,
      ({ text }) => [text],
    ),
    {
      name: "settings",
      columns: ["key", "value"],
      rows: [...herd.settings].map((setting) => texts(setting)),
    },
  ];
}

const SIGNS = ["feel", "skin", "whorls"] as const;

const ANIMAL_COLUMNS =
  "id name tag chip mark sex born breed dam sire possible_sires head grew_left grew_right left_herd why".split(" ");

/** `sire` only where the record names one; `head` only what was entered of a grown head. */
function animalRow(animal: Animal, possible: readonly AnimalId[]): readonly string[] {
  const grew = animal.outcomes.at(-1);
  const stillborn = animal.bornAs === "dead";
  const { id, name, tag, chip, mark, sex, born, breed, dam, sires, head, departure } = animal;
  const called = [id, name, tag, chip, mark, sex, born, breed];
  const parents = [dam, sires.length === 1 ? sires[0] : undefined, together(possible)];
  const gone = [
    departure?.on ?? (stillborn ? born : undefined),
    departure?.why ?? (stillborn ? "born dead" : undefined),
  ];
  return texts([...called, ...parents, head?.head, grew?.left, grew?.right, ...gone]);
}

const texts = (cells: readonly Cell[]): readonly string[] =>
  cells.map((cell) => (cell === undefined ? "" : String(cell)));

/** A sign on the left and on the right. */
function sidesOf(sign: HeadSigns[(typeof SIGNS)[number]]): readonly [Cell, Cell] {
  if (sign === undefined) return [undefined, undefined];
  return "both" in sign ? [sign.both, sign.both] : [sign.left, sign.right];
}
