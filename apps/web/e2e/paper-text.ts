import { inflateSync } from "node:zlib";
import { present } from "@pollard/base";

/*
 * Reads what stands on each page of a PDF that the browser made, in the order in which it was drawn: enough of ISO 32000-1
 * for that and no more (objects 7.3, streams 7.4.4, pages 7.7.3, shown text 9.4.3, codes to letters 9.10.3).
 */

/** The text of each page. */
export function paperText(pdf: Buffer): readonly string[] {
  const raw = pdf.toString("latin1");
  const objects = new Map<string, string>();
  for (const [, id, body] of raw.matchAll(/(?:^|\n)(\d+) 0 obj\s([\s\S]*?)\sendobj/g))
    objects.set(present(id, "an object's number"), present(body, "an object"));
  const referred = (id: string | undefined): string => present(objects.get(id ?? ""), `object ${id}`);
  const fonts = new Map<string, ReadonlyMap<string, string>>();
  const fontOf = (id: string): ReadonlyMap<string, string> => {
    const known = fonts.get(id);
    if (known !== undefined) return known;
    const letters = lettersOf(unpacked(referred(/\/ToUnicode (\d+) 0 R/.exec(referred(id))?.[1])));
    fonts.set(id, letters);
    return letters;
  };
  const pages = [...objects.values()].filter((body) => /\/Type\s*\/Page\b/.test(body));
  return pages.map((page) => {
    const named = /\/Font\s*<<([\s\S]*?)>>/.exec(page)?.[1] ?? "";
    const fontIds = new Map([...named.matchAll(/\/(\w+) (\d+) 0 R/g)].map(([, name, id]) => [name, id]));
    const drawn = unpacked(referred(/\/Contents (\d+) 0 R/.exec(page)?.[1]));
    return shown(drawn, (name) => fontOf(present(fontIds.get(name), `font ${name}`)));
  });
}

function unpacked(body: string): string {
  const from = body.indexOf("stream") + "stream".length;
  const start = from + (body[from] === "\r" ? 2 : 1);
  const length = Number(/\/Length (\d+)/.exec(body)?.[1]);
  const bytes = Buffer.from(body.slice(start, start + length), "latin1");
  return (body.includes("/FlateDecode") ? inflateSync(bytes) : bytes).toString("latin1");
}

/** Which letters a font's codes, of four hexadecimal digits, stand for. */
function lettersOf(map: string): ReadonlyMap<string, string> {
  const letters = new Map<string, string>();
  const text = (hex: string): string => Buffer.from(hex, "hex").swap16().toString("utf16le");
  for (const [, part = ""] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, code = "", to = ""] of part.matchAll(/<(\w+)>\s*<(\w+)>/g)) letters.set(code.toUpperCase(), text(to));
  for (const [, part = ""] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from = "", to = "", first = ""] of part.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g))
      for (let code = Number.parseInt(from, 16); code <= Number.parseInt(to, 16); code++)
        letters.set(hexOf(code), String.fromCodePoint(Number.parseInt(first, 16) + code - Number.parseInt(from, 16)));
  return letters;
}

const hexOf = (code: number): string => code.toString(16).toUpperCase().padStart(4, "0");

/** What the text operators of a page show; letters that were drawn as one ("fi") are two again. */
function shown(drawn: string, fontOf: (name: string) => ReadonlyMap<string, string>): string {
  let letters: ReadonlyMap<string, string> = new Map();
  const said: string[] = [];
  for (const [, font, codes] of drawn.matchAll(/\/(\w+) [\d.]+ Tf|(\[[^\]]*\]|<\w*>)\s*TJ?j?/g)) {
    if (font !== undefined) letters = fontOf(font);
    else {
      const hex = [...(codes ?? "").matchAll(/<(\w*)>/g)].map(([, part]) => part ?? "").join("");
      said.push((hex.toUpperCase().match(/.{4}/g) ?? []).map((code) => letters.get(code) ?? "\uFFFD").join(""));
    }
  }
  return said.join("").normalize("NFKC");
}
