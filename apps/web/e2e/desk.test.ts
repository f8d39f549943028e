import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { DESK, launchBrowser, newPhone } from "./browser.ts";
import { go, startDemo } from "./steps.ts";

const address = inject("address");
let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await launchBrowser();
  ({ page } = await newPhone(browser, DESK));
  await startDemo(page, address, "Wilhelmine-Charlotte");
});
afterAll(async () => {
  await browser.close();
});

const boxOf = async (selector: string) => {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`not on the page: ${selector}`);
  return { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
};

test("[UI-280] at the desk the keys of a page stand at its head, beside the holder's name, and cover nothing", async () => {
  for (const side of ["right", "left"]) {
    await page.evaluate((hand) => localStorage.setItem("pollard-look", `day bare ${hand}`), side);
    await page.reload();
    for (const path of ["/", "/animals", "/pedigree", "/sheet/barn"]) {
      await go(page, address, path);
      await page.locator(".dock .press").last().waitFor();
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      const board = await boxOf(".board");
      for (const key of await page.locator(".dock .press").all()) {
        const box = await key.boundingBox();
        if (box === null) throw new Error("a key that is not drawn");
        expect(box.height, path).toBeGreaterThanOrEqual(48);
        expect(box.y, path).toBeGreaterThanOrEqual(board.top);
        expect(box.y + box.height, path).toBeLessThanOrEqual(board.bottom);
        for (const other of await page.locator(".board .board-key").all()) {
          const beside = await other.boundingBox();
          if (beside === null) throw new Error("a key of the head that is not drawn");
          const gap = Math.max(beside.x - (box.x + box.width), box.x - (beside.x + beside.width));
          expect(gap, `${path} ${side}`).toBeGreaterThanOrEqual(8);
        }
      }
    }
  }
});

test("[UI-281] at the desk what is planned stands beside what is due", async () => {
  await go(page, address, "/");
  await page.getByRole("heading", { name: "Later" }).waitFor();
  const now = await boxOf("section[aria-label=Now]");
  const later = await boxOf("section[aria-label=Later]");
  expect(Math.abs(now.top - later.top)).toBeLessThan(4);
  expect(later.left).toBeGreaterThan(now.right);
});

test("[UI-282] at the desk the herd's questions stand in two lines, every column is in sight, every row one height", async () => {
  await go(page, address, "/animals");
  await page.locator(".herd-table .chip").first().waitFor();
  const board = await boxOf(".board");
  const table = await boxOf(".herd-table thead");
  expect(table.top - board.bottom).toBeLessThanOrEqual(170);
  const cut = await page.locator(".wide-table").evaluate((frame) => frame.scrollWidth - frame.clientWidth);
  expect(cut).toBeLessThanOrEqual(0);
  const heights = await page
    .locator(".herd-table tbody tr")
    .evaluateAll((rows) => rows.map((row) => Math.round(row.getBoundingClientRect().height)));
  expect(heights.length).toBeGreaterThan(20);
  expect(Math.max(...heights)).toBeLessThanOrEqual(50);
});

test("[UI-283] at the desk the grid of every pair comes first, and the plan stands beside it", async () => {
  await go(page, address, "/pairings");
  await page.getByRole("button", { name: "Print this plan" }).waitFor();
  const grid = await boxOf(".pair-grid");
  const plan = await boxOf(".sheet-page");
  expect(plan.left).toBeGreaterThanOrEqual(grid.right);
  expect(plan.top).toBeLessThan(grid.top);
  expect(grid.top).toBeLessThan(300);
});

test("[UI-284] at the desk what is one step away stands under the place one is in, and says where one is", async () => {
  const near = () => page.locator(".places .near").allInnerTexts();
  const current = () => page.locator(".places [aria-current=page]").allInnerTexts();
  await go(page, address, "/");
  expect(await near()).toEqual([]);
  for (const [path, place, step] of [
    ["/animals", "Animals", "Pedigree"],
    ["/plan", "Plan", "The coming years"],
  ] as const) {
    await go(page, address, path);
    expect(await current()).toEqual([place]);
    expect(await near()).toContain(step);
    // The steps follow their place for the keys, too.
    await page.locator(".places").getByRole("link", { name: place, exact: true }).focus();
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe((await near())[0]);
    await page.locator(".places").getByRole("link", { name: step }).click();
    await page.locator(".places .near[aria-current=page]").waitFor();
    expect(await current()).toEqual([step]);
  }
  await go(page, address, "/sheet/kid/demo-ember");
  expect(await current()).toEqual(["Animals"]);
});
