import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { go, sayWho, startOwnHerd, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/**
 * How long a first-time keeper takes: what is new on a page is read, each press is found and made, each letter typed. Silent
 * reading of plain text runs at some 238 words a minute (Brysbaert 2019, J Mem Lang 109:104047, from memory); the other figures
 * are our judgement.
 */
const WORDS_A_MINUTE = 238;
const PRESS_S = 1.5;
const LETTER_S = 0.5;
/** Nobody reads on once they have seen what to press; of a long page this much is read. A line that was read before is not read again. */
const MOST_WORDS_READ = 30;
const TWO_MINUTES_S = 120;

/** Walks as a person would, and counts. */
class Walker {
  seconds = 0;
  presses = 0;
  readonly #page: Page;
  readonly #seen = new Set<string>();

  constructor(page: Page) {
    this.#page = page;
  }

  async read(): Promise<void> {
    const lines = (await this.#page.locator("main, .dock").allInnerTexts()).join("\n").split("\n");
    const fresh = lines.filter((line) => line.trim() !== "" && !this.#seen.has(line));
    for (const line of fresh) this.#seen.add(line);
    const words = fresh.join(" ").split(/\s+/).length;
    this.seconds += (Math.min(words, MOST_WORDS_READ) / WORDS_A_MINUTE) * 60;
  }

  async press(role: "button" | "link" | "radio", name: string | RegExp): Promise<void> {
    const target = this.#page.getByRole(role, { name, ...(typeof name === "string" ? { exact: true } : {}) }).first();
    await (role === "radio" ? target.check() : target.click());
    this.presses++;
    this.seconds += PRESS_S;
  }

  async type(label: RegExp | string, text: string): Promise<void> {
    await this.#page.getByLabel(label).first().fill(text);
    this.presses++;
    this.seconds += PRESS_S + text.length * LETTER_S;
  }

  async who(): Promise<void> {
    await untilHeading(this.#page, /using this device/);
    await this.read();
    await this.type("Name", "Ines");
    await this.press("button", "Next");
    await this.read();
    await this.press("button", "Start");
    await this.#page.getByRole("link", { name: "Find" }).waitFor();
    await this.read();
  }

  async readHead(): Promise<void> {
    for (const [question, answer] of [
      [/What do you feel/, "Pointed"],
      [/Does the skin/, "Held fast"],
      [/whorl of hair/, "Clear whorl"],
      [/shape is the crown/, "Flat"],
    ] as const) {
      await untilHeading(this.#page, question);
      await this.read();
      await this.press("radio", answer);
      await this.press("button", "Next");
    }
    await this.read();
    await this.press("button", "Store this reading");
    await this.#page.locator(".squares").waitFor();
  }
}

/** From the first line of the first page. The time the phone itself takes is counted too. */
async function firstReading(walk: (walker: Walker, page: Page) => Promise<void>): Promise<Walker> {
  const { page, errors } = await newPhone();
  const from = performance.now();
  await page.goto(address);
  const walker = new Walker(page);
  await walker.read();
  await walk(walker, page);
  walker.seconds += (performance.now() - from) / 1000;
  expect(errors).toEqual([]);
  return walker;
}

describe("regressions", () => {
  test("[UI-108] a browser that asks a person about storage, and gets no answer, holds nothing up", async () => {
    const { page } = await newPhone();
    await page.addInitScript(() => {
      navigator.storage.persist = () => new Promise(() => undefined);
    });
    await startOwnHerd(page, address);
    await untilHeading(page, /\d/);
  });
});

describe("who began a herd", () => {
  test("[UI-295] a herd's name is entered by the person who was asked for; a phone that dies before keeps it", async () => {
    const { page } = await newPhone();
    await page.goto(address);
    await page.getByRole("button", { name: /Start my own herd/ }).click();
    await page.getByLabel(/herd called/).fill("Thornfield");
    await page.getByRole("button", { name: "Next" }).click();
    await untilHeading(page, /using this device/);
    await page.reload();
    await page.getByRole("button", { name: "Thornfield" }).click();
    await sayWho(page, "Ines");
    await go(page, address, "/entries");
    const lines = page.locator(".history-line");
    await lines.first().waitFor();
    expect(await lines.allInnerTexts()).toEqual([expect.stringMatching(/^Setting[^]*by Ines/)]);
    await page.reload();
    await lines.first().waitFor();
    expect(await lines.count()).toBe(1);
  });
});

describe("the first two minutes", () => {
  test("[UI-107] with the invented herd: the first head is read within two minutes", async () => {
    const walker = await firstReading(async (person) => {
      await person.press("button", /Look around/);
      await person.who();
      await person.press("link", /Read .*'s head/);
      await person.readHead();
    });
    expect(walker.seconds).toBeLessThan(TWO_MINUTES_S);
    expect(walker.presses).toBeLessThanOrEqual(14);
  });

  test("[UI-107] with a herd of one's own, from a newborn kid that stands there: within two minutes", async () => {
    const walker = await firstReading(async (person, page) => {
      await person.press("button", /Start my own herd/);
      await person.type(/herd called/, "Thornfield");
      await person.press("button", "Next");
      await person.who();
      await person.press("link", /Add a goat/);
      await person.read();
      await person.type(/^Name/, "Moss");
      await person.press("radio", "Doe");
      await person.press("radio", "Today");
      await person.press("button", "Add this goat");
      await untilHeading(page, "Moss");
      await person.read();
      await person.press("link", "Read this head");
      await person.readHead();
    });
    expect(walker.seconds).toBeLessThan(TWO_MINUTES_S);
    expect(walker.presses).toBeLessThanOrEqual(22);
  });
});
