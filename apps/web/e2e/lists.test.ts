import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { choose, go, press, startDemo, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

async function takeList(page: Page, text: string | Buffer): Promise<void> {
  await go(page, address, "/list");
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "goats.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
}

// Letters as an older spreadsheet writes them: 0xf1 is ñ in Windows-1252.
const LIST = Buffer.concat([
  Buffer.from("Nombre;Arete;Sexo;Nacimiento;Madre\nNi"),
  Buffer.from([0xf1]),
  Buffer.from("a;0012;hembra;03/04/2021;\nPip;0031;;25/04/2025;Ni"),
  Buffer.from([0xf1]),
  Buffer.from("a\nMoss;14;ganso;;\n"),
]);

describe("a list from a spreadsheet", () => {
  test("[UI-141] read, asked about, brought in with one tap, taken back with another, and never twice", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await takeList(page, LIST);
    await page.getByText(/3 rows were read\. Its letters were taken for those of Windows\./).waitFor();
    await page.getByText("Other days of the list show it.").waitFor();
    await page.getByText(/"ganso" is no sex known here/).waitFor();
    await choose(page, "All does");
    await press(page, "Bring in 2 goats");
    await untilSaved(page);
    await page.getByText("There is nothing to bring in.").waitFor();
    await press(page, "Undo");
    await page.getByRole("button", { name: "Bring in 2 goats" }).waitFor();
    await press(page, "Bring in 2 goats");
    await page.getByText("There is nothing to bring in.").waitFor();
    await takeList(page, LIST);
    await page.getByText("Here already: 2").waitFor();
    await go(page, address, "/animals");
    await untilHeading(page, "2 goats");
    await page.getByText("Niña").first().waitFor();
    expect(await page.getByText("0012").count()).toBeGreaterThan(0);
    expect(errors).toEqual([]);
  });

  test("[UI-141] what the list says otherwise is entered only where it is ticked; a column is chosen anew", async () => {
    const { page } = await newPhone();
    await startOwnHerd(page, address);
    await takeList(page, "Name,Ear,Sex\nHazel,12,f\n");
    await page.getByLabel("Ear", { exact: true }).selectOption("tag");
    await press(page, "Bring in 1 goat");
    await untilSaved(page);
    await takeList(page, "Name,Tag,Sex,Breed\nHazel,12,f,Saanen\n");
    await page.getByText("There is nothing to bring in.").waitFor();
    await page.getByLabel("breed: Saanen").check();
    await press(page, "Change 1 goat");
    await untilSaved(page);
    await page.getByText("Here already: 1").waitFor();
  });

  test("[UI-379] a bought polled doe of whom the list says that she has kidded is in the plan from the start", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await takeList(page, "Name,Sex,Horns,Kiddings\nSedge,f,polled,2\nWren,f,polled,\nFlint,m,horned,\n");
    await page.getByText("Doe, has kidded").waitFor({ state: "attached" });
    await press(page, "Bring in 3 goats");
    await untilSaved(page);
    await go(page, address, "/pairings");
    await page.getByText("Not paired, intersex is not ruled out: Wren.").waitFor();
    await page.locator(".sheet-page").getByRole("link", { name: /Sedge/ }).waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-369] a list without headings says that nobody is called; rows that stay behind are counted beside the key", async () => {
    const { page } = await newPhone();
    await startOwnHerd(page, address);
    await takeList(page, "Alder,001,F\nBirch,002,F\n");
    await page.getByText("No column is known to hold names or tags.").waitFor();
    await page.getByLabel("Alder", { exact: true }).selectOption("name");
    await page.getByText("No column is known to hold names or tags.").waitFor({ state: "detached" });
    await takeList(page, "Name,Sex,Born\nHazel,f,2019\nFern,f,2019-03-04\n");
    await page.getByText('"2019" is only a year.').waitFor();
    await page.getByRole("button", { name: "Bring in 1 goat" }).waitFor();
    await page.getByText("1 row cannot come in.").waitFor();
  });

  test("[UI-142] the tables are packed with the ledger and its schema; brought in again they change nothing", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/tables");
    await choose(page, "Put an apostrophe in front");
    const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make the tables")]);
    expect(download.suggestedFilename()).toMatch(/^pollard-.*-tables-\d{4}-\d{2}-\d{2}\.zip$/);
    const files = unzipSync(readFileSync(await download.path()));
    const names = Object.keys(files);
    expect(names).toEqual(expect.arrayContaining(["herd.jsonl", "herd-entry.schema.json", "animals.csv", "care.csv"]));
    const animals = strFromU8(files["animals.csv"] ?? new Uint8Array());
    expect(animals).toMatch(/^id,name,tag,chip,.*\r\n/);
    await takeList(page, animals);
    await page.getByText("Here already: 56").waitFor();
    await page.getByText("There is nothing to bring in.").waitFor();
  });
});
