/** A column of a table on paper. `mm`: its width; without one it takes what is left. */
export interface SheetColumn {
  readonly title: string;
  readonly mm?: number;
  readonly align?: "right";
}

/** A piece of a sheet, from top to bottom. Every text is said already. */
export type SheetBlock =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "text"; readonly text: string; readonly weight: "plain" | "strong" }
  /** Framed, so that it cannot be overlooked. */
  | { readonly kind: "warning"; readonly lines: readonly string[] }
  | { readonly kind: "facts"; readonly rows: readonly (readonly [string, string])[] }
  | {
      readonly kind: "table";
      readonly columns: readonly SheetColumn[];
      /** A line break within a cell is one on paper. */
      readonly rows: readonly (readonly string[])[];
      /** Empty rows below, to be filled by hand. */
      readonly empty?: number;
      /** Height of a row: of a line of print, or of handwriting. */
      readonly tall: "print" | "writing";
    }
  | { readonly kind: "list"; readonly items: readonly string[]; readonly mark: "box" | "dot"; readonly columns?: 1 | 2 }
  /** Empty lines to write on. */
  | { readonly kind: "lines"; readonly label: string; readonly count: number };

/** A sheet of paper as plain data: whose, what, as of when, and its pieces. */
export interface SheetDocument {
  /** Language of its words, as a web page names it. */
  readonly language: string;
  readonly title: string;
  readonly herd: string;
  /** "As of …", said in words. */
  readonly asOf: string;
  readonly paper: "A4" | "Letter";
  readonly turned: "upright" | "sideways";
  /** Size of print: close for a long list, for a table at the desk, or for a wall at three steps. */
  readonly print: "close" | "table" | "wall";
  readonly blocks: readonly SheetBlock[];
  readonly page: { readonly page: string; readonly of: string; readonly sheet: string };
}

const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const FNV_START = 0x811c9dc5;
const FNV_STEP = 0x01000193;
const ID_LETTERS = 5;

/**
 * A short mark that two copies share only if they say the same, so that yesterday's list is not taken for today's.
 *
 * Source: FNV-1a, 32 bits, from memory; for telling sheets apart, not for keeping anything safe.
 */
export function sheetMark({ title, herd, asOf, blocks }: SheetDocument): string {
  let hash = FNV_START;
  for (const character of JSON.stringify([title, herd, asOf, blocks])) {
    hash ^= character.codePointAt(0) ?? 0;
    hash = Math.imul(hash, FNV_STEP) >>> 0;
  }
  return Array.from({ length: ID_LETTERS }, (_, i) => ALPHABET[(hash >>> (5 * i)) & 31]).join("");
}

/**
 * The sheet as one web page that prints: black on white, rows never split over two pages, headings kept with what follows,
 * herd, date, mark and page number at the foot of every page.
 *
 * Shape: complete and alone: no script, no picture, nothing fetched. Every text is escaped.
 * Source: rules AD-45, AD-46.
 */
export function sheetHtml(sheet: SheetDocument): string {
  const { language, title, herd, asOf, page } = sheet;
  const foot = [herd, title, asOf, `${page.sheet} ${sheetMark(sheet)}`].filter((part) => part !== "").join(" · ");
  return `<!doctype html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(`${title}${herd === "" ? "" : `, ${herd}`}`)}</title>
<style>
${style(sheet, foot)}</style>
</head>
<body>
<header>
<h1>${escaped(title)}</h1>
<p>${escaped([herd, asOf].filter((part) => part !== "").join(" · "))}</p>
</header>
${sheet.blocks.map(blockHtml).join("\n")}
<footer>${escaped(foot)}</footer>
</body>
</html>
`;
}

