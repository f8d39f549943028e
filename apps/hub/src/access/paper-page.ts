import { createHash } from "node:crypto";
import type { Paper, PaperBlock } from "./shown.ts";

/** The one style of every page for guests; the policy names it by its digest, so that no other takes effect. */
const STYLE = `body { margin: 0 auto; max-width: 44rem; padding: 1rem; font: 1.05rem/1.5 system-ui, sans-serif; color: #1b1b1b; background: #fff; }
h1 { font-size: 1.7rem; line-height: 1.2; }
h2 { font-size: 1.25rem; margin-top: 1.6rem; }
dt { font-weight: 700; }
dd { margin: 0 0 .6rem; white-space: pre-line; overflow-wrap: anywhere; }
.warning { border: 2px solid; padding: .3rem 1rem; font-weight: 700; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; }
th, td { border: 1px solid; padding: .3rem .5rem; text-align: left; vertical-align: top; white-space: pre-line; }
@media (prefers-color-scheme: dark) { body { color: #f2efe6; background: #16211d; } }
@media print { body { color: #000; background: #fff; } }
`;

/** Nothing runs, nothing is fetched, nobody frames it: what stands on a page for guests is text, whatever it looks like. */
export const PAPER_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash("sha256").update(STYLE).digest("base64")}'`,
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "sandbox",
].join("; ");

/** One kid's paper as a page for whoever was given the link. Every text is escaped. */
export function paperHtml({ language, title, herd, asOf, blocks }: Paper): string {
  return page(
    language,
    [title, herd].filter((part) => part !== "").join(", "),
    `<h1>${escaped(title)}</h1>
<p>${escaped([herd, asOf].filter((part) => part !== "").join(" · "))}</p>
${blocks.map(blockHtml).join("\n")}`,
  );
}

/** What whoever comes by a link finds that is over, was taken back or never was; the language is not known here. */
export const goneHtml = (): string =>
  page(
    "en",
    "Pollard",
    `<h1>This link is over.</h1>
<p>Ask whoever gave it to you for another.</p>
<p lang="es">Este enlace ya no vale. Pida otro a quien se lo dio.</p>`,
  );

const page = (language: string, title: string, body: string): string => `<!doctype html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>${escaped(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;

function blockHtml(block: PaperBlock): string {
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
      return `<div class="wide" tabindex="0"><table><thead>${rowHtml("th", block.columns)}</thead><tbody>${block.rows
        .map((row) => rowHtml("td", row))
        .join("")}</tbody></table></div>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${escaped(item)}</li>`).join("")}</ul>`;
  }
}

const rowHtml = (cell: "th" | "td", texts: readonly string[]): string =>
  `<tr>${texts.map((text) => `<${cell}>${escaped(text)}</${cell}>`).join("")}</tr>`;

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

const escaped = (text: string): string => text.replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign] ?? "");
