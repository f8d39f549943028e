import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { DESK, launchBrowser, newPhone } from "./browser.ts";
import { choose, go, press, startDemo, untilHeading, untilSaved } from "./steps.ts";

let browser: Browser;
const address = inject("address");
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
});

describe("planning the breeding", () => {
  test("[UI-91] the grid by keyboard: arrows move, Enter opens the pair, a wish is kept and changes the plan", async () => {
    const { context, page, errors } = await newPhone(browser, DESK);
    await startDemo(page, address);
    await go(page, address, "/pairings");
    const grid = page.getByRole("grid");
    await grid.waitFor();
    await grid.locator('a[tabindex="0"][data-cell]').focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowDown");
    const label = await page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");
    expect(label).toMatch(/ with .*: \d+ in 20 kids with horns/);
    await page.keyboard.press("Enter");
    await untilHeading(page, / × /);

    await go(page, address, "/pair/demo-hazel/demo-rook");
    await untilHeading(page, /Hazel × Rook/);
    await choose(page, "She goes to him");
    await untilSaved(page);
    await go(page, address, "/pairings/demo-hazel");
    await page.getByText("Hazel with Rook").first().waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });

  test("[UI-93] a forecast is worked out with the network off, and says what it rests on", async () => {
    const { context, page, errors } = await newPhone(browser);
    await startDemo(page, address);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await go(page, address, "/forecast");
    await context.setOffline(true);
    await choose(page, "1 year");
    await press(page, "Work it out");
    await page.getByText(/simulated herds; nine in ten/).waitFor();
    await go(page, address, "/review");
    await untilHeading(page, /season/);
    await go(page, address, "/kept");
    await page
      .getByText(/intersex is not ruled out/i)
      .first()
      .waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });
});
