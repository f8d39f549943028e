import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { atRest } from "./rest.ts";
import { COLOURFUL, SCREENS } from "./screens.ts";
import { startDemo } from "./steps.ts";
import { underTest } from "./under-test.ts";

/** The narrowest phone there is to be had, in the sun (the largest letters) and in gloves (the largest keys). */
const NARROWEST = { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true } as const;

const { address, newPhone } = underTest();
let page: Page;
let show: (path: string) => Promise<void>;

beforeAll(async () => {
  ({ page } = await newPhone(NARROWEST));
  show = await atRest(page, address);
  await startDemo(page, address);
  await page.evaluate(() => localStorage.setItem("pollard-look", "sun gloves right"));
  await page.reload();
});

/** What a person looking at the page now would stumble over. */
const stumbles = () =>
  page.evaluate(() => {
    const said = (one: Element | null): string => (one?.textContent ?? "").replaceAll(/\s+/g, " ").trim();
    const seen = (one: HTMLElement): boolean => one.checkVisibility() && one.getBoundingClientRect().width > 2;
    const all = (which: string): HTMLElement[] => [...document.querySelectorAll<HTMLElement>(which)].filter(seen);
    const slate = said(document.querySelector(".board-title"));
    const twice = all("main h1").filter((heading) => said(heading) === slate);
    const over = all(".press, .answer, .row, .board-key, .chip, .places a").filter((key) => {
      const words = document.createRange();
      words.selectNodeContents(key);
      const { left, right } = key.getBoundingClientRect();
      return [...words.getClientRects()].some(
        (line) => line.width > 2 && (line.left < left - 0.5 || line.right > right + 0.5),
      );
    });
    const bare = all(".answer:has(input:checked)").filter((answer) => {
      const tick = answer.querySelector(".tick svg");
      return tick === null || tick.getBoundingClientRect().width < 12;
    });
    return { twice: twice.map(said), over: over.map(said), bare: bare.map(said) };
  });

describe("every screen in one hand", () => {
  const found: Record<"twice" | "over" | "bare", string[]> = { twice: [], over: [], bare: [] };
  let answersLookedAt = 0;
  beforeAll(async () => {
    for (const path of SCREENS) {
      await show(path);
      const { twice, over, bare } = await stumbles();
      for (const [kind, names] of Object.entries({ twice, over, bare }) as ["twice" | "over" | "bare", string[]][])
        found[kind].push(...names.map((name) => `${path}: ${name}`));
      answersLookedAt += await page.locator(".answer:has(input:checked)").count();
    }
  }, 120_000);

  test("[UI-270] what the slate says of a page is not said again below it", () => {
    expect(found.twice).toEqual([]);
  });
  test("[UI-271] no word runs over the edge of its key, its line or its chip", () => {
    expect(found.over).toEqual([]);
  });
  test("[UI-272] whatever is chosen carries a tick", () => {
    expect(answersLookedAt).toBeGreaterThan(10);
    expect(found.bare).toEqual([]);
  });
});

describe("a question higher than the phone", () => {
  test("[UI-383] with gloves it is said that more answers stand below, until they have come up; with room it is not", async () => {
    const more = page.getByText("Two more answers below");
    const first = async (width: number, height: number, as: string) => {
      await page.setViewportSize({ width, height });
      await page.evaluate((wanted) => localStorage.setItem("pollard-look", wanted), as);
      await page.reload();
      await show("/reading/demo-dunnock/feel");
      await page.getByRole("radio", { name: "Not sure" }).waitFor();
    };
    const lowest = () =>
      page.evaluate(() => {
        const [answers, dock] = [[...document.querySelectorAll(".answer.faint")], document.querySelector(".dock")];
        return (dock?.getBoundingClientRect().top ?? 0) - (answers.at(-1)?.getBoundingClientRect().bottom ?? 0);
      });
    for (const light of ["day", "sun", "barn"]) {
      await first(360, 640, `${light} gloves right`);
      await more.waitFor();
      expect(await lowest()).toBeLessThan(0);
      await page.getByText("What does that mean?").scrollIntoViewIfNeeded();
      await more.waitFor({ state: "detached" });
    }
    await first(360, 900, "day gloves right");
    expect(await lowest()).toBeGreaterThan(0);
    expect(await more.count()).toBe(0);
    await first(320, 640, "sun gloves right");
  });
});

describe("in large letters", () => {
  const { newPhone } = underTest(["--blink-settings=defaultFontSize=32"]);

  test("[UI-357] the tick of a chosen answer lies beside its drawing, not on it", async () => {
    await show("/reading/demo-dunnock/all");
    const drawn = page.locator(".answer:has(> svg.drawn)");
    await drawn.first().waitFor();
    const covered: string[] = [];
    for (const answer of await drawn.all()) {
      await answer.locator("input").check();
      const over = await answer.evaluate((one) => {
        const [tick, drawing] = [one.querySelector(".tick svg"), one.querySelector(":scope > svg.drawn")].map((part) =>
          part?.getBoundingClientRect(),
        );
        if (tick === undefined || drawing === undefined) return false;
        return tick.left < drawing.right && tick.right > drawing.left && tick.top < drawing.bottom;
      });
      if (over) covered.push(await answer.innerText());
    }
    expect(await drawn.count()).toBeGreaterThan(9);
    expect(covered).toEqual([]);
  });

  test("[UI-274] with the browser's letters set twice as large, nothing has to be pushed sideways", async () => {
    const { page: reader } = await newPhone();
    const open = await atRest(reader, address);
    await startDemo(reader, address);
    expect(await reader.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe("36px");
    const wide: string[] = [];
    for (const path of [...COLOURFUL, "/animal/demo-pip", "/kidding/demo-yarrow", "/outcome/demo-medlar"]) {
      await open(path);
      const over = await reader.evaluate(() => document.documentElement.scrollWidth - 360);
      if (over > 0) wide.push(`${path}: ${over}`);
    }
    expect(wide).toEqual([]);
  }, 60_000);
});
