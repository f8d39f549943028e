import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { addGoat, go, press, sayWho, startOwnHerd, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** Brings text in as a file on the Safe page, and gives what is said about it. */
async function bringIn(page: Page, name: string, text: string): Promise<string> {
  // From another page, so that nothing is said any more of a file before.
  await go(page, address, "/help");
  await go(page, address, "/safe");
  await page.locator("input[type=file]").setInputFiles({ name, mimeType: "text/plain", buffer: Buffer.from(text) });
  await page.locator("output.card").waitFor();
  return page.locator("output.card").innerText();
}

async function backupOf(page: Page): Promise<string> {
  await go(page, address, "/safe");
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup file")]);
  expect(download.suggestedFilename()).toMatch(/^pollard-thornfield-\d{4}-\d{2}-\d{2}\.jsonl$/);
  const backup = readFileSync(await download.path(), "utf8");
  await page.getByText(/Last backup today/).waitFor();
  return backup;
}

describe("backup files", () => {
  test("[UI-15] out and in again: nothing doubled; damaged: one sentence and the rest is in; not ours: nothing changes", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe" });
    await addGoat(page, address, { name: "Flint", sex: "Buck" });
    const backup = await backupOf(page);
    expect(await bringIn(page, "same.jsonl", backup)).toBe("0 entries came in, 3 were here already.");

    expect(await bringIn(page, "goats.csv", "name;tag\nHazel;12\n")).toBe(
      "This is a table, not a Pollard backup. Nothing was changed.",
    );
    expect(await bringIn(page, "odd.json", '{"goats": 3}')).toBe("This is not a Pollard backup. Nothing was changed.");

    // The hub would fill in what the damaged file lacks: this phone has none.
    const other = await newPhone();
    await other.context.route("**/api/**", (route) => route.abort());
    await other.page.goto(address);
    const damaged = backup.replace('"name":"Flint"', '"name":Flint"');
    await other.page
      .locator("input[type=file]")
      .setInputFiles({ name: "b.jsonl", mimeType: "text/plain", buffer: Buffer.from(damaged) });
    await sayWho(other.page, "Tobias");
    expect(await bringIn(other.page, "b.jsonl", damaged)).toContain(
      "1 line of the file could not be read. The others are in.",
    );
    await go(other.page, address, "/animals");
    await untilHeading(other.page, "1 goat");
    expect([...errors, ...other.errors]).toEqual([]);
  });

  test("[UI-144] rehearsed: backed up, erased, brought in again, it is the same herd to the letter", async () => {
    const { page } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe", head: "Horned" });
    await addGoat(page, address, { name: "Flint", sex: "Buck" });
    const backup = await backupOf(page);
    await press(page, "Erase this herd from this device");
    await press(page, "Erase it now");
    await untilHeading(page, "Which herd?");
    await page
      .locator("input[type=file]")
      .setInputFiles({ name: "b.jsonl", mimeType: "text/plain", buffer: Buffer.from(backup) });
    await sayWho(page, "Tobias");
    const again = await backupOf(page);
    expect(again.split("\n").slice(1)).toEqual(backup.split("\n").slice(1));
  });

  test("[UI-144] a file of another herd is said to be one, kept apart, and opened only when asked", async () => {
    const [one, two] = [await newPhone(), await newPhone()];
    await startOwnHerd(one.page, address);
    await addGoat(one.page, address, { name: "Hazel", sex: "Doe" });
    const backup = await backupOf(one.page);
    await startOwnHerd(two.page, address, "Blackcombe");
    expect(await bringIn(two.page, "b.jsonl", backup)).toContain(
      "This file is of another herd, Thornfield. It is kept apart from yours.",
    );
    await go(two.page, address, "/animals");
    await untilHeading(two.page, "0 goats");
    await bringIn(two.page, "b.jsonl", backup);
    await press(two.page, "Open: Thornfield");
    await two.page.getByRole("link", { name: "Find" }).waitFor();
    await go(two.page, address, "/animals");
    await untilHeading(two.page, "1 goat");
  });

  test("[UI-16] erasing asks once, offers a backup, and leaves nothing", async () => {
    const { page } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe" });
    await go(page, address, "/safe");
    await press(page, "Erase this herd from this device");
    await page.getByRole("dialog").getByText("2 entries go from this device for good.").waitFor();
    expect(await page.getByRole("dialog").getByRole("button", { name: "Make a backup first" }).isVisible()).toBe(true);
    await press(page, "Erase it now");
    await untilHeading(page, "Which herd?");
    const left = await page.evaluate(async () => (await indexedDB.databases()).map((db) => db.name));
    expect(left.filter((name) => name?.startsWith("pollard-herd-"))).toEqual([]);
  });
});
