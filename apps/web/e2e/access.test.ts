import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { atRest } from "./rest.ts";
import { startDemo } from "./steps.ts";
import { COLOURFUL, SCREENS } from "./screens.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();
let page: Page;
let show: (path: string) => Promise<void>;

beforeAll(async () => {
  ({ page } = await newPhone());
  show = await atRest(page, address);
  await startDemo(page, address);
});

async function look(light: string, hands: string): Promise<void> {
  await show("/holder");
  for (const chosen of [light, hands]) await page.getByRole("radio", { name: new RegExp(`^${chosen}`, "i") }).check();
  const html = page.locator("html");
  expect([await html.getAttribute("data-light"), await html.getAttribute("data-hands")]).toEqual([light, hands]);
}

/** Everything that can be pressed on the page now, with its size; a radio's is the size of the answer it fills. */
const targets = () =>
  page.evaluate(() => {
    const seen = [...document.querySelectorAll<HTMLElement>("a, button, input, summary, textarea")].filter((one) =>
      one.checkVisibility(),
    );
    return seen.flatMap((one) => {
      const box = one.getBoundingClientRect();
      // A link inside a sentence is as high as its line: the sentence around it is what WCAG 2.5.8 exempts.
      const inSentence = one.tagName === "A" && getComputedStyle(one).display === "inline";
      const name = (one.getAttribute("aria-label") ?? one.textContent ?? "").trim().slice(0, 40);
      const isAnswer = one.closest(".answer, .pad") !== null;
      return inSentence || box.width === 0 ? [] : [{ name, width: box.width, height: box.height, isAnswer }];
    });
  });

/**
 * Keys with less than 8 px between them, side by side or one under the other. Lines of a list touch, as in a herd book: they
 * need not be told apart by a gap, since each is higher than an answer. What stays in sight lies over the page, not beside it.
 */
const crowded = () =>
  page.evaluate(() => {
    const staysIn = (one: Element | null): Element | undefined => {
      for (let at = one; at; at = at.parentElement)
        if (["fixed", "sticky"].includes(getComputedStyle(at).position)) return at;
      return undefined;
    };
    const keys = [...document.querySelectorAll<HTMLElement>("a, button, input, summary, textarea, select")]
      .filter((one) => one.checkVisibility() && !(one.tagName === "A" && getComputedStyle(one).display === "inline"))
      .map((one) => ({ one, box: one.getBoundingClientRect(), bar: staysIn(one) }))
      .filter(({ box }) => box.width > 0);
    const isLine = ({ one, box }: (typeof keys)[number]): boolean =>
      one.matches(".rows > li > *") && box.height >= 63.5;
    const near = (a: (typeof keys)[number], b: (typeof keys)[number]): number => {
      const across = Math.max(a.box.left - b.box.right, b.box.left - a.box.right);
      const down = Math.max(a.box.top - b.box.bottom, b.box.top - a.box.bottom);
      return isLine(a) && isLine(b) && down >= -0.5 ? 8 : Math.max(across, down);
    };
    const called = ({ one }: (typeof keys)[number]): string =>
      (one.getAttribute("aria-label") ?? one.textContent ?? "").trim().slice(0, 40);
    const close = keys.flatMap((a, at) =>
      keys
        .slice(at + 1)
        .filter((b) => a.bar === b.bar && !a.one.contains(b.one) && !b.one.contains(a.one) && near(a, b) < 7.5)
        .map((b) => `${called(a)} | ${called(b)} ${Math.round(near(a, b))}`),
    );
    return { close, keys: keys.length };
  });

/** On how many chances are counted on the page, but for the line on intersex, which is counted finer. */
async function denominators(): Promise<readonly string[]> {
  const said = await page.locator("main").evaluate((main) => main.textContent ?? "");
  const others = said.replaceAll(/Intersex: [^.]*\./g, "");
  return [...new Set([...others.matchAll(/\d in (4|10|20|100)(?!\d)/g)].map((found) => found[1] ?? ""))];
}

