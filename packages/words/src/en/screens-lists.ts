import type {
  ChipProblem,
  Difference,
  GoatList,
  ListColumn,
  ListProblem,
  ParentChoice,
  PlannedRow,
  RowProblem,
} from "@pollard/records";

const COLUMNS: Readonly<Record<ListColumn, string>> = {
  name: "name",
  tag: "tag",
  chip: "chip number",
  sex: "sex",
  born: "day of birth",
  breed: "breed",
  dam: "dam",
  sire: "sire",
  head: "head",
  kidded: "has kidded",
  note: "note",
  left: "day it left",
  why: "why it left",
  id: "Pollard's own id",
};

const CHIPS: Readonly<Record<ChipProblem, string>> = {
  "not-digits": "A chip number has digits only.",
  "not-15-digits": "A chip number has fifteen digits.",
  "no-such-number": "Its last twelve digits are higher than any chip's.",
  rounded: "The spreadsheet has rounded it. Make the column text and type it anew.",
};

/** What is wrong with a row, and how to mend it. Blames nobody. */
function problem(of: RowProblem): string {
  switch (of.code) {
    case "nameless":
      return "It has no name, tag or chip. Write one of them.";
    case "no-sex":
      return "No sex stands there. Write doe, buck or wether.";
    case "not-a-sex":
      return `"${of.got}" is no sex known here. Write doe, buck or wether.`;
    case "not-a-head":
      return `"${of.got}" is no head known here. Write polled, horned or disbudded.`;
    case "head-open":
      return `"${of.got}" leaves it open. Write polled, horned or disbudded.`;
    case "not-kidded":
      return `"${of.got}" is neither yes nor no. Write yes, or how many times she kidded.`;
    case "kidded-no-doe":
      return "It has kidded, and is no doe. Put one of the two right.";
    case "kidded-too-young":
      return "She is too young to have kidded. Put one of the two right.";
    case "not-a-why":
      return `"${of.got}" is no reason known here. Write sold, died, slaughtered, lent or other.`;
    case "too-long":
      return `The ${COLUMNS[of.column]} is too long: "${of.got}".`;
    case "number-rounded":
      return `The spreadsheet has rounded "${of.got}". Make the column text and type it anew.`;
    case "not-a-day":
      return `"${of.got}" is no day. Write it as 2024-03-25.`;
    case "day-either":
      return `"${of.got}" may be two days. Say above which number is the day.`;
    case "day-is-a-number":
      return `"${of.got}" is a spreadsheet's inner number. Show the column as a date.`;
    case "day-is-a-year":
      return `"${of.got}" is only a year. Leave the cell empty, or read the column as a note.`;
    case "day-not-set":
      return `"${of.got}" is a spreadsheet's word for no day. Leave the cell empty.`;
    case "day-to-come":
      return `"${of.got}" is still to come.`;
    case "left-without-day":
      return "It left, but the day is missing. Add the day.";
    case "left-before-born":
      return "It left before it was born. Put one day right.";
    case "own-parent":
      return "It is named as its own parent.";
    case "more-cells":
      return "It has more cells than headings. A comma may stand in a cell without quotes.";
    case "not-a-chip":
      return `"${of.got}": ${CHIPS[of.why]}`;
    case "several-goats":
      return `"${of.got}" may be several goats. Add a tag or a day of birth.`;
    case "tag-of-another":
      return `Tag ${of.got} is worn by ${of.name} here. Put one of them right.`;
    case "not-a-parent":
      return `"${of.got}" cannot be the ${of.column}. Look at its sex.`;
    case "parent-younger":
      return `"${of.got}" is not older than this goat. Correct a day or the ${of.column}.`;
    case "parent-loop":
      return `"${of.got}" also comes from this goat. Correct the ${of.column} of one of the two.`;
    case "twice":
      return `Line ${of.first} has the same goat or tag, and says otherwise.`;
  }
}

/** Why a file is no list of goats. */
function refusal(of: ListProblem): string {
  switch (of.code) {
    case "empty":
      return "This file is empty. Nothing was changed.";
    case "spreadsheet":
      return "This is a spreadsheet's own file. Save it there as CSV and bring that.";
    case "not-text":
      return "This file is no table. Nothing was changed.";
    case "too-large":
      return "This list is too long. Bring it in parts of 20,000 rows.";
    case "no-rows":
      return "There is no row below the headings.";
    case "no-columns":
      return "There is only one column. The first line must hold the headings.";
    case "quotes":
      return `A quotation mark does not close in line ${of.line}. Nothing was changed.`;
  }
}

