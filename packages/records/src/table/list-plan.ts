import { type Day, present } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import type { Fact, Sex } from "../entry/entry-kinds.ts";
import type { Animal, Herd } from "../herd.ts";
import type { HerdId } from "../entry/ids.ts";
import { allThatKidded, canHaveKidded } from "../kidded.ts";
import { type FoundGoat, type KnownGoats, knownGoats } from "./known-goats.ts";
import type { GoatList } from "./list.ts";
import { callKey, type ColumnMap } from "./list-columns.ts";
import { type DayOrder, type DayOrderSeen, dayOrderIn } from "./list-days.ts";
import { changedFacts, type Difference, differencesOf, factsOfNew } from "./list-facts.ts";
import { type ElderGoat, type FoundParents, type ParentChoice, parentFinder, parentLoops } from "./list-parents.ts";
import { type ListedGoat, listedGoat, type RowProblem } from "./list-row.ts";
import { nameMadeOf } from "./made-names.ts";

/** How the keeper wants the list read. */
export interface ListWishes {
  readonly columns: ColumnMap;
  /** Without it, what the list's own days prove; where they prove nothing, days that may be swapped are problems. */
  readonly days?: DayOrder | undefined;
  /** The sex of goats whose row tells none, and whom no row names as dam or sire. */
  readonly otherwise?: "doe" | "buck" | undefined;
  readonly parents: ParentChoice;
}

/** The herd that a list is brought into. Its id is told even where it has no entry yet. */
export interface IntoHerd {
  readonly id: HerdId;
  readonly herd: Herd;
  readonly today: Day;
}

/** What a row of the list becomes. */
export type PlannedRow = { readonly line: number; readonly called: string } & (
  | {
      readonly becomes: "new";
      readonly animal: AnimalId;
      readonly goat: ListedGoat;
      /** Parents that are left out until their own row is mended. */
      readonly lacks: readonly ("dam" | "sire")[];
      readonly facts: readonly Fact[];
    }
  | { readonly becomes: "same"; readonly animal: AnimalId }
  | {
      readonly becomes: "change";
      readonly animal: AnimalId;
      readonly differences: readonly Difference[];
      /** Entered only where the keeper says so; none where all of it stands in the record of a birth. */
      readonly facts: readonly Fact[];
    }
  | { readonly becomes: "repeat"; readonly first: number }
  | { readonly becomes: "nothing"; readonly problems: readonly RowProblem[] }
);

/** What bringing the list in would do; nothing is done yet. */
export interface ListPlan {
  /** In the order of the list. */
  readonly rows: readonly PlannedRow[];
  /** Parents that are known by what the list calls them only. */
  readonly parents: readonly ElderGoat[];
  readonly days: DayOrderSeen;
}

/** A row whose goat is settled, before its parents are. */
interface Settled {
  readonly goat: ListedGoat;
  readonly animal: AnimalId;
  readonly sex: Sex;
  readonly known: Animal | undefined;
}

/**
 * What each row of a list becomes in this herd: a new goat, one that is here already, one of whom the list says something
 * else, or nothing, with the reasons.
 *
 * The same list brought in again plans nothing: a row finds its goat by id, chip, tag or name, and else by the name that
 * was made from the row itself, which is the same on every device. Parents may stand anywhere in the list. What the herd
 * knows is never overwritten: differences are offered.
 *
 * Cost: a pass over the herd and three over the list.
 */
