import { describe, expect, test } from "vitest";
import { spanishCatalogue } from "../es/catalogue.ts";
import { CATALOGUES, expectPlain } from "../testing.ts";
import { helpPages } from "./help.ts";

describe("help", () => {
  test.each(CATALOGUES)(
    "[WO-12] each page says where it comes from, and every source has a name: %s",
    (_, { help }) => {
      for (const { sources } of help.pages) expect(sources.length).toBeGreaterThan(0);
      const keys = [...new Set(help.pages.flatMap(({ sources }) => sources))];
      expect(keys.filter((key) => help.sourceNames[key] === undefined)).toEqual([]);
    },
  );

  test.each(CATALOGUES)("[WO-12] no sentence has more than 15 words or names a drug: %s", (_, { help }) => {
    const texts = [
      ...help.pages.flatMap(({ title, short, parts }) => [
        title,
        short,
        ...parts.flatMap((p) => [p.heading, ...p.lines]),
      ]),
      ...help.terms.map(({ means }) => means),
    ];
    expectPlain(texts);
    expect(texts.join(" ")).not.toMatch(/\bmg\b|\bml\b|lidoca[ií]n|meloxicam|x[iy]la[cz]in|antitoxin/i);
  });

  test("[WO-12] both languages have the same pages from the same sources", () => {
    const [english, ...others] = CATALOGUES.map(([, { help }]) =>
      help.pages.map(({ id, sources, parts }) => ({
        id,
        sources,
        parts: parts.map(({ drawn, lines }) => [drawn, lines.length]),
      })),
    );
    for (const other of others) expect(other).toEqual(english);
  });

  test("[WO-12] the page on the window defers to the vet, and to the law", () => {
    const vet = helpPages.find(({ id }) => id === "vet");
    const said = vet?.parts.flatMap(({ lines }) => lines).join(" ") ?? "";
    expect(said).toMatch(/Your vet's own ages win/);
    expect(said).toMatch(/only a vet may/);
    expect(said).toMatch(/it is not allowed/);
    const dicho = spanishCatalogue.help.pages
      .find(({ id }) => id === "vet")
      ?.parts.flatMap(({ lines }) => lines)
      .join(" ");
    expect(dicho).toMatch(/Mandan las edades de su veterinario/);
    expect(dicho).toMatch(/solo un veterinario puede/);
    expect(dicho).toMatch(/no se permite/);
  });

  test.each(CATALOGUES)(
    "[WO-12] words of the trade stand in the order of the alphabet, each once: %s",
    (_, catalogue) => {
      const words = catalogue.help.terms.map(({ word }) => word.toLowerCase());
      expect(words).toEqual([...new Set(words)].sort());
    },
  );
});
