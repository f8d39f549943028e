import { describe, expect, test } from "vitest";
import { screens } from "./index.ts";

/** Every fixed text of the screens, with its place. */
function textsIn(words: object, path = ""): readonly (readonly [string, string])[] {
  return Object.entries(words).flatMap(([key, value]): readonly (readonly [string, string])[] => {
    const at = path === "" ? key : `${path}.${key}`;
    if (typeof value === "string") return [[at, value]];
    return typeof value === "object" && value !== null ? textsIn(value as object, at) : [];
  });
}

const texts = textsIn(screens).filter(([at]) => at !== "day.months");

describe("the words of the screens", () => {
  test("[WO-1] no sentence has more than 15 words", () => {
    const long = texts.flatMap(([at, text]) =>
      text
        .split(/[.!?;:](?=\s|$)/)
        .filter((sentence) => sentence.trim().split(/\s+/).length > 15)
        .map((sentence) => `${at}: ${sentence.trim()}`),
    );
    expect(texts.length).toBeGreaterThan(300);
    expect(long).toEqual([]);
  });

  test("[WO-2] no percentage stands on a screen", () => {
    expect(texts.filter(([, text]) => text.includes("%"))).toEqual([]);
  });
});
