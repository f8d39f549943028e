import type { AnimalLine, Counted, HerdBookLine } from "@pollard/advice";
import { recounted } from "@pollard/advice";
import { findGoats } from "../../parts/answers/find-goats.ts";
import { siresShown } from "../animal/model.ts";

export const COLUMNS = [
  "name",
  "tag",
  "sex",
  "born",
  "dam",
  "sire",
  "head",
  "genes",
  "chance",
  "inbreeding",
  "weight",
  "kids",
  "status",
] as const;
export type Column = (typeof COLUMNS)[number];

/** Columns of figures, which stand right-aligned. */
export const NUMBERS: ReadonlySet<Column> = new Set(["chance", "inbreeding", "weight", "kids"]);

/** One denominator for the whole page. */
const OF = 20;

/** One goat in the table: its line of the list, and what the herd book adds once it is there. */
export interface TableRow {
  readonly goat: AnimalLine;
  readonly book: HerdBookLine | undefined;
}

export const rowsOf = (
  goats: readonly AnimalLine[],
  book: readonly HerdBookLine[] | undefined,
): readonly TableRow[] => {
  const byId = new Map((book ?? []).map((line) => [line.ref.id, line]));
  return goats.map((goat) => ({ goat, book: byId.get(goat.ref.id) }));
};

/** How likely it is polled, counted out; proven chances stay proven. Nothing while its head is open. */
export function polledOf({ book }: TableRow): Counted | undefined {
  const genotype = book?.genotype;
  return genotype && recounted(genotype.polled, genotype.belief.PP + genotype.belief.Pp, OF);
}

/** The genotype that is likeliest. */
export function genesOf({ book }: TableRow): "PP" | "Pp" | "pp" | undefined {
  const belief = book?.genotype?.belief;
  return belief && (["PP", "Pp", "pp"] as const).toSorted((a, b) => belief[b] - belief[a])[0];
}

/** The sires to name, and whether it is one of them only. */
export const siresOf = ({ book }: TableRow): readonly string[] =>
  siresShown(book?.sires ?? []).flatMap(({ sire }) => (sire === undefined ? [] : [sire.name ?? sire.tag ?? ""]));

const URGENCIES = ["now", "soon", "planned"] as const;

/** What a row is sorted by in a column; words where words are read, sizes where sizes are. */
export function valueOf(row: TableRow, column: Column): string | number | undefined {
  const { goat, book } = row;
  switch (column) {
    case "name":
      return goat.ref.name ?? goat.ref.tag ?? goat.ref.damName;
    case "tag":
      return goat.ref.tag;
    case "sex":
      return goat.ref.sex;
    case "born":
      return goat.born;
    case "dam":
      return book?.dam?.name ?? book?.dam?.tag;
    case "sire":
      return siresOf(row)[0];
    case "head":
      return goat.head === "unknown" ? undefined : goat.head;
    case "genes":
      return genesOf(row);
    case "chance":
      return book?.genotype && book.genotype.belief.PP + book.genotype.belief.Pp;
    case "inbreeding":
      return book?.inbreeding;
    case "weight":
      return book?.weight?.kg;
    case "kids":
      return book?.kids;
    case "status":
      return goat.urgency === undefined ? undefined : URGENCIES.indexOf(goat.urgency);
  }
}

/** What is looked for at the desk: part of a name or a tag, and the year of birth. */
export interface Sought {
  readonly text: string;
  readonly year: string;
}

/** The goats that fit, in the order given. */
export function soughtGoats(goats: readonly AnimalLine[], { text, year }: Sought): readonly AnimalLine[] {
  const fitting = new Set(findGoats(goats, "any", text));
  return goats.filter((goat) => fitting.has(goat) && (year === "" || goat.born?.slice(0, 4) === year));
}

/** The years in which any of them was born, the latest first. */
export const yearsOf = (goats: readonly AnimalLine[]): readonly string[] =>
  [...new Set(goats.flatMap(({ born }) => (born === undefined ? [] : [born.slice(0, 4)])))].sort().reverse();
