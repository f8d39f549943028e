import { describe, expect, test } from "vitest";
import { CATALOGUES, expectPlain } from "./testing.ts";

/** Every fixed text of the screens, with its place. */
function textsIn(words: object, path = ""): readonly (readonly [string, string])[] {
  return Object.entries(words).flatMap(([key, value]): readonly (readonly [string, string])[] => {
    const at = path === "" ? key : `${path}.${key}`;
    if (typeof value === "string") return [[at, value]];
    return typeof value === "object" && value !== null ? textsIn(value as object, at) : [];
  });
}

describe("the words of the screens", () => {
  test.each(CATALOGUES)("[WO-1] no sentence has more than 15 words, and none a percentage: %s", (_, { screens }) => {
    const texts = textsIn(screens).filter(([at]) => at !== "day.months");
    expect(texts.length).toBeGreaterThan(300);
    expectPlain(texts.flatMap(([, text]) => text.split(/(?<=;) /)));
  });
});
