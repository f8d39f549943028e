import { beforeAll, describe, expect, test } from "vitest";
import { PHONE } from "./browser.ts";
import type { RunningHub } from "./hub-process.ts";
import { SCREENS } from "./screens.ts";
import {
  addGoat,
  choose,
  exchangeNow,
  follow,
  go,
  openKidding,
  press,
  sayWho,
  startDemo,
  startOwnHerd,
  untilHeading,
  untilSaved,
} from "./steps.ts";
import { underTest } from "./under-test.ts";

const AMERICAN = { ...PHONE, locale: "en-US" } as const;
const MORE = /Mark, tag, weight/;

const { address, newPhone, startHub } = underTest();
let hub: RunningHub;

beforeAll(async () => {
  hub = await startHub();
});

describe("a phone in pounds", () => {
  test("[UI-200] one phone weighs in pounds, the other reads the same weight in kilograms", async () => {
    const american = await newPhone(AMERICAN);
    const { page } = american;
    await startOwnHerd(page, hub.address);
    await addGoat(page, hub.address, { name: "Hazel", sex: "Doe", head: "Horned" });
    await go(page, hub.address, "/");
    await openKidding(page);
    await choose(page, "Doe");
    await choose(page, "Alive");
    await page.getByText(MORE).first().click();
    await page.getByLabel("Weight in pounds").fill("1,200");
    await page.getByText(/no mark for thousands/).waitFor();
    await page.getByLabel("Weight in pounds").fill("7,9");
    await page.getByLabel(/^Tag/).fill("US 01");
    await untilSaved(page);
    const kidding = page.url();

    // Half-way the phone is given over to somebody who weighs in kilograms: what was typed stays what it was.
    await go(page, hub.address, "/holder");
    expect(await page.getByRole("radio", { name: "Pounds" }).isChecked()).toBe(true);
    await choose(page, "Kilograms", "Weights");
    await page.goto(kidding);
    expect(await page.getByLabel("Weight in pounds").inputValue()).toBe("7,9");
    await press(page, "Check the litter");
    await page.getByText("7.9 lb").first().waitFor();
    await press(page, "Finish this litter");
    await untilHeading(page, "One kid is in the herd.");
    await follow(page, /^Open/);
    await page
      .getByText(/^3\.58 kg/)
      .first()
      .waitFor();
    await go(page, hub.address, "/holder");
    await choose(page, "Pounds", "Weights");
    await page.reload();
    expect(await page.getByRole("radio", { name: "Pounds" }).isChecked()).toBe(true);
    await exchangeNow(page, hub.address);

    const metric = await newPhone();
    await metric.page.goto(hub.address);
    await press(metric.page, /hub/i);
    await sayWho(metric.page, "Tobias");
    for (const [phone, said] of [
      [metric.page, /^3\.58 kg/],
      [page, /^7\.9 lb/],
    ] as const) {
      await go(phone, hub.address, "/animals");
      await follow(phone, /US 01/);
      await phone.getByText(said).first().waitFor();
    }
    expect([...american.errors, ...metric.errors]).toEqual([]);
  });

  test("[UI-203] the vet's list and its sheet have kilograms, with pounds behind", async () => {
    const { page, errors } = await newPhone(AMERICAN);
    await startDemo(page, address);
    const both = /\d+\.\d+ kg \(\d+\.\d+ lb\)/;
    const list = SCREENS.find((path) => /^\/vet\/[\d-]+$/.test(path)) ?? "";
    const sheet = SCREENS.find((path) => path.startsWith("/sheet/vet/")) ?? "";
    await go(page, address, list);
    await page.getByText(both).first().waitFor();
    await go(page, address, sheet);
    const paper = page.frameLocator("iframe");
    await paper.getByText(both).first().waitFor();
    await paper.getByText("Weight today").first().waitFor();
    expect(errors).toEqual([]);
  });
});
