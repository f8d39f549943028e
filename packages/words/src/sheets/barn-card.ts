import type { BarnCardModel, SheetBlock, SheetDocument } from "@pollard/advice";
import { type SheetContext, sheetOf, type SheetWords } from "./sheet.ts";

/** Rows for kids, those of the does due among them; never fewer than these are empty. */
const KID_ROWS = 8;
const EMPTY_ROWS = 2;
/** Rows for heads that fit below the kiddings. */
const HEAD_ROWS = 4;

/** Every answer of a sign, to be ticked. */
const boxes = (answers: Readonly<Record<string, string>>): string =>
  Object.values(answers)
    .map((answer) => `□ ${answer}`)
    .join("\n");

function bornTable({ due }: BarnCardModel, { said, barnCard }: SheetWords, { units }: SheetContext): SheetBlock {
  const titles = barnCard.born;
  return {
    kind: "table",
    tall: "writing",
    columns: [
      { title: titles.dam, mm: 36 },
      { title: titles.day, mm: 20 },
      { title: titles.sex, mm: 22 },
      { title: titles.alive, mm: 15 },
      { title: titles.tag, mm: 24 },
      { title: units, mm: 13 },
      { title: titles.navel, mm: 13 },
      { title: titles.firstMilk, mm: 19 },
      { title: titles.remarks },
    ],
    rows: due.map(({ doe, from, to }) => [
      `${said.animal(doe)}\n${barnCard.dueSpan(said.shortDay(from), said.shortDay(to))}`,
    ]),
    empty: Math.max(EMPTY_ROWS, KID_ROWS - due.length),
  };
}

function headTable({ heads }: BarnCardModel, { said, barnCard }: SheetWords): SheetBlock {
  const { feel, skin, whorls, crown } = said.signs;
  const titles = barnCard.heads;
  const answers = [feel, skin, whorls, crown].map((sign) => boxes(sign.answers));
  return {
    kind: "table",
    tall: "print",
    columns: [
      { title: titles.kid, mm: 26 },
      { title: titles.day, mm: 13 },
      { title: feel.name, mm: 34 },
      { title: skin.name, mm: 33 },
      { title: whorls.name, mm: 30 },
      { title: crown.name, mm: 34 },
      { title: titles.by },
    ],
    rows: Array.from({ length: HEAD_ROWS }, (_, i) => {
      const kid = heads[i];
      return [kid === undefined ? "" : said.animal(kid), "", ...answers, ""];
    }),
  };
}

/** The blank card for the barn. */
export function barnCardSheet(model: BarnCardModel, words: SheetWords, context: SheetContext): SheetDocument {
  const { barnCard } = words;
  return sheetOf(words, context, {
    title: barnCard.title,
    blocks: [
      { kind: "text", text: barnCard.writeHere, weight: "plain" },
      bornTable(model, words, context),
      { kind: "heading", text: barnCard.headsTitle },
      { kind: "text", text: barnCard.tick, weight: "plain" },
      headTable(model, words),
      { kind: "lines", label: barnCard.notes, count: 1 },
    ],
  });
}
