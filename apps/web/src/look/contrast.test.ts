import { readFileSync } from "node:fs";
import { present } from "@pollard/base";
import { describe, expect, test } from "vitest";

const css = readFileSync(new URL("tokens.css", import.meta.url), "utf8");

/** The colours of one light: those of the first block, with the block's own over them. */
function coloursOf(selector: string): ReadonlyMap<string, string> {
  const blockAfter = (start: string): string => css.slice(css.indexOf(start) + start.length).split("}")[0] ?? "";
  const read = (block: string) =>
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map((m) => [m[1] ?? "", m[2] ?? ""] as const);
  return new Map([...read(blockAfter(":root {")), ...(selector === "" ? [] : read(blockAfter(`${selector} {`)))]);
}

/** Relative luminance and contrast as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const LIGHTS = [
  ["day", ""],
  ["sun", ':root[data-light="sun"]'],
  ["barn", ':root[data-light="barn"]'],
] as const;

/** What stands on what: text, and its ground. */
const TEXT = [
  ["ink", "page"],
  ["ink", "surface"],
  ["slate", "page"],
  ["slate", "surface"],
  ["action", "page"],
  ["action", "surface"],
  ["on-action", "action"],
  ["chalk", "board"],
  ["on-now", "now"],
  ["on-soon", "soon"],
  ["on-done", "done"],
  ["on-planned", "planned"],
] as const;
/** Rules and outlines, and the ground they part from. */
const LINES = [
  ["line", "page"],
  ["line", "surface"],
  ["ink", "page"],
  ["chalk-line", "board"],
] as const;

describe("the look", () => {
  test.each(LIGHTS)("[UI-20] every word is at least 7:1 against its ground: %s", (_light, selector) => {
    const colours = coloursOf(selector);
    const of = (name: string) => present(colours.get(name), name);
    expect(colours.size).toBeGreaterThan(15);
    expect(TEXT.filter(([on, ground]) => contrast(of(on), of(ground)) < 7)).toEqual([]);
  });

  test.each(LIGHTS)("[UI-20] every rule and outline is at least 3:1: %s", (_light, selector) => {
    const colours = coloursOf(selector);
    const of = (name: string) => present(colours.get(name), name);
    expect(LINES.filter(([on, ground]) => contrast(of(on), of(ground)) < 3)).toEqual([]);
  });

  describe("published", () => {
    test("[UI-20] the formula gives the published ratios", () => {
      // WCAG 2.2: black on white is 21:1; #767676 is the lightest grey that passes 4.5:1 on white, at 4.54:1.
      expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
      expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
      expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5);
    });
  });
});