/** One difference between list and herd. Parents are said by what they are called, not by their ids. */
function difference(of: Difference, called: (id: string) => string): string {
  const isParent = of.of === "dam" || of.of === "sire";
  const say = (value: string): string => (isParent ? called(value) : value);
  const column = COLUMNS[of.of];
  if (of.of === "note") return `New note: "${of.listed}"`;
  if (of.sort === "by-hand")
    return `${column}: ${of.here === undefined ? "none" : say(of.here)} by its birth, ${say(of.listed)} in the list. Only by hand.`;
  return of.here === undefined
    ? `${column}: ${say(of.listed)}`
    : `${column}: ${say(of.here)} becomes ${say(of.listed)}`;
}

const goats = (n: number): string => (n === 1 ? "1 goat" : `${n} goats`);

/** Words of bringing in a list from a spreadsheet, and of handing out tables. */
export const listWords = {
  title: "Bring in a list",
  intro: "A list from a spreadsheet, saved as CSV. The first line holds the headings.",
  nothingYet: "Nothing is entered until you say so.",
  file: "Choose the list",
  otherFile: "Choose another list",
  reading: "Reading the list …",
  read: (rows: number) => (rows === 1 ? "1 row was read." : `${rows} rows were read.`),
  encoding: {
    "utf-8": "",
    "utf-16": "",
    "windows-1252": "Its letters were taken for those of Windows. Look at names with accents.",
  } satisfies Record<GoatList["encoding"], string>,
  refusal,
  whatIsWhat: "What do the columns hold?",
  leaveOut: "Leave it out",
  such: (cells: string) => `such as ${cells}`,
  column: COLUMNS,
  which: "Which number is the day?",
  whichWhy: (n: number) => `${n === 1 ? "1 day" : `${n} days`} could be read two ways.`,
  orders: { "day-month": "The first: 3/4 is 3 April", "month-day": "The second: 3/4 is 4 March" },
  proven: "Other days of the list show it.",
  otherwise: "Some rows have no sex. What are those goats?",
  otherwiseAnswers: { doe: "All does", buck: "All bucks", none: "Leave them out" },
  parents: (n: number) =>
    n === 1 ? "1 parent is in neither list nor herd." : `${n} parents are in neither list nor herd.`,
  parentAnswers: {
    gone: "Keep them by name, as gone",
    here: "Keep them by name, as here",
    "leave-out": "Leave the parent unknown",
  } satisfies Record<ParentChoice, string>,
  becomes: "What each row becomes",
  groups: {
    nothing: (n: number) => `Cannot come in: ${n}`,
    new: (n: number) => `New: ${n}`,
    change: (n: number) => `Here, but the list says otherwise: ${n}`,
    same: (n: number) => `Here already: ${n}`,
    repeat: (n: number) => `Said twice in the list: ${n}`,
  } satisfies Record<PlannedRow["becomes"], (n: number) => string>,
  groupHints: {
    nothing: "Mend them in the spreadsheet and bring it in again. Nothing comes in twice.",
    change: "Nothing is overwritten. Tick what shall be entered.",
  },
  line: (line: number, called: string) => (called === "" ? `Line ${line}` : `Line ${line}, ${called}`),
  repeats: (first: number) => `the same as line ${first}`,
  lacks: (role: "dam" | "sire") => `The ${role} follows when that row is mended.`,
  problem,
  difference,
  tickAll: "Tick them all",
  tickNone: "Tick none",
  more: (n: number) => `and ${n} more`,
  bringIn: (fresh: number, changed: number) => {
    if (fresh === 0) return `Change ${goats(changed)}`;
    return changed === 0 ? `Bring in ${goats(fresh)}` : `Bring in ${goats(fresh)}, change ${changed}`;
  },
  nothing: "There is nothing to bring in.",
  leftBehind: (n: number) =>
    n === 1 ? "1 row cannot come in. Its reason stands above." : `${n} rows cannot come in. Their reasons stand above.`,
  nobodyCalled: "No column is known to hold names or tags. Say below which does.",
  done: (n: number) => `${goats(n)} came in from the list.`,
  toAnimals: "See the goats",
  // Handing out
  tables: "Tables for spreadsheets",
  tablesIntro: "Everything on record as CSV tables, packed in one file. The whole ledger goes along.",
  tablesHow: "Open tags and chip numbers as text, or the spreadsheet drops zeros.",
  guard: "Cells that begin with = + - or @",
  guardAnswers: { "as-is": "Leave them as they are", guard: "Put an apostrophe in front" },
  guardWhy: "A spreadsheet may run such a cell. The apostrophe stops it, and changes the cell.",
  makeTables: "Make the tables",
  tablesMade: (name: string, tables: number) => `${name} holds ${tables} tables.`,
  chip: "Chip number",
  chipHint: "Fifteen digits. A reader that types can be used.",
  chipWrong: CHIPS,
} as const;
