import { animalRef, herdBreedOf, sireCandidates } from "@pollard/advice";
import { type Day, ok, type Result } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import {
  type ColumnMap,
  csvText,
  type DayOrderSeen,
  type Fact,
  type Formulas,
  type GoatList,
  goatList,
  guessedColumns,
  HERD_ENTRY_SCHEMA,
  type Herd,
  type HerdId,
  herdTables,
  listFacts,
  type ListPlan,
  listPlan,
  type ListProblem,
  type ListWishes,
  type PlannedRow,
} from "@pollard/records";

/** A list as it was read: what stands above its columns, what stands in them, and what they seem to hold. */
export interface ListShown {
  readonly headings: readonly string[];
  /** The first cells of each column that are not empty. */
  readonly samples: readonly (readonly string[])[];
  readonly rows: number;
  readonly encoding: GoatList["encoding"];
  readonly columns: ColumnMap;
}

/** What becomes of the rows of one sort: how many there are, and the first of them. */
export type RowGroups = {
  readonly [K in PlannedRow["becomes"]]: {
    readonly count: number;
    readonly first: readonly (PlannedRow & { readonly becomes: K })[];
  };
};

/** What bringing the list in would do, as much as a screen can show. */
export interface ListPlanShown {
  readonly groups: RowGroups;
  /** Goats that the list would change, those that are not shown too. */
  readonly changeable: readonly AnimalId[];
  readonly parents: number;
  /** Rows that tell no sex. */
  readonly sexless: number;
  readonly days: DayOrderSeen;
  /** What the goats are called that differences name. */
  readonly called: ReadonlyMap<string, string>;
}

/** A file with its name. */
export interface NamedText {
  readonly name: string;
  readonly text: string;
}

/** Lists that come in and tables that go out, away from the page's thread. The list taken last is the one that is asked about. */
export interface ListAnswers {
  takeList(bytes: Uint8Array): Result<ListShown, ListProblem>;
  listPlan(wishes: ListWishes, today: Day): ListPlanShown | undefined;
  listFacts(wishes: ListWishes, agreed: readonly AnimalId[], today: Day): readonly Fact[];
  tables(formulas: Formulas): readonly NamedText[];
}

/** How many rows of each sort a screen is given: enough to see what is meant, few enough for a phone. */
const SHOWN = 200;
const SAMPLES = 3;

export function listAnswers(herd: () => Herd, id: () => HerdId): ListAnswers {
  let list: GoatList | undefined;
  const planOf = (of: GoatList, wishes: ListWishes, today: Day): ListPlan =>
    listPlan(of, wishes, { id: id(), herd: herd(), today });
  return {
    takeList(bytes) {
      const read = goatList(bytes);
      list = read.ok ? read.value : undefined;
      if (!read.ok) return read;
      const { headings, rows, encoding } = read.value;
      const samples = headings.map((_, at) => {
        const cells = new Set<string>();
        for (const { cells: row } of rows) {
          const cell = row[at] ?? "";
          if (cell !== "") cells.add(cell);
          if (cells.size === SAMPLES) break;
        }
        return [...cells];
      });
      return ok({ headings, samples, rows: rows.length, encoding, columns: guessedColumns(headings) });
    },
    listPlan(wishes, today) {
      return list === undefined ? undefined : shownPlan(planOf(list, wishes, today), herd());
    },
    listFacts: (wishes, agreed, today) =>
      list === undefined ? [] : listFacts(planOf(list, wishes, today), new Set(agreed)),
    tables(formulas) {
      const now = herd();
      const breed = herdBreedOf(now);
      const tables = herdTables(now, (animal) => sireCandidates(now, animal, breed).flatMap(({ sire }) => sire ?? []));
      return [
        ...tables.map(({ name, columns, rows }) => ({
          name: `${name}.csv`,
          text: csvText([columns, ...rows], formulas),
        })),
        { name: "herd-entry.schema.json", text: `${JSON.stringify(HERD_ENTRY_SCHEMA, undefined, 2)}\n` },
      ];
    },
  };
}

function shownPlan(plan: ListPlan, herd: Herd): ListPlanShown {
  const group = <K extends PlannedRow["becomes"]>(becomes: K) => {
    const rows = plan.rows.filter((row): row is PlannedRow & { readonly becomes: K } => row.becomes === becomes);
    return { count: rows.length, first: rows.slice(0, SHOWN) };
  };
  const called = new Map<string, string>(plan.parents.map((parent) => [parent.animal, parent.called]));
  for (const row of plan.rows) if ("animal" in row) called.set(row.animal, row.called);
  for (const row of plan.rows)
    for (const { of, here, listed } of row.becomes === "change" ? row.differences : [])
      for (const animal of of === "dam" || of === "sire" ? [here, listed] : [])
        if (animal !== undefined && !called.has(animal)) {
          const ref = animalRef(herd, animal as AnimalId);
          called.set(animal, ref.name ?? ref.tag ?? animal);
        }
  return {
    groups: {
      nothing: group("nothing"),
      new: group("new"),
      change: group("change"),
      same: group("same"),
      repeat: group("repeat"),
    },
    changeable: plan.rows.flatMap((row) => (row.becomes === "change" && row.facts.length > 0 ? [row.animal] : [])),
    parents: plan.parents.length,
    sexless: plan.rows.filter((row) => row.becomes === "nothing" && row.problems.some(({ code }) => code === "no-sex"))
      .length,
    days: plan.days,
    called,
  };
}
