import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { choose, follow, go, press, readHead, startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();
let page: Page;
let errors: readonly string[];

beforeAll(async () => {
  ({ page, errors } = await newPhone());
  await startDemo(page, address, "Ines");
});

/** What a first reading of a head, or an answer made from it, would leave on a page. */
const LEADING =
  /speaks|in 20\b|in 10\b|grow horns|stay hornless|Leave this|Look again|vet's list|held fast|unclear|bump/i;

describe("how the calls came out", () => {
  test("[UI-80] the picture says what the sentences say, the table holds the same heads, and the sum is the lead's", async () => {
    await go(page, address, "/score");
    await page.locator(".calls-picture").waitFor();
    const lines = await page
      .locator(".part li")
      .filter({ hasText: /^Of \d+ heads? called/ })
      .allInnerTexts();
    expect(lines.length).toBeGreaterThan(1);
    const label = await page.locator(".calls-picture").getAttribute("aria-label");
    for (const line of lines) expect(label).toContain(line);
    await page.getByText("The same as a table").click();
    const cells = page.locator(".scrolls tbody td:nth-of-type(1)");
    const heads = (await cells.allInnerTexts()).map(Number);
    expect(heads.length).toBe(lines.length);
    const lead = await page
      .getByText(/heads read and known since/)
      .first()
      .innerText();
    expect(heads.reduce((a, b) => a + b, 0)).toBe(Number(/^\d+/.exec(lead)?.[0]));
    const text = await page.locator("main").innerText();
    expect(text).not.toMatch(/%/);
    const denominators = [...text.matchAll(/\d+ in (\d+)/g)].map(([, of]) => of);
    expect(new Set(denominators)).toEqual(new Set(["20"]));
  });

  test.each(["day", "sun", "barn"])(
    "[UI-17] axe finds nothing wrong with it once it is all there and open: %s",
    async (light) => {
      await page.evaluate((wanted) => localStorage.setItem("pollard-look", `${wanted} bare right`), light);
      await page.reload();
      await go(page, address, "/score");
      await page.locator(".calls-picture").waitFor();
      await page.evaluate(() => {
        for (const each of document.querySelectorAll("details")) each.open = true;
      });
      expect(await axeFaults(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    },
  );
});

/** All of the page but what other genes the goat carries: that says nothing of its head. */
const aboutTheHead = () =>
  page.locator("main").evaluate((main) => {
    const copy = main.cloneNode(true) as HTMLElement;
    for (const part of copy.querySelectorAll("section"))
      if (part.querySelector("h2")?.textContent === "Other traits") part.remove();
    return copy.innerHTML;
  });

describe("a second reader", () => {
  test("[UI-81] on no page of a head that Tobias read is there anything of it for Ines, until hers is stored", async () => {
    for (const path of ["/animal/demo-pip", "/answer/demo-pip", "/reading/demo-pip/feel"]) {
      await go(page, address, path);
      await page
        .getByText(/Tobias has read this head|What do you feel/)
        .first()
        .waitFor();
      const shown = path.startsWith("/reading") ? "" : await aboutTheHead();
      expect(shown).not.toMatch(LEADING);
      expect(await page.locator("main input:checked:not([value=both])").count()).toBe(0);
    }
    await go(page, address, "/animals");
    expect(await page.getByRole("link", { name: /Pip/ }).first().innerText()).not.toMatch(/horned|polled/i);

    await go(page, address, "/animal/demo-pip");
    await follow(page, "Read it myself");
    await readHead(page, {
      feel: "Pointed",
      skin: "Held fast",
      whorls: "Clear whorl",
      crown: "Flat",
    });
    expect(await page.locator("main").innerText()).toMatch(/Based on 2 readings by Tobias and Ines/);
  });

  test("[UI-81] while a reading is open its own reader is blind too, and may ask", async () => {
    await go(page, address, "/reading/demo-juniper/feel");
    await choose(page, "Pointed");
    await untilSaved(page);
    await go(page, address, "/animal/demo-juniper");
    await page.getByText("Your own reading of this head is not finished.").waitFor();
    expect(await aboutTheHead()).not.toMatch(LEADING);
    await follow(page, "Show me the answer");
    await page.locator(".squares").waitFor();
    await untilHeading(page, "Two readers, two findings");
  });
});

describe("two kids of a litter", () => {
  test("[UI-82] in two columns on a small phone, on one denominator, each sign on one line", async () => {
    await go(page, address, "/compare/demo-fescue");
    await untilHeading(page, /Fescue/);
    await page.locator("table.pair").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await page.locator("table.pair thead th").count()).toBe(2);
    const text = await page.locator("table.pair").innerText();
    const denominators = [...text.matchAll(/\d+ in (\d+)/g)].map(([, of]) => of);
    expect(new Set(denominators)).toEqual(new Set(["20"]));
    expect(errors).toEqual([]);
  });

  test("[UI-82] a kid without a litter mate is told so", async () => {
    await go(page, address, "/compare/demo-wren");
    await page.getByText("This kid has no litter mate to stand beside.").waitFor();
    await press(page, "Back");
  });
});
