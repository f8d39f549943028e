import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SheetBlock, type SheetDocument, sheetHtml, sheetMark } from "./sheet-page.ts";

const sheet = (blocks: readonly SheetBlock[], part: Partial<SheetDocument> = {}): SheetDocument => ({
  language: "en",
  title: "Vet's list",
  herd: "Sallowbank",
  asOf: "as of Wed 2026-03-18",
  paper: "A4",
  turned: "upright",
  print: "table",
  page: { page: "Page", of: "of", sheet: "Sheet" },
  blocks,
  ...part,
});

/** Every kind of block with this text in it. */
const everyBlock = (text: string): readonly SheetBlock[] => [
  { kind: "heading", text },
  { kind: "text", text, weight: "plain" },
  { kind: "text", text, weight: "strong" },
  { kind: "warning", lines: [text] },
  { kind: "facts", rows: [[text, text]] },
  {
    kind: "table",
    columns: [
      { title: text, mm: 30 },
      { title: "kg", align: "right" },
    ],
    rows: [[text, "3.2"]],
    empty: 2,
    tall: "writing",
  },
  { kind: "list", items: [text], mark: "box", columns: 2 },
  { kind: "lines", label: text, count: 2 },
];

const count = (html: string, what: RegExp) => [...html.matchAll(what)].length;

describe("a sheet on paper", () => {
  test("[AD-45] both papers, upright and sideways; no row is split, headings repeat, every page has its number", () => {
    const html = sheetHtml(sheet(everyBlock("x"), { paper: "Letter", turned: "sideways" }));
    expect(html).toContain("size: letter landscape");
    expect(html).toContain("tr { break-inside: avoid; }");
    expect(html).toContain("thead { display: table-header-group; }");
    expect(html).toMatch(/counter\(page\) " of " counter\(pages\)/);
    expect(sheetHtml(sheet([]))).toContain("size: A4;");
  });

  test("[AD-45] one ink: nothing but black on white; nothing fetched, nothing run", () => {
    const html = sheetHtml(sheet(everyBlock("x")));
    const colours = [...html.matchAll(/#[0-9a-f]{3,6}\b/gi)].map(([c]) => c);
    expect(new Set(colours)).toEqual(new Set(["#000", "#fff"]));
    expect(html).not.toMatch(/<script|<img|<link|url\(|https?:/i);
  });

  test("[AD-45] a table has its empty rows, to be filled by hand", () => {
    const html = sheetHtml(sheet(everyBlock("x")));
    expect(count(html, /<tr>/g)).toBe(1 + 1 + 2);
    expect(html).toContain('<td class="right">3.2</td>');
  });

  test("[AD-46] the foot names herd, sheet, day and a mark that changes with what is said", () => {
    const one = sheet([{ kind: "text", text: "Moss", weight: "plain" }]);
    const other = sheet([{ kind: "text", text: "Fern", weight: "plain" }]);
    expect(sheetMark(one)).toMatch(/^[0-9A-Z]{5}$/);
    expect(sheetMark(one)).toBe(sheetMark({ ...one }));
    expect(sheetMark(one)).not.toBe(sheetMark(other));
    expect(sheetHtml(one)).toContain(`Sallowbank · Vet&#39;s list · as of Wed 2026-03-18 · Sheet ${sheetMark(one)}`);
  });

  describe("laws", () => {
    test("[AD-45] no text can become markup or style", () => {
      const evil = fc.constantFrom(
        "</style><script>x</script>",
        '"; } body { display: none',
        "a & b < c",
        "'><img src=x>",
      );
      fc.assert(
        fc.property(fc.oneof(evil, fc.string({ unit: "grapheme", maxLength: 40 })), (text) => {
          const html = sheetHtml(sheet(everyBlock(text), { title: text, herd: text, asOf: text }));
          const plain = sheetHtml(sheet(everyBlock("x"), { title: "x", herd: "x", asOf: "x" }));
          expect(count(html, /</g)).toBe(count(plain, /</g));
          expect(count(html, /<\/style>/g)).toBe(1);
          const braces = (of: string) => count(of.slice(0, of.indexOf("</style>")), /[{}]/g);
          expect(braces(html) - count(html.slice(0, html.indexOf("<style>")), /[{}]/g)).toBe(braces(plain));
        }),
        { numRuns: 100 },
      );
    });
  });
});