export function listPlan(list: GoatList, wishes: ListWishes, into: IntoHerd): ListPlan {
  const { id, herd, today } = into;
  const days = dayOrderIn(dayCells(list, wishes.columns), today);
  const goats = knownGoats();
  for (const animal of herd.animals.values()) goats.add(asFound(animal));
  const named = { dam: wordsIn(list, wishes.columns, "dam"), sire: wordsIn(list, wishes.columns, "sire") };
  const seen = seenGoats();
  const planned: (PlannedRow | Settled)[] = [];
  const refused = new Set<string>();

  for (const row of list.rows) {
    const called = calledIn(row.cells, wishes.columns);
    const refuse = (problems: readonly RowProblem[]): void => {
      for (const word of called) refused.add(callKey(word));
      planned.push({ line: row.line, called: called[0] ?? "", becomes: "nothing", problems });
    };
    const read = listedGoat(row, list, wishes.columns, wishes.days ?? days.proven, today);
    const meant = read.ok ? animalOf(read.value, goats, id) : read.error;
    if (!read.ok || typeof meant !== "string") {
      refuse(read.ok ? (meant as readonly RowProblem[]) : read.error);
      continue;
    }
    const goat = read.value;
    const known = herd.animals.get(meant);
    const before = seen.before(meant, goat, known === undefined);
    if (before?.same === "same") {
      planned.push({ line: row.line, called: nameOf(goat), becomes: "repeat", first: before.line });
      continue;
    }
    const asParent = sexAsParent(goat, named) ?? (goat.kidded === "yes" ? "doe" : undefined);
    const sex = goat.sex ?? known?.sex ?? asParent ?? wishes.otherwise;
    const [notKidded] = kiddedProblems(goat, goat.born ?? known?.born, sex, today);
    if (before) refuse([{ code: "twice", first: before.line }]);
    else if (sex === undefined) refuse([{ code: "no-sex" }]);
    else if (notKidded) refuse([notKidded]);
    else {
      seen.add(meant, goat);
      planned.push({ goat, animal: meant, sex, known });
    }
  }

  // Only now: a row is looked for in the herd, a parent also in the rest of the list.
  const settled = planned.filter((row): row is Settled => "animal" in row && "known" in row);
  for (const { goat, animal, sex, known } of settled)
    if (!known) goats.add({ ...goat, id: animal, sex, gone: goat.left === undefined ? "here" : "gone" });
  const rowIds = new Map(settled.flatMap(({ goat, animal }) => (goat.id === undefined ? [] : [[goat.id, animal]])));
  const finder = parentFinder({ id, herd, goats, rowIds, refused, choice: wishes.parents, today });
  const found = new Map(settled.map(({ goat, animal }) => [animal, finder.of(goat, animal)]));
  const sound = new Map([...found].filter(([, { problems }]) => problems.length === 0));
  const loops = parentLoops(sound, herd);
  const unsound = new Set(
    settled.flatMap(({ animal, known }) =>
      known === undefined && (loops.has(animal) || !sound.has(animal)) ? [animal] : [],
    ),
  );
  const kidded = allThatKidded(herd);
  const rows = planned.map((row) => {
    if ("becomes" in row) return row;
    const parents = withoutThose(present(found.get(row.animal), "parents"), unsound);
    return plannedRow(row, parents, { today, kidded, loops: loops.get(row.animal) ?? [] });
  });
  return { rows, parents: finder.elders(), days };
}

/** What is entered where the list is brought in: new goats, their parents, and the changes that the keeper said yes to. */
export function listFacts(plan: ListPlan, agreed: ReadonlySet<AnimalId>): readonly Fact[] {
  const taken = plan.rows.flatMap((row) =>
    row.becomes === "new" || (row.becomes === "change" && agreed.has(row.animal)) ? row.facts : [],
  );
  const used = new Set(taken.flatMap((fact) => (fact.kind === "animal" ? [fact.body.dam, fact.body.sire] : [])));
  return [...plan.parents.filter(({ animal }) => used.has(animal)).flatMap(({ facts }) => facts), ...taken];
}

/** Whom of the herd a row means, or the name made of it for somebody new; or why that cannot be said. */
function animalOf(goat: ListedGoat, goats: KnownGoats, herd: HerdId): AnimalId | readonly RowProblem[] {
  const made = animalId(nameMadeOf(JSON.stringify([herd, goat.id, goat.chip, goat.tag, goat.name, goat.born])));
  if (goats.get(made)) return made;
  const found = goats.match(goat);
  switch (found.match) {
    case "one":
      return found.goat.id;
    case "none":
      return nameOf(goat) === "" ? [{ code: "nameless" }] : made;
    case "several":
      return [{ code: "several-goats", column: found.by, got: goat[found.by] ?? "" }];
    case "other":
      return [{ code: "tag-of-another", got: goat.tag ?? "", name: found.goat.name ?? found.goat.chip ?? "?" }];
  }
}

/** The rows so far, by the goats they mean and by the tags and chips that these wear. */
function seenGoats() {
  const byAnimal = new Map<AnimalId, ListedGoat>();
  const worn = new Map<string, ListedGoat>();
  const marks = ({ tag, chip, left }: ListedGoat): readonly string[] => [
    ...(chip === undefined ? [] : [`chip ${chip}`]),
    ...(tag === undefined || left !== undefined ? [] : [`tag ${callKey(tag)}`]),
  ];
  return {
    /** The row that this one repeats, or, of a goat that the herd does not know, the one that wears its tag or chip. */
    before(animal: AnimalId, goat: ListedGoat, isNew: boolean) {
      const wearers = isNew ? marks(goat).map((mark) => worn.get(mark)) : [];
      const first = byAnimal.get(animal) ?? wearers.find((row) => row !== undefined);
      if (first === undefined) return undefined;
      const same = JSON.stringify({ ...first, line: 0 }) === JSON.stringify({ ...goat, line: 0 });
      return { line: first.line, same: same ? ("same" as const) : ("other" as const) };
    },
    add(animal: AnimalId, goat: ListedGoat): void {
      byAnimal.set(animal, goat);
      for (const mark of marks(goat)) worn.set(mark, goat);
    },
  };
}

