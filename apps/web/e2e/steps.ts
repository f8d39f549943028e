import type { Page } from "playwright-core";

/* What a keeper does, as the tests do it. */

export const press = (page: Page, name: string | RegExp) => page.getByRole("button", { name }).first().click();
export const choose = (page: Page, name: string, question?: string | RegExp) =>
  (question === undefined ? page : page.getByRole("group", { name: question }))
    .getByRole("radio", { name, exact: true })
    .first()
    .check();
export const follow = (page: Page, name: string | RegExp) => page.getByRole("link", { name }).first().click();

/** Waits until the page says that the last answer is on this phone's disk. */
export const untilSaved = (page: Page) =>
  page
    .getByText(/^Saved on this device/)
    .first()
    .waitFor();

/** Waits until the page holds a heading. */
export const untilHeading = (page: Page, name: string | RegExp) =>
  page.getByRole("heading", { name }).first().waitFor();

/** From the first page to Today: an own herd, a name, the look. */
export async function startOwnHerd(page: Page, address: string, herd = "Thornfield", who = "Ines"): Promise<void> {
  await page.goto(address);
  await press(page, /Start my own herd/);
  await page.getByLabel(/herd called/).fill(herd);
  await press(page, "Next");
  await sayWho(page, who);
}

/** From the first page to Today: the invented herd. */
export async function startDemo(page: Page, address: string, who = "Ines"): Promise<void> {
  await page.goto(address);
  await press(page, /Look around/);
  await sayWho(page, who);
  await page.getByRole("link", { name: /Moth/ }).first().waitFor();
}

/** The two questions after the herd was chosen; then Today. */
export async function sayWho(page: Page, who: string): Promise<void> {
  await untilHeading(page, /using this device/);
  await page.getByLabel("Name").fill(who);
  await press(page, "Next");
  await press(page, "Start");
  await page.getByRole("link", { name: "Find" }).waitFor();
}

export async function go(page: Page, address: string, path: string): Promise<void> {
  await page.goto(`${address}/#${path}`);
  await page.locator("h1").first().waitFor();
}

/** Adds a grown goat. */
export async function addGoat(
  page: Page,
  address: string,
  goat: { readonly name: string; readonly sex: string; readonly head?: string; readonly breed?: string },
): Promise<void> {
  await go(page, address, "/add");
  await page.getByLabel(/^Name/).fill(goat.name);
  await choose(page, goat.sex, "Sex");
  if (goat.breed !== undefined) await page.getByLabel("Breed").fill(goat.breed);
  if (goat.head !== undefined) await choose(page, goat.head, /Grown head/);
  await untilSaved(page);
  await press(page, "Add this goat");
  await untilHeading(page, goat.name);
}

/** Exchanges from the page Safe, until that has ended and nothing is on this device only. */
export async function exchangeNow(page: Page, address: string): Promise<void> {
  await go(page, address, "/safe");
  await press(page, "Exchange now");
  // What is said of the hub may be from before; while an exchange lasts the key says so.
  await page.getByRole("button", { name: "Exchange now" }).waitFor();
  await page
    .getByText(/^Everything is on the hub/)
    .first()
    .waitFor();
}

/** From Today, the doe Hazel kids: the kidding's first page. */
export async function openKidding(page: Page): Promise<void> {
  await follow(page, "Kidding");
  await follow(page, "Another doe");
  await press(page, "By name");
  await page.getByLabel("Name").fill("Haz");
  await follow(page, /Hazel/);
  await untilHeading(page, "Kid 1");
}

/** Reads the head of the kid whose first question is on the page, one question at a time, up to its answer. */
export async function readHead(
  page: Page,
  signs: { readonly feel: string; readonly skin: string; readonly whorls: string; readonly crown: string },
): Promise<void> {
  for (const [question, answer] of [
    [/What do you feel/, signs.feel],
    [/Does the skin/, signs.skin],
    [/whorl of hair/, signs.whorls],
    [/shape is the crown/, signs.crown],
  ] as const) {
    await untilHeading(page, question);
    await page.getByRole("radio", { name: answer, exact: true }).check();
    await untilSaved(page);
    await press(page, "Next");
  }
  await press(page, "Store this reading");
  await page.locator(".squares").waitFor();
}
