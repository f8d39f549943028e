import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { atRest } from "./rest.ts";
import { COLOURFUL, SCREENS } from "./screens.ts";
import { choose, press, startDemo, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();
let page: Page;
let show: (path: string) => Promise<void>;

beforeAll(async () => {
  ({ page } = await newPhone());
  show = await atRest(page, address);
  await startDemo(page, address);
});

/** What on the page is cut off: text that its box does not show. The bar at the top repeats the heading, and may be shortened. */
const cutOff = () =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("main *, nav *, .dock *")]
      .filter((one) => one.checkVisibility() && one.children.length === 0 && (one.textContent ?? "").trim() !== "")
      .filter((one) => {
        const { overflowX, overflowY, clipPath } = getComputedStyle(one);
        const hides = (overflow: string): boolean => overflow === "hidden" || overflow === "clip";
        if (clipPath !== "none") return false; // words for readers who listen
        return (
          (hides(overflowX) && one.scrollWidth > one.clientWidth + 1) ||
          (hides(overflowY) && one.scrollHeight > one.clientHeight + 1)
        );
      })
      .map((one) => (one.textContent ?? "").trim().slice(0, 40)),
  );
const wider = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

/** The distances of WCAG 2.2, 1.4.12. */
const WIDE =
  "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }";

describe("every screen, once as it is and once with wider text", () => {
  const bad: Record<"bones" | "wide", string[]> = { bones: [], wide: [] };
  beforeAll(async () => {
    for (const path of SCREENS) {
      await show(path);
      const bones = await page.evaluate(() => ({
        mains: document.querySelectorAll("main").length,
        heads: document.querySelectorAll("h1").length,
        title: document.title.trim(),
        language: document.documentElement.lang,
        unnamed: [...document.querySelectorAll("nav")].filter((nav) => !nav.hasAttribute("aria-label")).length,
      }));
      if (bones.mains !== 1 || bones.heads !== 1 || bones.title === "" || bones.language === "" || bones.unnamed > 0)
        bad.bones.push(`${path}: ${JSON.stringify(bones)}`);
      await page.evaluate((css) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(css);
        document.adoptedStyleSheets = [sheet];
      }, WIDE);
      const [cut, over] = [await cutOff(), await wider()];
      if (cut.length > 0 || over > 0) bad.wide.push(`${path}: ${over} px too wide; cut off: ${cut.join(" | ")}`);
      await page.evaluate(() => {
        document.adoptedStyleSheets = [];
      });
    }
  });

  test("[UI-100] one main part, one first heading, a title, its language, named places", () => {
    expect(bad.bones).toEqual([]);
  });

  test("[UI-101] with wider lines, letters and words nothing is cut off or runs off the page", () => {
    expect(bad.wide).toEqual([]);
  });
});

