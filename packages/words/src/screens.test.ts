import { describe, expect, test } from "vitest";
import { CATALOGUES, expectPlain, textsIn } from "./testing.ts";

/** Every text of the screens, also those with something to fill in, as they are written. */
function allTextIn(words: object): string {
  return Object.values(words)
    .map((value: unknown) =>
      typeof value === "object" && value !== null
        ? allTextIn(value)
        : typeof value === "function"
          ? value.toString()
          : value,
    )
    .join("\n");
}

describe("the words of the screens", () => {
  test.each(CATALOGUES)("[WO-1] no sentence has more than 15 words, and none a percentage: %s", (_, { screens }) => {
    const texts = textsIn(screens).filter(([at]) => at !== "day.months");
    expect(texts.length).toBeGreaterThan(300);
    expectPlain(texts.flatMap(([, text]) => text.split(/(?<=;) /)));
  });

  test.each(CATALOGUES)(
    "[UI-323] what holds the app is a device, for it may stand on a table: %s",
    (_, { screens }) => {
      const all = allTextIn(screens);
      expect(all.match(/this device|este aparato/gi)?.length).toBeGreaterThan(30);
      expect(all).not.toMatch(/this phone|(holding|holds) the phone|este teléfono|tiene el teléfono/i);
    },
  );
});
