import { err, ok, type Result } from "@pollard/base";
import {
  barnCard,
  herdNameOf,
  kidPaper,
  reviewModel,
  sheetHtml,
  type SheetDocument,
  type Situation,
  vetList,
  visitorsModel,
} from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { dayOf } from "../arguments.ts";
import { HERD_OPTIONS, OUT_OPTION, type Arguments, type Command } from "../command.ts";
import { give } from "../giving.ts";
import { answered, openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { reviewSheet, sheets, units } from "../spoken.ts";

const KINDS = Object.keys(sheets.kinds).join(", ");

/** A sheet to print: the vet's list, a card for the barn, a goat's paper, the gate, the season's review. */
export const sheet: Command = {
  name: "sheet",
  takes: ["KIND", "HERD"],
  about: `a sheet to print from a browser: ${KINDS}`,
  options: [
    ...HERD_OPTIONS.filter(({ name }) => name !== "json"),
    { name: "animal", value: "ID", about: "kid: which goat" },
    { name: "day", value: "YYYY-MM-DD", about: "vet: which visit, instead of the next one" },
    { name: "printed", value: "YYYY-MM-DD", about: "vet: day of the list printed before; who came since is marked" },
    { name: "year", value: "YYYY", about: "season: the latest of that year, instead of the latest of all" },
    { name: "notes", about: "kid: shows the notes, which are private otherwise" },
    { name: "paper", value: "a4|letter", about: "size of the paper; a4 unless said" },
    OUT_OPTION,
  ],
  async run(args, world) {
    const [kind, ...rest] = args.words;
    if (kind === undefined || !(kind in sheets.kinds)) return wrong(`Which sheet? One of: ${KINDS}.`);
    const paper = args.value("paper") ?? "a4";
    if (paper !== "a4" && paper !== "letter") return wrong("--paper is a4 or letter.");
    const opened = await openHerd({ ...args, words: rest }, world);
    if (!opened.ok) return err(opened.error);
    const { situation } = opened.value;
    const made = documentOf(kind as keyof typeof sheets.kinds, situation, args, paper === "a4" ? "A4" : "Letter");
    if (!made.ok) return made;
    const given = await give(sheetHtml(made.value), args, world);
    return given.ok ? ok(answered(opened.value, world)) : given;
  },
};

function documentOf(
  kind: keyof typeof sheets.kinds,
  situation: Situation,
  args: Arguments,
  paper: SheetDocument["paper"],
): Result<SheetDocument, Stop> {
  const { herd, today } = situation;
  const context = { herdName: herdNameOf(herd), today, paper, units };
  switch (kind) {
    case "gate":
      return ok(sheets.gate(visitorsModel(situation), context));
    case "barn":
      return ok(sheets.barnCard(barnCard(situation), context));
    case "vet": {
      const next = herd.vetDays.find((v) => v.on >= today)?.on;
      const day = dayOf(args, "day", next ?? today);
      if (!day.ok) return day;
      if (args.value("printed") === undefined) return ok(sheets.vetList(vetList(situation, day.value), context));
      const printed = dayOf(args, "printed", today);
      return printed.ok ? ok(sheets.vetList(vetList(situation, day.value), context, printed.value)) : printed;
    }
    case "season": {
      const year = args.value("year");
      if (year !== undefined && !/^(19|20|21)\d\d$/.test(year)) return wrong(`"${year}" is not a year.`);
      return ok(reviewSheet(reviewModel(situation, year === undefined ? undefined : Number(year)), context));
    }
    case "kid": {
      const id = args.value("animal");
      if (id === undefined) return wrong("Which goat? Write --animal ID; `pollard export --as csv` lists the ids.");
      const model = kidPaper(situation, animalId(id), args.has("notes") ? { notes: "show" } : {});
      return model === undefined
        ? wrong(`There is no goat "${id}"; \`pollard export --as csv\` lists the ids.`)
        : ok(sheets.kid(model, context));
    }
  }
}
