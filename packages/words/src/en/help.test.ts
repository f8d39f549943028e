import { describe, expect, test } from "vitest";
import { helpPages, sourceNames, terms } from "./help.ts";

const sentences = [
  ...helpPages.flatMap(({ title, short, parts }) => [title, short, ...parts.flatMap((p) => [p.heading, ...p.lines])]),
  ...terms.map(({ means }) => means),
];

describe("help", () => {
  test("[WO-12] each page says where it comes from, and every source has a name to be shown", () => {
    for (const { sources } of helpPages) expect(sources.length).toBeGreaterThan(0);
    const keys = [...new Set(helpPages.flatMap(({ sources }) => sources))];
    expect(keys.filter((key) => sourceNames[key] === undefined)).toEqual([]);
  });

  test("[WO-12] no sentence has more than 15 words, names a drug or says a percentage", () => {
    const long = sentences.flatMap((text) => text.split(/(?<=[.?!:]) /)).filter((s) => s.split(/\s+/).length > 15);
    expect(long).toEqual([]);
    expect(sentences.join(" ")).not.toMatch(/%|\bmg\b|\bml\b|lidocaine|meloxicam|xylazine|antitoxin/i);
  });

  test("[WO-12] the page on the window defers to the vet, and to the law", () => {
    const vet = helpPages.find(({ id }) => id === "vet");
    const said = vet?.parts.flatMap(({ lines }) => lines).join(" ") ?? "";
    expect(said).toMatch(/Your vet's own ages win/);
    expect(said).toMatch(/only a vet may/);
    expect(said).toMatch(/it is not allowed/);
  });

  test("[WO-12] words of the trade stand in the order of the alphabet, each once", () => {
    const words = terms.map(({ word }) => word.toLowerCase());
    expect(words).toEqual([...new Set(words)].sort());
  });
});
