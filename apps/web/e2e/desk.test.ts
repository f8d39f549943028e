import type { Locator, Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { DESK } from "./browser.ts";
import { go, startDemo } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();
let page: Page;

beforeAll(async () => {
  ({ page } = await newPhone(DESK));
  await startDemo(page, address, "Wilhelmine-Charlotte");
});

const boxOf = async (selector: string) => {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`not on the page: ${selector}`);
  return { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
};

type Box = Awaited<ReturnType<typeof boxOf>>;
/** Where each of some parts of the page is. */
const boxesOf = (parts: Locator): Promise<readonly Box[]> =>
  parts.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON() as DOMRect));

const touch = (one: Box, two: Box): boolean =>
  one.left < two.right && two.left < one.right && one.top < two.bottom && two.top < one.bottom;

/** Those that an earlier one of them touches. */
const touching = (boxes: readonly Box[]): readonly Box[] =>
  boxes.flatMap((one, at) => boxes.slice(at + 1).filter((two) => touch(one, two)));

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

test("[UI-285] the timeline marks today, begins where the longest name ends, and keeps its days in sight", async () => {
  await go(page, address, "/plan");
  const head = page.locator(".timeline.head");
  await head.waitFor();
  expect(await head.getByText("Today").count()).toBe(1);
  // The longest name of the demo herd's rows leaves less than half a name's room at its left.
  const frame = await boxOf(".timeline-frame");
  const lefts = await page
    .locator(".timeline:not(.head) text")
    .evaluateAll((names) => names.map((name) => name.getBoundingClientRect().left));
  expect(Math.min(...lefts) - frame.left).toBeLessThan(40);
  await page.locator(".timeline-frame").evaluate((one) => {
    one.style.maxHeight = "200px";
    one.scrollTop = 150;
  });
  expect(Math.abs((await boxOf(".timeline.head")).top - frame.top)).toBeLessThan(6);
});

test("[UI-377] no two words at the timeline's head touch, and no vet day's mark runs through one", async () => {
  await go(page, address, "/plan");
  const head = page.locator(".timeline.head");
  await head.waitFor();
  const [words, marks] = [await boxesOf(head.locator("text")), await boxesOf(head.locator('path[stroke-width="4"]'))];
  expect(marks.length).toBeGreaterThan(1);
  expect(touching(words)).toEqual([]);
  expect(marks.flatMap((mark) => words.filter((word) => touch(mark, word)))).toEqual([]);
});

test("[UI-286] at the desk what was entered stands one line each, and a goat's kids two abreast", async () => {
  await go(page, address, "/entries");
  await page.locator(".history-line.struck").first().waitFor();
  const lines = await page
    .locator(".history-line")
    .evaluateAll((rows) => rows.map((row) => row.getBoundingClientRect().height));
  expect(lines.length).toBeGreaterThan(50);
  expect(Math.max(...lines)).toBeLessThanOrEqual(50);
  await go(page, address, "/animal/demo-rook");
  const kids = await page
    .locator(".kids-part .rows > li")
    .evaluateAll((rows) => rows.slice(0, 2).map((row) => row.getBoundingClientRect().top));
  expect(kids[0]).toBe(kids[1]);
});

test("[UI-287] the words of the picture of calls run into no figure", async () => {
  await go(page, address, "/score");
  await page.locator(".calls-picture").waitFor();
  const boxes = await boxesOf(page.locator(".calls-picture text"));
  expect(boxes.length).toBe(8);
  expect(touching(boxes)).toEqual([]);
});

test("[UI-322] at the desk tests, the season and the young stand in tables, each figure under its head, none cut", async () => {
  const firstRow = () => page.locator(".sorted-table tbody tr").first().locator("th, td").allInnerTexts();
  await go(page, address, "/tests");
  await page.locator(".sorted-table").first().waitFor();
  const saves = page.getByRole("columnheader", { name: /Saves/ }).first();
  expect(await saves.getAttribute("aria-sort")).toBe("descending");
  const worthiest = Number((await firstRow())[3]);
  await saves.getByRole("button").click();
  expect(await saves.getAttribute("aria-sort")).toBe("ascending");
  expect(Number((await firstRow())[3])).toBeLessThan(worthiest);
  // Goats that are known already have nothing to weigh, and stand last either way.
  const last = page.locator(".sorted-table").first().locator("tbody tr").last();
  expect(await last.locator("td").allInnerTexts()).toEqual(["Known already", "", "", ""]);

  await go(page, address, "/kept");
  await page.locator(".sorted-table").waitFor();
  await page
    .getByRole("columnheader", { name: /Weight, kg/ })
    .getByRole("button")
    .click();
  const weights = await page.locator(".sorted-table td.weight").allInnerTexts();
  const kg = weights.filter((said) => said !== "").map((said) => Number.parseFloat(said));
  expect(kg.length).toBeGreaterThan(10);
  expect(kg).toEqual(kg.toSorted((a, b) => a - b));

  await go(page, address, "/review");
  const against = page.locator(".sorted-table").first();
  await against.waitFor();
  expect(await against.locator("tbody th").allInnerTexts()).toEqual([
    "Horned, of heads that are known",
    "Signs of both sexes",
    "Bucklings",
  ]);
  for (const path of ["/tests", "/kept", "/review"]) {
    await go(page, address, path);
    await page.locator(".sorted-table").first().waitFor();
    const cut = await page
      .locator(".wide-table")
      .evaluateAll((frames) => frames.map((frame) => frame.scrollWidth - frame.clientWidth));
    expect(Math.max(...cut), path).toBeLessThanOrEqual(0);
  }
});

test("[UI-327] of a long table what is in sight is drawn first, the rest as its end comes near, and all of it on paper", async () => {
  await go(page, address, "/animals");
  await page.locator(".herd-table .chip").first().waitFor();
  const said = await page.locator(".herd-table caption").innerText();
  const all = Number(/^\d+/.exec(said)?.[0]);
  expect(all).toBeGreaterThan(30);
  const rows = page.locator(".herd-table tbody tr");
  expect(await page.locator(".herd-table").getAttribute("aria-rowcount")).toBe(String(all + 1));
  await page.locator(".wide-table").evaluate((frame) => frame.scrollTo(0, frame.scrollHeight));
  await rows.nth(all - 1).waitFor();
  expect(await rows.last().getAttribute("aria-rowindex")).toBe(String(all + 1));
  // Sorted anew it begins at its head again; on paper none may lack.
  await page.locator(".herd-table thead").getByRole("button", { name: "Tag" }).click();
  await page.locator(".herd-table [aria-sort=ascending]", { hasText: "Tag" }).waitFor();
  expect(await rows.count()).toBeLessThan(all);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  expect(await rows.count()).toBe(all);
});