function plannedRow(
  { goat, animal, sex, known }: Settled,
  parents: FoundParents,
  {
    today,
    kidded,
    loops,
  }: {
    readonly today: Day;
    readonly kidded: ReadonlySet<AnimalId>;
    readonly loops: readonly ("dam" | "sire")[];
  },
): PlannedRow {
  const row = { line: goat.line, called: nameOf(goat) };
  const { lacks } = parents;
  const looped = loops.map((column): RowProblem => ({ code: "parent-loop", column, got: goat[column] ?? "" }));
  const problems = [...parents.problems, ...looped];
  if (problems.length > 0) return { ...row, becomes: "nothing", problems };
  if (known === undefined)
    return { ...row, becomes: "new", animal, goat, lacks, facts: factsOfNew(animal, goat, sex, parents, today) };
  const differences = differencesOf(known, goat, parents, kidded);
  if (differences.length === 0) return { ...row, becomes: "same", animal };
  const facts = changedFacts(known, goat, differences, parents, today);
  return { ...row, becomes: "change", animal, differences, facts };
}

/** What is wrong with saying that she has kidded: it is no doe, or too young for it. */
function kiddedProblems(
  { kidded, left }: ListedGoat,
  born: Day | undefined,
  sex: Sex | undefined,
  today: Day,
): readonly RowProblem[] {
  if (kidded !== "yes") return [];
  if (sex !== undefined && sex !== "doe") return [{ code: "kidded-no-doe" }];
  return canHaveKidded(born, left?.on ?? today) ? [] : [{ code: "kidded-too-young" }];
}

/** A row's parents but for those whose own row is not brought in: these are lacking until it is mended. */
function withoutThose(parents: FoundParents, refused: ReadonlySet<AnimalId>): FoundParents {
  const isRefused = (parent: AnimalId | undefined): boolean => parent !== undefined && refused.has(parent);
  const lacks = (["dam", "sire"] as const).filter((role) => isRefused(parents[role]));
  return {
    ...parents,
    dam: isRefused(parents.dam) ? undefined : parents.dam,
    sire: isRefused(parents.sire) ? undefined : parents.sire,
    lacks: [...parents.lacks, ...lacks],
  };
}

const asFound = ({ id, name, tag, chip, born, sex, departure, bornAs }: Animal): FoundGoat => ({
  id,
  name,
  tag,
  chip,
  born,
  sex,
  gone: departure === undefined && bornAs !== "dead" ? "here" : "gone",
});

const nameOf = ({ name, tag, chip }: ListedGoat): string => name ?? tag ?? chip ?? "";

/** What a row calls its goat, whatever else is wrong with it. */
const calledIn = (cells: readonly string[], columns: ColumnMap): readonly string[] =>
  (["name", "tag", "chip"] as const).flatMap((column) => {
    const cell = columns.includes(column) ? (cells[columns.indexOf(column)] ?? "") : "";
    return cell === "" ? [] : [cell];
  });

const dayCells = (list: GoatList, columns: ColumnMap): readonly string[] =>
  (["born", "left"] as const).flatMap((column) => {
    const at = columns.indexOf(column);
    return at < 0 ? [] : list.rows.flatMap(({ cells }) => cells[at] ?? []);
  });

/** Everything that the list names as a dam, or as a sire. */
function wordsIn(list: GoatList, columns: ColumnMap, role: "dam" | "sire"): ReadonlySet<string> {
  const at = columns.indexOf(role);
  return new Set(at < 0 ? [] : list.rows.map(({ cells }) => callKey(cells[at] ?? "")));
}

/** A goat that other rows call dam is a doe, one that they call sire a buck; both at once says nothing. */
function sexAsParent(
  goat: ListedGoat,
  named: Readonly<Record<"dam" | "sire", ReadonlySet<string>>>,
): "doe" | "buck" | undefined {
  const words = [goat.id, goat.chip, goat.tag, goat.name].flatMap((word) => (word === undefined ? [] : callKey(word)));
  const [dam, sire] = [words.some((word) => named.dam.has(word)), words.some((word) => named.sire.has(word))];
  return dam === sire ? undefined : dam ? "doe" : "buck";
}
