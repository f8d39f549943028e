import type { Difference, ListProblem, RowProblem } from "@pollard/records";
import { describe, expect, test } from "vitest";
import { listWords as english } from "./en/screens-lists.ts";
import { listWords as spanish } from "./es/screens-lists.ts";

const PROBLEMS: readonly RowProblem[] = [
  { code: "nameless" },
  { code: "no-sex" },
  { code: "left-without-day" },
  { code: "left-before-born" },
  { code: "own-parent" },
  { code: "more-cells", cells: 4, headings: 3 },
  { code: "not-a-sex", column: "sex", got: "goose" },
  { code: "not-a-head", column: "head", got: "curly" },
  { code: "head-open", column: "head", got: "no" },
  { code: "not-kidded", column: "kidded", got: "often" },
  { code: "kidded-no-doe" },
  { code: "kidded-too-young" },
  { code: "not-a-why", column: "why", got: "moved" },
  { code: "too-long", column: "breed", got: "long" },
  { code: "number-rounded", column: "tag", got: "9.8E+14" },
  { code: "not-a-day", column: "born", got: "spring" },
  { code: "day-either", column: "born", got: "3/4/2024" },
  { code: "day-is-a-number", column: "left", got: "45376" },
  { code: "day-is-a-year", column: "born", got: "2019" },
  { code: "day-not-set", column: "born", got: "1899-12-30" },
  { code: "day-to-come", column: "born", got: "2030-01-01" },
  { code: "not-a-chip", why: "rounded", got: "9.8E+14" },
  { code: "not-a-chip", why: "not-15-digits", got: "12" },
  { code: "several-goats", column: "dam", got: "Fern" },
  { code: "tag-of-another", got: "12", name: "Hazel" },
  { code: "not-a-parent", column: "sire", got: "Fern" },
  { code: "parent-younger", column: "dam", got: "Fern" },
  { code: "parent-loop", column: "dam", got: "Fern" },
  { code: "twice", first: 4 },
];
const REFUSALS: readonly ListProblem[] = [
  { code: "empty" },
  { code: "spreadsheet" },
  { code: "not-text" },
  { code: "too-large" },
  { code: "no-rows" },
  { code: "no-columns" },
  { code: "quotes", line: 7, what: "open-quote" },
];
const DIFFERENCES: readonly Difference[] = [
  { of: "breed", sort: "adds", here: undefined, listed: "Saanen" },
  { of: "dam", sort: "changes", here: "a1", listed: "a2" },
  { of: "born", sort: "by-hand", here: "2024-03-01", listed: "2024-03-02" },
  { of: "sex", sort: "changes", here: "doe", listed: "buck" },
  { of: "head", sort: "changes", here: "horned", listed: "polled" },
  { of: "kidded", sort: "adds", here: undefined, listed: "yes" },
  { of: "note", sort: "adds", here: undefined, listed: "kind" },
];

describe.each([
  ["English", english],
  ["Spanish", spanish],
])("lists in %s", (_, words) => {
  const said = [
    ...PROBLEMS.map(words.problem),
    ...REFUSALS.map(words.refusal),
    ...DIFFERENCES.map((each) => words.difference(each, (id) => (id === "a1" ? "Fern" : "Hazel"))),
  ];

  test("[WO-1] what is wrong with a row or a file keeps to short sentences", () => {
    for (const text of said)
      for (const sentence of text.split(/[.!?;:](?=\s|$)/))
        expect(sentence.trim().split(/\s+/).length, text).toBeLessThanOrEqual(15);
  });

  test("[WO-5] each is said in words of its own, and a parent by its name", () => {
    expect(new Set(said).size).toBe(said.length);
    expect(said.join(" ")).toMatch(/Fern (becomes|pasa a) Hazel/);
    expect(said.join(" ")).not.toMatch(/%|undefined|a1/);
  });
});

test("[WO-66] what a list says otherwise stands in the language's own words, not in those of the record", () => {
  const inSpanish = DIFFERENCES.map((each) => spanish.difference(each, () => "Fern")).join(" ");
  expect(inSpanish).not.toMatch(/\b(doe|buck|horned|polled|yes)\b/);
  expect(inSpanish).toMatch(/sexo: hembra pasa a macho.*cabeza: con cuernos pasa a mocha.*ha parido: sí/);
});