function style({ paper, turned, print, page }: SheetDocument, foot: string): string {
  const size = `${paper === "A4" ? "A4" : "letter"}${turned === "sideways" ? " landscape" : ""}`;
  const points = { close: 8.5, table: 10, wall: 21 }[print];
  return `@page { size: ${size}; margin: 12mm 12mm 16mm;
  @bottom-left { content: ${cssText(foot)}; font: 8pt sans-serif; white-space: nowrap; }
  @bottom-right { content: ${cssText(`${page.page} `)} counter(page) ${cssText(` ${page.of} `)} counter(pages); font: 8pt sans-serif; } }
* { box-sizing: border-box; color: #000; background: #fff; }
html { font: ${points}pt/1.35 system-ui, sans-serif; }
body { margin: 0 auto; max-width: ${turned === "sideways" ? "273mm" : "186mm"}; padding: 4mm; }
header { display: flex; justify-content: space-between; align-items: baseline; gap: ${print === "wall" ? "1mm; flex-direction: column" : "6mm"}; border-bottom: 1.5pt solid #000; }
h1 { font-size: 1.6em; margin: 0; }
header p { margin: 0; ${print === "wall" ? "font-size: 0.6em;" : "white-space: nowrap;"} }
h2 { font-size: 1.15em; margin: 4mm 0 1.5mm; break-after: avoid; }
p { margin: 1.5mm 0; }
.warning { border: 1.5pt solid #000; padding: 2mm 3mm; margin: 3mm 0; font-weight: 700; break-inside: avoid; }
table { width: 100%; border-collapse: collapse; margin: 1.5mm 0; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border: 0.6pt solid #000; padding: 1mm 1.5mm; text-align: left; vertical-align: top; white-space: pre-line; overflow-wrap: break-word; }
th { font-size: 0.85em; }
.right { text-align: right; }
.writing td { height: ${print === "close" ? 9 : 11}mm; }
dl { display: grid; grid-template-columns: minmax(30mm, max-content) 1fr; gap: 0.8mm 4mm; margin: 1.5mm 0; }
dt { font-weight: 700; }
dd { margin: 0; white-space: pre-line; overflow-wrap: anywhere; }
ul { margin: 1.5mm 0; padding-left: 1.5em; }
ul.two { columns: 2; column-gap: 8mm; }
ul.box { list-style: none; padding-left: 0; }
ul.box li::before { content: ""; display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.8pt solid #000; margin-right: 2mm; vertical-align: -0.4mm; }
li { break-inside: avoid; margin-bottom: 0.8mm; }
.lines { break-inside: avoid; }
.lines i { display: block; height: 9mm; border-bottom: 0.6pt solid #000; }
footer { font-size: 8pt; margin-top: 4mm; }
@media print { body { max-width: none; padding: 0; } footer { display: none; } }
`;
}

function blockHtml(block: SheetBlock): string {
  switch (block.kind) {
    case "heading":
      return `<h2>${escaped(block.text)}</h2>`;
    case "text":
      return block.weight === "strong" ? `<p><b>${escaped(block.text)}</b></p>` : `<p>${escaped(block.text)}</p>`;
    case "warning":
      return `<div class="warning">${block.lines.map((line) => `<p>${escaped(line)}</p>`).join("")}</div>`;
    case "facts":
      return `<dl>${block.rows.map(([name, value]) => `<dt>${escaped(name)}</dt><dd>${escaped(value)}</dd>`).join("")}</dl>`;
    case "table":
      return tableHtml(block);
    case "list":
      return `<ul class="${block.mark}${block.columns === 2 ? " two" : ""}">${block.items
        .map((text) => `<li>${escaped(text)}</li>`)
        .join("")}</ul>`;
    case "lines":
      return `<div class="lines"><p><b>${escaped(block.label)}</b></p>${"<i></i>".repeat(block.count)}</div>`;
  }
}

function tableHtml({ columns, rows, empty = 0, tall }: Extract<SheetBlock, { kind: "table" }>): string {
  const side = (i: number) => (columns[i]?.align === "right" ? ' class="right"' : "");
  const cols = columns.map(({ mm }) => (mm === undefined ? "<col>" : `<col style="width:${mm}mm">`)).join("");
  const head = columns.map(({ title }, i) => `<th scope="col"${side(i)}>${escaped(title)}</th>`).join("");
  const all = [...rows, ...Array.from({ length: empty }, () => columns.map(() => ""))];
  const body = all
    .map((row) => `<tr>${columns.map((_, i) => `<td${side(i)}>${escaped(row[i] ?? "")}</td>`).join("")}</tr>`)
    .join("\n");
  return `<table class="${tall}"><colgroup>${cols}</colgroup><thead><tr>${head}</tr></thead><tbody>
${body}
</tbody></table>`;
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

const escaped = (text: string): string => text.replaceAll(/[&<>"']/g, (character) => ENTITIES[character] ?? "");

/** A text as a string of a style sheet that stands inside a web page: nothing in it can end the string or the page. */
const cssText = (text: string): string =>
  `"${text.replaceAll(/[^\p{L}\p{N} .,:·-]/gu, (c) => `\\${(c.codePointAt(0) ?? 0).toString(16)} `)}"`;
