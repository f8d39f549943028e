import type { SheetColumn, SheetDocument, VetListLine, VetListModel } from "@pollard/advice";
import type { Day, WeightUnit } from "@pollard/base";
import { type SheetContext, sheetOf, type SheetWords } from "./sheet.ts";

/** In what a weight was read off, to be ticked: a figure without its unit could hurt. */
const UNIT_BOXES = "□\u00a0kg\n□\u00a0lb";

/** Rows for kids that join on the day. */
const ADDED_ROWS = 2;

/** Name, sex and dam; tag or mark below. */
function kidSaid({ kid, dam }: VetListLine, { said, sex, vetList }: SheetWords): string {
  const below = [kid.name === undefined ? undefined : kid.tag, kid.mark].filter((part) => part !== undefined);
  const isNamed = dam !== undefined && kid.damName !== undefined && kid.name !== undefined;
  const of = isNamed ? `, ${vetList.ofDam(said.animal(dam))}` : "";
  const first = `${said.animal(kid)}, ${sex[kid.sex]}${of}`;
  return below.length === 0 ? first : `${first}\n${below.join(", ")}`;
}

function ageSaid({ born, ageOnDay, daysFromDueOnDay: due }: VetListLine, { said, vetList }: SheetWords): string {
  const fromDue = (days: number) => (days < 0 ? vetList.dueIn(said.days(-days)) : vetList.fromDue(said.days(days)));
  const early = due === undefined || due === ageOnDay ? "" : `\n${fromDue(due)}`;
  return `${said.days(ageOnDay)}\n${vetList.born(said.shortDay(born))}${early}`;
}

function weightSaid({ weight, expectedKg, growth }: VetListLine, words: SheetWords, units: WeightUnit): string {
  const { said, guessed, vetList } = words;
  if (weight === undefined) return vetList.neverWeighed;
  const { forVet } = said.weights(units);
  const how = weight.how === "guessed" ? ` ${guessed}` : "";
  const losing = growth === "losing" || growth === "slow" ? `\n${said.care.growth(growth)}` : "";
  const expected = expectedKg === undefined ? "" : `\n${vetList.onTheDay(forVet.between(expectedKg))}`;
  return `${forVet.said(weight.kg)}${how} (${said.shortDay(weight.on)})${expected}${losing}`;
}

function headSaid({ belief, end }: VetListLine, { said, growHorns, vetList }: SheetWords): string {
  const until = `\n${vetList.windowEnds(said.shortDay(end))}`;
  if (belief === undefined) return `${vetList.notRead}${until}`;
  const by = belief.readers.length === 0 ? "" : `\n${vetList.readBy(belief.readers.join(", "))}`;
  return `${growHorns(said.counted(belief.counted))}${by}${until}`;
}

function coverSaid({ tetanus, colostrum }: VetListLine, { said, vetList }: SheetWords): string {
  const { damBooster } = tetanus;
  const dam = vetList.damCover(damBooster === undefined ? vetList.notOnRecord : said.shortDay(damBooster));
  const kid = tetanus.kid === undefined ? "" : `\n${vetList.kidCover(said.shortDay(tetanus.kid))}`;
  return `${dam}${kid}\n${vetList.colostrum(colostrum === "given" ? vetList.given : vetList.notOnRecord)}`;
}

/**
 * The vet's list of a day, to be taken to the pen and filled in there.
 *
 * `printedOn`: the day of a list printed before; who came since is marked as new.
 */
export function vetListSheet(
  model: VetListModel,
  words: SheetWords,
  context: SheetContext & { readonly printedOn: Day | undefined },
): SheetDocument {
  const { said, vetList } = words;
  const { printedOn, units } = context;
  const { left, right, not } = vetList.doneBoxes;
  const doneBoxes = `□\u00a0${left} □\u00a0${right}\n□\u00a0${not}`;
  const weighedThen = units === "kg" ? "" : UNIT_BOXES;
  const row = (line: VetListLine): readonly string[] => [
    `${printedOn !== undefined && line.since > printedOn ? `${vetList.new} ` : ""}${kidSaid(line, words)}`,
    ageSaid(line, words),
    weightSaid(line, words, units),
    headSaid(line, words),
    coverSaid(line, words),
    line.notes.join("\n"),
    weighedThen,
    doneBoxes,
  ];
  const { columns: titles } = vetList;
  const columns: readonly SheetColumn[] = [
    { title: titles.kid, mm: 50 },
    { title: titles.age, mm: 22 },
    { title: titles.weight, mm: 42 },
    { title: titles.head, mm: 42 },
    { title: titles.cover, mm: 36 },
    { title: titles.remarks },
    units === "kg" ? { title: titles.kgThen, mm: 15 } : { title: titles.weightThen, mm: 20 },
    { title: titles.done, mm: 26 },
  ];
  const empty = [...columns.slice(2).map(() => ""), weighedThen, doneBoxes];
  const added = Array.from({ length: ADDED_ROWS }, () => empty);
  const looks = model.lookFirst.map(
    ({ kid, why }) => `${said.animal(kid)}: ${vetList.lookWhy[why === "unread" ? why : "undecided"]}`,
  );
  return sheetOf(words, context, {
    title: vetList.title(model.day),
    turned: "sideways",
    print: "close",
    blocks: [
      ...(model.vet === undefined ? [] : [{ kind: "text", text: model.vet, weight: "strong" } as const]),
      ...(model.list.length === 0 ? [{ kind: "text", text: vetList.nobody, weight: "plain" } as const] : []),
      { kind: "table", columns, rows: [...model.list.map(row), ...added], empty: 0, tall: "writing" },
      ...(looks.length === 0
        ? []
        : [
            { kind: "heading", text: vetList.lookFirst } as const,
            { kind: "list", items: looks, mark: "box", columns: 2 } as const,
          ]),
      { kind: "list", items: model.cautions.map((code) => said.cautions[code]), mark: "dot", columns: 2 },
      { kind: "lines", label: vetList.said, count: 2 },
    ],
  });
}