describe("shown otherwise than we chose", () => {
  test("[UI-102] four times as large (320 by 256), whatever stands first can be read and pressed", async () => {
    await page.setViewportSize({ width: 320, height: 256 });
    const wrong: string[] = [];
    for (const path of ["/", "/reading/demo-dunnock", "/kidding/demo-yarrow", "/vet/2020-01-01", "/safe", "/find"]) {
      await show(path);
      const room = await page.evaluate(() => {
        const bars = [...document.querySelectorAll<HTMLElement>("header, nav, .dock")].filter((bar) =>
          ["fixed", "sticky"].includes(getComputedStyle(bar).position),
        );
        const taken = bars.reduce((sum, bar) => sum + bar.getBoundingClientRect().height, 0);
        return window.innerHeight - taken;
      });
      if ((await wider()) > 0) wrong.push(`${path}: too wide`);
      if (room < 48) wrong.push(`${path}: only ${Math.round(room)} px are left between the bars`);
    }
    await page.setViewportSize({ width: 360, height: 640 });
    expect(wrong).toEqual([]);
  });

  test("[UI-217] on its side, and for the left hand: nothing runs off, the page has room, the keys are mirrored", async () => {
    await page.evaluate(() => localStorage.setItem("pollard-look", "day bare left"));
    await page.setViewportSize({ width: 640, height: 360 });
    await page.reload();
    const wrong: string[] = [];
    for (const path of SCREENS) {
      await show(path);
      const room = await page.evaluate(() => {
        const bars = [...document.querySelectorAll<HTMLElement>(".board, .foot, .dock")].filter(
          (bar) => getComputedStyle(bar).position === "sticky",
        );
        return window.innerHeight - bars.reduce((sum, bar) => sum + bar.getBoundingClientRect().height, 0);
      });
      if ((await wider()) > 0) wrong.push(`${path}: too wide`);
      if (room < 48) wrong.push(`${path}: only ${Math.round(room)} px are left between the bars`);
    }
    await page.setViewportSize({ width: 360, height: 640 });
    await show("/kidding/demo-yarrow");
    const leftOf = (name: string) =>
      page.getByRole("button", { name }).evaluate((one) => Math.round(one.getBoundingClientRect().left));
    const mirrored = [await leftOf("Check the litter"), await leftOf("Another kid")];
    await page.evaluate(() => localStorage.setItem("pollard-look", "day bare right"));
    await page.reload();
    const usual = [await leftOf("Check the litter"), await leftOf("Another kid")];
    expect(wrong).toEqual([]);
    expect(mirrored).toEqual(usual.toReversed());
  });

  test("[UI-103] in the colours a person has forced, axe finds nothing wrong and the chosen answer is still marked", async () => {
    await page.emulateMedia({ forcedColors: "active" });
    const found: string[] = [];
    for (const path of COLOURFUL) {
      await show(path);
      found.push(...(await axeFaults(page)).map((fault) => `${path}: ${fault}`));
    }
    await show("/holder");
    const ticks = page.locator("label.answer:has(input:checked) .tick");
    expect(await ticks.first().isVisible()).toBe(true);
    await page.emulateMedia({ forcedColors: "none" });
    expect(found).toEqual([]);
  });

  test("[UI-104] where a person wants no motion, nothing moves", async () => {
    await page.emulateMedia({ reducedMotion: "reduce" });
    await show("/reading/demo-dunnock");
    const moving = await page.evaluate(
      () =>
        [...document.querySelectorAll<HTMLElement>("*")].filter((one) => {
          const { transitionDuration, animationName } = getComputedStyle(one);
          return transitionDuration.split(",").some((time) => Number.parseFloat(time) > 0) || animationName !== "none";
        }).length,
    );
    await page.emulateMedia({ reducedMotion: "no-preference" });
    expect(moving).toBe(0);
  });
});

describe("a finger that slips", () => {
  test("[UI-105] slid off before it is lifted, a press does nothing; pressed twice in a hurry, it does one thing", async () => {
    await show("/seen/demo-yarrow");
    const answer = page.locator("label.answer").first();
    const box = await answer.boundingBox();
    if (box === null) throw new Error("no answer to press");
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y - 60);
    await page.mouse.up();
    expect(await page.locator("input:checked").count()).toBe(0);

    await show("/safe");
    const entries = async (): Promise<number> =>
      Number(
        /\d+/.exec(
          await page
            .getByText(/entries on this device/)
            .first()
            .innerText(),
        )?.[0],
      );
    const before = await entries();
    await show("/fact/demo-hazel");
    await choose(page, "Note");
    await page.getByRole("textbox", { name: "Note" }).fill("shy");
    await page.getByRole("button", { name: "Store this" }).dblclick();
    await page.getByRole("heading", { name: /Hazel/ }).first().waitFor();
    await show("/safe");
    expect(await entries()).toBe(before + 1);
  });
});

describe("what leaves the phone", () => {
  test("[UI-106] in a whole reading nothing is asked of anybody but the hub the page came from", async () => {
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    await show("/reading/demo-dunnock");
    await page.reload();
    await choose(page, "Pointed");
    await untilSaved(page);
    await press(page, "Next");
    for (const path of COLOURFUL) await show(path);
    const strangers = asked.filter((url) => !url.startsWith(address) && !/^(?:data|blob):/.test(url));
    expect(asked.length).toBeGreaterThan(0);
    expect(strangers).toEqual([]);
  });
});
