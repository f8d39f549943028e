import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Phone } from "./browser.ts";
import { choose, follow, go, press, startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** The demo herd on a phone of its own. What the page's policy refused is among the errors. */
async function demo(): Promise<Phone> {
  const phone = await newPhone();
  const { page, errors } = phone;
  page.on("console", (said) => {
    if (said.type() === "error" && said.text().includes("Content Security Policy")) errors.push(said.text());
  });
  await startDemo(page, address);
  return phone;
}

const proposed = (page: Page) => page.locator("li.card.hatched h3");

/** Downloads what a press hands out: its name and its text. */
async function handedOut(page: Page, key: string): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, key)]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

describe("the season on a small phone", () => {
  test("[AD-49] before a young doe's mating is stored the screen warns of her age and weight, and forbids nothing", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/service/demo-quince");
    await page.getByText("Quince is 3 months old.").waitFor();
    await page.getByText(/^Quince weighs .* Before her first mating/).waitFor();
    expect(await page.getByRole("button", { name: "Store this mating" }).isEnabled()).toBe(true);
    expect(errors).toEqual([]);
  });

  test("[UI-60] a day is agreed to with one tap and taken back with one; a refused day stays out of the plan", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/plan");
    await proposed(page).first().waitFor();
    expect(await page.locator("svg.twenty").first().locator("circle").count()).toBe(20);
    const days = await proposed(page).allInnerTexts();
    await page.locator("summary").filter({ hasText: "What to expect that day" }).first().click();
    await page.locator("summary").filter({ hasText: "How many heads to ask for?" }).first().click();
    await page
      .getByText(/Room for \d+ heads? is enough in/)
      .first()
      .waitFor();

    await press(page, /^The vet agreed/);
    await page.getByText("Vet day:").waitFor();
    await untilSaved(page);
    await page.waitForFunction((n) => document.querySelectorAll("li.card.hatched h3").length === n, days.length - 1);
    await press(page, "Undo");
    await page.waitForFunction((n) => document.querySelectorAll("li.card.hatched h3").length === n, days.length);

    await press(page, /^Not this day/);
    await page.waitForFunction(
      (day) => ![...document.querySelectorAll("li.card h3")].some((h) => h.textContent === day),
      days[0],
    );
    await follow(page, "When can the vet come?");
    await untilHeading(page, "When the vet can come");
    await page
      .getByRole("listitem")
      .filter({ hasText: days[0] ?? "" })
      .waitFor();
    await press(page, /^Free again/);
    await page.getByText("No day is blocked.").waitFor();
    await page.getByRole("checkbox", { name: "Tue" }).check();
    await page.getByRole("checkbox", { name: "Thu" }).check();
    await page.getByText("Weekdays: Tue, Thu.").waitFor();
    await go(page, address, "/plan");
    await page.waitForFunction(() => {
      const heads = [...document.querySelectorAll("li.card.hatched h3")];
      return heads.length > 0 && heads.every((head) => /^T(ue|hur)sday/.test(head.textContent));
    });
    expect(errors).toEqual([]);
  });

  test("[UI-359] Plan says each visit and each doe in a line that keys open; at the desk all of it stands open", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/plan");
    const yarrow = page.getByRole("listitem").filter({ hasText: "Yarrow" }).filter({ hasText: "Open her page" });
    const line = yarrow.locator("summary").first();
    await line.getByText(/^About .*In kid: about \d+ in 20\.$/).waitFor();
    const dots = page.locator("svg.twenty:visible");
    expect(await dots.count()).toBe(0);
    expect(await yarrow.getByRole("link", { name: /^Open her page/ }).count()).toBe(0);
    await line.focus();
    await page.keyboard.press("Enter");
    await dots.first().waitFor();
    expect(await yarrow.getByRole("link", { name: /^Open her page/ }).count()).toBe(1);
    await page.keyboard.press("Enter");
    await dots.first().waitFor({ state: "hidden" });
    await page.setViewportSize({ width: 1280, height: 800 });
    await dots.first().waitFor();
    expect(await dots.count()).toBe(await page.locator("svg.twenty").count());
    expect(errors).toEqual([]);
  });

  test("[UI-64] a scan from the doe's page: she counts as in kid", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/animal/demo-yarrow");
    await follow(page, "Enter what you saw");
    await press(page, "Store this");
    await page.getByText("Say first what you saw.").waitFor();
    await page.getByRole("radio", { name: /A pregnancy check/ }).check();
    await choose(page, "In kid");
    await choose(page, "2");
    await choose(page, "Scan");
    await choose(page, "Yesterday");
    await press(page, "Store this");
    await untilHeading(page, "What is known");
    await go(page, address, "/plan");
    const yarrow = page.getByRole("listitem").filter({ hasText: "Yarrow" }).filter({ hasText: "Open her page" });
    await yarrow.locator("summary").first().click();
    await yarrow.getByText(/In kid, as checked\. Most likely two kids/).waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-65] care is done with one tap and taken back; what is put off needs a day and a reason", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/care");
    const navel = page.getByRole("region", { name: "Dip the navel" });
    await navel.getByRole("button", { name: /^Done: Dip the navel, Barley/ }).click();
    await untilSaved(page);
    await navel.waitFor({ state: "detached" });
    await press(page, "Undo");
    await navel.waitFor();

    await navel.getByRole("link", { name: /^Not done, or more to say/ }).click();
    await choose(page, "Put off");
    await press(page, "Store this");
    await page.getByText(/Choose until when/).waitFor();
    await choose(page, "Tomorrow");
    await choose(page, "No time today");
    await press(page, "Store this");
    await navel.getByText("Put off to tomorrow. Because: No time today.").waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-70] the vet's sheet is drawn, kept and remembered with the network off", async () => {
    const { page, errors } = await demo();
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await go(page, address, "/plan");
    await page.getByRole("link", { name: "Open the list" }).waitFor();
    await page.context().setOffline(true);
    await follow(page, "Open the list");
    await follow(page, "Print this list");
    const sheet = page.frameLocator("iframe");
    await sheet.getByRole("heading", { name: /^Vet's list/ }).waitFor();
    await sheet.getByRole("cell", { name: /Fescue/ }).waitFor();
    const drawn = await sheet.locator("td, col").evaluateAll((cells) => ({
      line: cells.some((cell) => parseFloat(getComputedStyle(cell).borderTopWidth) > 0),
      widths: cells.some((cell) => cell.tagName === "COL" && (cell as HTMLElement).style.width.endsWith("mm")),
    }));
    expect(drawn).toEqual({ line: true, widths: true });
    const file = await handedOut(page, "Keep as a file");
    expect(file.name).toMatch(/^pollard-vet-s-list-.*\.html$/);
    expect(file.text).toContain("Fescue");
    await page.getByRole("button", { name: "Back" }).click();
    await page.getByText("The list is the same since.").waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-70] a buyer's paper shows notes only when ticked", async () => {
    const { page, errors } = await demo();
    await go(page, address, "/fact/demo-ember");
    await choose(page, "Note");
    await page.getByLabel(/^Note/).last().fill("bites the postman");
    await press(page, "Store this");
    await untilHeading(page, "Ember");
    await follow(page, "Paper for the buyer");
    const sheet = page.frameLocator("iframe");
    await sheet.getByRole("heading", { name: /Ember/ }).waitFor();
    expect(await sheet.locator("body").innerText()).not.toContain("postman");
    await choose(page, "Yes, show them");
    await sheet.getByText("bites the postman").waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-71] the calendar file goes out, and the kidding-time banner leads to what visitors must know", async () => {
    const { page, errors } = await demo();
    await follow(page, /Kids are being born here/);
    await page.getByText("Do not touch newborn kids").waitFor();
    await go(page, address, "/plan");
    const file = await handedOut(page, "Give the calendar file");
    expect(file.name).toMatch(/^pollard-sallowbank-\d{4}-\d{2}-\d{2}\.ics$/);
    expect(file.text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(file.text).toContain("is due to kid");
    expect(errors).toEqual([]);
  });
});
