import { describe, expect, test } from "vitest";
import { visitDay } from "./screens.ts";
import {
  addGoat,
  choose,
  follow,
  go,
  press,
  readHead,
  sayWho,
  startDemo,
  startOwnHerd,
  untilHeading,
} from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

describe("what comes next", () => {
  test("[UI-364] the question who uses the device leads back to the choice of a herd", async () => {
    const { page, errors } = await newPhone();
    await page.goto(address);
    await press(page, /Start my own herd/);
    await page.getByLabel(/herd called/).fill("Thornfield");
    await press(page, "Next");
    await untilHeading(page, /using this device/);
    await press(page, "Back");
    await press(page, "Thornfield");
    await sayWho(page, "Ines");
    expect(errors).toEqual([]);
  });

  test("[UI-365] an empty herd is told why there is nothing to work out; its first goats lead on, and a sold one keeps its paper", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await go(page, address, "/forecast");
    await page.getByText("There are no goats to look ahead with.").waitFor();
    expect(await page.getByRole("button", { name: "Work it out" }).count()).toBe(0);
    await go(page, address, "/plan");
    await page.getByText("No day of the season is known yet.").waitFor();

    await addGoat(page, address, { name: "Hazel", sex: "Doe", head: "Horned" });
    await follow(page, "Add another goat");
    await untilHeading(page, /Add/);
    await go(page, address, "/forecast");
    await page.getByRole("button", { name: "Work it out" }).waitFor();
    await go(page, address, "/");
    await follow(page, "Enter a mating");
    await untilHeading(page, /[Mm]ating/);

    await go(page, address, "/animals");
    await follow(page, /Hazel/);
    await follow(page, "Something else");
    await choose(page, "Left the herd");
    await choose(page, "Sold");
    await press(page, /^Store/);
    await page.getByText("Left the herd").first().waitFor();
    await page.locator("main a[href^='#/sheet/kid/']").first().waitFor();
    expect(await page.getByRole("link", { name: "Enter a mating" }).count()).toBe(0);
    expect(errors).toEqual([]);
  });

  test("[UI-355] a birth of which only the year is known makes no day; nothing stands there that nobody typed", async () => {
    const { page } = await newPhone();
    await startOwnHerd(page, address);
    await go(page, address, "/add");
    await page.getByLabel(/^Name/).fill("Sorrel");
    await choose(page, "Doe", "Sex");
    await choose(page, "Another day", /^Born/);
    for (const part of ["Day", "Month", "Year"])
      expect(await page.getByLabel(part, { exact: true }).inputValue()).toBe("");
    await page.getByLabel("Year", { exact: true }).fill("2022");
    await page.getByText("A year alone is not kept.").waitFor();
    await press(page, "Add this goat");
    await untilHeading(page, "Sorrel");
    const born = page.locator("dt", { hasText: /^Born$/ }).locator("xpath=following-sibling::dd[1]");
    expect(await born.innerText()).toBe("Not known");
  });

  test("[UI-356] what the vet did before the day that was agreed is of today, and fits", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, `/vet/${visitDay()}/demo-fescue`);
    await page.locator("main p").getByText("Today", { exact: true }).waitFor();
    await choose(page, "Both sides");
    await press(page, /^Store/);
    await untilHeading(page, /Vet's list for/);
    await go(page, address, "/animal/demo-fescue");
    await page.getByText("Disbudded", { exact: true }).first().waitFor();
    await go(page, address, "/problems");
    await untilHeading(page, /What does not fit/);
    expect(await page.getByText("which has not come yet").count()).toBe(0);
  });

  test("[UI-358] once it is chosen what to do about a head, the way back to the day's work is in the thumb's reach", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/reading/demo-dunnock");
    await readHead(page, { feel: "Pointed", skin: "Held fast", whorls: "Clear whorl", crown: "Flat" });
    await page.getByRole("heading", { name: "What will you do?" }).waitFor();
    expect(await page.getByRole("link", { name: "To Today" }).count()).toBe(0);
    await press(page, /^Look again/);
    const back = page.getByRole("link", { name: "To Today" });
    await back.waitFor();
    expect((await back.boundingBox())?.y).toBeGreaterThan(320);
    await back.click();
    await page.getByRole("link", { name: "Find" }).waitFor();
  });
});
