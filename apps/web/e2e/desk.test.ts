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
