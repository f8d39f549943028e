import { describe, expect, test } from "vitest";
import { addGoat, choose, follow, go, press, sayWho, startOwnHerd, untilHeading } from "./steps.ts";
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
});
