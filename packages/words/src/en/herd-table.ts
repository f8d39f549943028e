/** Words of the desk's tables: the herd's, and that of everything entered. */
export const herdTableWords = {
  ways: { up: "up", down: "down" },
  sortHint: "Press a heading to sort.",
  filter: "Name or tag contains",
  year: "Born in",
  anyYear: "Any year",
  columns: {
    name: "Name",
    tag: "Tag",
    sex: "Sex",
    born: "Born",
    dam: "Dam",
    sire: "Sire",
    head: "Head",
    genes: "Polled genes",
    chance: "Polled",
    inbreeding: "Inbreeding, 0 to 1",
    weight: "Weight",
    kids: "Kids",
    status: "To do",
  },
  weightIn: { kg: "Weight, kg", lb: "Weight, lb" },
  genes: { PP: "PP", Pp: "Pp", pp: "pp" },
  surety: { proven: "proven", "near-sure": "as good as sure", likely: "most likely", open: "not known" },
  oneOf: (names: string) => `One of ${names}`,
  where: { here: "", gone: "Left", dead: "Dead", "born-dead": "Born dead" },
  choose: "Which columns?",
  caption: (shown: number, all: number) => `${shown} of ${all} goats. Press a heading to sort.`,
} as const;

/** Words of the list of everything entered. */
export const entriesWords = {
  title: "Everything entered",
  link: "Everything entered",
  hint: "Who entered what, newest first. Each line can be undone.",
  kind: "What",
  anyKind: "Everything",
  person: "By whom",
  anyPerson: "Anybody",
  goat: "Goat's name or tag contains",
  count: (shown: number, all: number) => `${shown} of ${all} entries.`,
  undoings: (n: number) =>
    n === 1 ? "1 more undoes or puts back one of these." : `${n} more undo or put back one of these.`,
  none: "No entry fits.",
  more: "Show more",
  herd: "The herd",
} as const;