interface Surveyed {
  readonly small: readonly string[];
  readonly wide: readonly string[];
  /** Keys too near each other, and how many keys were looked at. */
  readonly close: readonly string[];
  readonly keys: number;
  /** Screens on which chances stand, each with what they are counted on. */
  readonly counted: readonly { readonly path: string; readonly on: readonly string[] }[];
}

/** Goes through every screen: what is too small, too near, or wider than the phone, and on how many it counts. */
async function survey(answer: number): Promise<Surveyed> {
  const [small, wide, close]: [string[], string[], string[]] = [[], [], []];
  let keys = 0;
  const counted: { readonly path: string; readonly on: readonly string[] }[] = [];
  for (const path of SCREENS) {
    await show(path);
    for (const target of await targets()) {
      const least = target.isAnswer ? answer : 48;
      if (target.height < least - 0.5 || target.width < 47.5)
        small.push(`${path}: ${target.name} ${Math.round(target.width)}×${Math.round(target.height)}`);
    }
    const apart = await crowded();
    keys += apart.keys;
    for (const pair of apart.close) close.push(`${path}: ${pair}`);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    if (over > 0) wide.push(`${path}: ${over}`);
    const on = await denominators();
    if (on.length > 0) counted.push({ path, on });
  }
  return { small, wide, close, keys, counted };
}

describe("for every hand and eye", () => {
  test.each(["day", "sun", "barn"])("[UI-17] axe finds nothing wrong on any screen: %s", async (light) => {
    await look(light, "bare");
    const found: string[] = [];
    for (const path of light === "day" ? SCREENS : COLOURFUL) {
      await show(path);
      // The light changes colours and nothing else: the other rules are looked at once.
      const faults = await axeFaults(page, light === "day" ? {} : { rules: ["color-contrast"] });
      found.push(...faults.map((fault) => `${path}: ${fault}`));
    }
    expect(found).toEqual([]);
  });

  describe("with bare hands, on a phone of 360 px", () => {
    let found: Surveyed;
    beforeAll(async () => {
      await look("day", "bare");
      found = await survey(64);
    });

    test("[UI-18] whatever is pressed is at least 48 px, and answers 64", () => {
      expect(found.small).toEqual([]);
    });

    test("[UI-335] between two keys there are at least 8 px", () => {
      expect(found.keys).toBeGreaterThan(10 * SCREENS.length);
      expect(found.close).toEqual([]);
    });
  });

  describe("with gloves, in the sun, on a phone of 320 px", () => {
    let found: Surveyed;
    beforeAll(async () => {
      await page.setViewportSize({ width: 320, height: 640 });
      await look("sun", "gloves");
      found = await survey(88);
      await page.setViewportSize({ width: 360, height: 640 });
    });

    test("[UI-18] whatever is pressed is at least 48 px, and answers 88", () => {
      expect(found.small).toEqual([]);
    });

    test("[UI-335] between two keys there are at least 8 px", () => {
      expect(found.close).toEqual([]);
    });

    test("[UI-296] the chances on a page are counted on one denominator", () => {
      expect(found.counted.length).toBeGreaterThan(10);
      expect(found.counted.filter(({ on }) => on.length > 1)).toEqual([]);
    });

    test("[UI-19] nothing is wider than the phone", () => {
      expect(found.wide).toEqual([]);
    });
  });

  test("[UI-7] the forecast is nowhere on the page before the reading is stored", async () => {
    await look("day", "bare");
    for (const path of [
      "/animal/demo-dunnock",
      "/answer/demo-dunnock",
      "/reading/demo-dunnock",
      "/reading/demo-dunnock/all",
      "/reading/demo-juniper",
    ]) {
      await show(path);
      // What it carries besides horns says nothing of its head, and may be told.
      const html = await page.locator("#app").evaluate((app) => {
        const shown = app.cloneNode(true) as HTMLElement;
        for (const heading of shown.querySelectorAll("h2"))
          if (heading.textContent === "Other traits") heading.parentElement?.remove();
        return shown.innerHTML;
      });
      expect(html, path).not.toMatch(/\d+ in \d+/);
      expect(html, path).not.toContain("squares");
    }
  });
});
