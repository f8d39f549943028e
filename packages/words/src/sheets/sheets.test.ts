import {
  barnCard,
  kidPaper,
  reviewModel,
  type SheetBlock,
  type SheetDocument,
  vetList,
  type VisitorsModel,
  visitorsModel,
} from "@pollard/advice";
import {
  choice,
  goat,
  HORNED_SIGNS,
  id,
  kidding,
  outcome,
  reading,
  ROOK_AND_ASH,
  service,
  situation,
} from "@pollard/advice/testing";
import { day, present, WEIGHT_UNITS } from "@pollard/base";
import { describe, expect, test } from "vitest";
import type { Catalogue } from "../catalogue.ts";
import { sheets } from "../en/sheets.ts";
import { sheetWords as english } from "../en/sheet-words.ts";
import { spanishCatalogue } from "../es/catalogue.ts";
import { englishCatalogue } from "../en/catalogue.ts";
import { sheetWords as spanish } from "../es/sheet-words.ts";
import { expectPlain, textsIn } from "../testing.ts";

const context = { herdName: "Sallowbank", today: day("2026-03-18"), paper: "A4", units: "kg" } as const;

/** A doe still to kid, and two kids: one with horns by its head and chosen for the vet, one that stayed hornless. */
const season = [
  ...ROOK_AND_ASH,
  goat("Sedge", "doe"),
  service("Sedge", ["Rook"], "2025-10-25"),
  kidding("Ash", "2026-03-09", { Moss: "doe", Fern: "buck" }, ["Rook"]),
  reading("Moss", "2026-03-13", HORNED_SIGNS),
  choice("Moss", "2026-03-14", "vet-list", "2026-03-20"),
];
const now = situation(season, context.today);
const over = situation([...season, outcome("Fern", "2026-06-20", "nothing")], "2026-08-01");

/** Every sheet of that season in one language. */
const printed = (catalogue: Catalogue, units: (typeof WEIGHT_UNITS)[number]): readonly SheetDocument[] => {
  const on = { ...context, units };
  return [
    catalogue.sheets.vetList(vetList(now, day("2026-03-20")), on, day("2026-03-12")),
    catalogue.sheets.gate(visitorsModel(now), on),
    catalogue.sheets.barnCard(barnCard(now), on),
    catalogue.sheets.kid(present(kidPaper(over, id("Fern")), "Fern"), on),
    catalogue.reviewSheet(reviewModel(over), { ...on, today: over.today }),
    catalogue.reviewSheet(reviewModel(situation(ROOK_AND_ASH, context.today)), on),
  ];
};

/** A text by its lines: what stays of it when its words are taken away. */
const bare = (text: string): string => (text === "" ? "" : text.replace(/[^\n]+/g, "-"));

/** A sheet with every word taken away. */
function layoutOf({ blocks, paper, turned, print }: SheetDocument) {
  const layout = (block: SheetBlock) => {
    switch (block.kind) {
      case "heading":
        return { kind: block.kind };
      case "text":
        return { ...block, text: bare(block.text) };
      case "warning":
        return { ...block, lines: block.lines.map(bare) };
      case "facts":
        return { ...block, rows: block.rows.map((row) => row.map(bare)) };
      case "table":
        return {
          ...block,
          columns: block.columns.map((column) => ({ ...column, title: bare(column.title) })),
          rows: block.rows.map((row) => row.map(bare)),
        };
      case "list":
        return { ...block, items: block.items.map(bare) };
      case "lines":
        return { ...block, label: bare(block.label) };
    }
  };
  return { paper, turned, print, blocks: blocks.map(layout) };
}

describe("sheets in words", () => {
  test.each(WEIGHT_UNITS)("[WO-67] a sheet has the same layout in every language, in %s", (units) => {
    const [en, es] = [printed(englishCatalogue, units), printed(spanishCatalogue, units)];
    expect(es.map(layoutOf)).toEqual(en.map(layoutOf));
    expect(es.map(({ language, title }) => [language, title])).toEqual([
      ["es", "Lista del veterinario, vie 2026-03-20"],
      ["es", "Están naciendo crías"],
      ["es", "Tarjeta de establo"],
      ["es", "Papel de Fern"],
      ["es", "La temporada de 2026"],
      ["es", "La temporada"],
    ]);
    // The season has something for every sheet.
    expect(JSON.stringify(en)).toMatch(/NEW Moss, doe, of Ash.*Sedge.*hornless by birth, as it grew.*By sire/);
  });

  test.each([english, spanish])("[WO-1] what stands on paper keeps to 15 words a sentence: $language", (words) => {
    const texts = textsIn(words).map(([, text]) => text);
    expect(texts.length).toBeGreaterThan(150);
    expectPlain(texts.flatMap((text) => text.split(/(?<=;) /)));
  });

  test("[WO-8] an empty vet's list still has room to write, and its cautions", () => {
    const model = {
      day: day("2026-03-20"),
      planned: true,
      vet: undefined,
      list: [],
      lookFirst: [],
      cautions: ["iron-only"],
    } as const;
    const { blocks, turned } = sheets.vetList(model, context);
    expect(turned).toBe("sideways");
    expect(blocks).toContainEqual({ kind: "text", text: "Nobody is on the list yet.", weight: "plain" });
    const table = blocks.find((b) => b.kind === "table");
    expect(table?.kind === "table" && table.rows).toHaveLength(2);
  });

  test("[WO-8] the gate names those who must stay outside first", () => {
    const model: VisitorsModel = {
      today: context.today,
      herdName: "Sallowbank",
      state: "open",
      from: day("2026-03-01"),
      to: day("2026-05-01"),
      cautions: ["pregnant-stay-away", "wash-hands"],
      afterLoss: [],
      rule: "AD-41",
    };
    const { blocks } = sheets.gate(model, context);
    expect(blocks[1]).toMatchObject({ kind: "warning" });
    expect(blocks[2]).toMatchObject({ items: ["Wash your hands with soap and water when you leave."] });
  });
});
