import { readFileSync } from "node:fs";
import { addDays, type Day, day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import type { Page } from "playwright-core";
import { beforeEach, describe, expect, test } from "vitest";
import { DESK } from "./browser.ts";
import type { RunningHub } from "./hub-process.ts";
import { paperText } from "./paper-text.ts";
import { choose, go, press, sayWho, startDemo } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { newPhone, startHub } = underTest();
let hub: RunningHub;

beforeEach(async () => {
  hub = await startHub();
});

const KIDS = 60;
const two = (n: number): string => String(n).padStart(2, "0");
const nameOf = (kid: number): string => `Rush${two(kid)},`;
const tagOf = (kid: number): string => `TAG${two(kid)}T`;
/** Ends a remark of so many lines that a row which may be split is split in it. */
const endOf = (kid: number): string => `END${two(kid)}E`;

/** A herd with sixty kids for the vet, born yesterday of thirty does, open at the desk. */
async function sixtyKids(today: Day): Promise<Page> {
  const of = (on: Day) => ({ herd: "sixty-kids", on });
  const does = Array.from({ length: KIDS / 2 }, (_, at) => at);
  const entries = [
    anEntry("setting", { key: "herd-name", value: "Rushfield" }, of(addDays(today, -9))),
    ...does.flatMap((at) => [
      anEntry(
        "animal",
        { animal: animalId(`doe-${at}`), name: `Doe ${at}`, sex: "doe", head: "horned" },
        of(addDays(today, -9)),
      ),
      anEntry(
        "kidding",
        {
          dam: animalId(`doe-${at}`),
          kids: [2 * at, 2 * at + 1].map((kid) => ({
            kid: animalId(`kid-${kid}`),
            sex: "doe" as const,
            born: "alive" as const,
            name: `Rush${two(kid)}`,
            tag: tagOf(kid),
          })),
        },
        of(addDays(today, -1)),
      ),
    ]),
    anEntry("vet-day", { vet: "Dr. Amaro" }, of(addDays(today, 4))),
    ...Array.from({ length: KIDS }, (_, kid) =>
      anEntry(
        "note",
        { animal: animalId(`kid-${kid}`), text: `${"coughs after feeding and lies apart ".repeat(5)}${endOf(kid)}` },
        of(today),
      ),
    ),
    ...Array.from({ length: KIDS }, (_, kid) =>
      anEntry("choice", { kid: animalId(`kid-${kid}`), choice: "vet-list", day: addDays(today, 4) }, of(today)),
    ),
  ];
  const sent = await fetch(`${hub.address}/api/herds/sixty-kids/entries`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ exchange: 1, entries }),
  });
  expect(sent.status).toBe(200);
  const { page } = await newPhone(DESK);
  await page.goto(hub.address);
  await press(page, /Rushfield/);
  await sayWho(page, "Ines");
  return page;
}

/** The pages of the sheet that is on the screen, printed as the file that it is kept as. */
async function printed(page: Page): Promise<readonly string[]> {
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Keep as a file")]);
  const sheet = await page.context().newPage();
  await sheet.setContent(readFileSync(await download.path(), "utf8"));
  const pages = paperText(await sheet.pdf({ preferCSSPageSize: true }));
  await sheet.close();
  return pages.map((text) => text.replaceAll(/\s+/g, " "));
}

describe("sheets of a herd with sixty kids", () => {
  test("[UI-370] the browser's own key for printing prints the sheet, not the page around it", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, hub.address);
    await go(page, hub.address, "/sheet/barn");
    await page.frameLocator(".paper iframe").locator("h1").waitFor();
    await page.evaluate(() => {
      const said: string[] = [];
      Object.assign(window, { said, print: () => said.push("page") });
      const sheet = document.querySelector("iframe")?.contentWindow;
      if (sheet) sheet.print = () => said.push("sheet");
    });
    await page.keyboard.press("Control+p");
    expect(await page.evaluate("said")).toEqual(["sheet"]);
    expect(errors).toEqual([]);
  });

  test("[UI-251] on A4 and Letter no row is split, the head of a table comes again, and each page says its number and day", async () => {
    const today = day(new Date(Date.now()).toISOString().slice(0, 10));
    const page = await sixtyKids(today);
    await page.getByText("Rush00").first().waitFor();
    for (const paper of ["A4", "Letter"]) {
      for (const sheet of [`vet/${addDays(today, 4)}`, "barn"]) {
        await go(page, hub.address, `/sheet/${sheet}`);
        await choose(page, paper, "Which paper?");
        await page.locator(".paper iframe").waitFor();
        const pages = await printed(page);
        for (const [at, text] of pages.entries()) {
          expect(text, `${sheet} ${paper}`).toContain(`Page ${at + 1} of ${pages.length}`);
          expect(text).toContain("Rushfield");
          expect(text).toMatch(/as of \w{3} \d{4}-\d\d-\d\d/);
        }
        if (sheet === "barn") continue;
        expect(pages.length).toBeGreaterThan(3);
        const rows = Array.from({ length: KIDS }, (_, kid) => [nameOf(kid), tagOf(kid), endOf(kid)]);
        for (const row of rows) {
          const on = row.map((words) => pages.flatMap((text, at) => (text.includes(words) ? [at] : [])));
          expect(on, `${row.join(" ")} on ${paper}`).toEqual(row.map(() => [on[0]?.[0]]));
        }
        for (const text of pages.filter((each) => /TAG\d\dT/.test(each)))
          expect(text).toContain("KidAge that dayWeightHead");
      }
    }
  });
});
