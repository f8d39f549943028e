import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { choose, follow, go, press, startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone, newProfile } = underTest();

const tick = (page: Page, goat: string | RegExp) => page.getByRole("checkbox", { name: goat }).first().check();
const isTicked = (page: Page, goat: string | RegExp) => page.getByRole("checkbox", { name: goat }).first().isChecked();
const undo = (page: Page) => page.getByRole("button", { name: "Undo", exact: true });

describe("a mating", () => {
  test("[UI-372] once stored it is said on Plan with its undo, which takes it back; said once", async () => {
    const { page, errors } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/animal/demo-hazel");
    await follow(page, "Enter a mating");
    await tick(page, /Rook/);
    await choose(page, "Together in a pen");
    await choose(page, "Today", "From");
    await page.getByRole("radio", { name: /^3 weeks/ }).check();
    await press(page, "Store this mating");
    await untilHeading(page, "Plan");
    await page.getByText(/^Saved on this device.*Mating: Hazel.* with .*Rook/).waitFor();
    await undo(page).click();
    await undo(page).waitFor({ state: "detached" });
    await untilSaved(page);
    await go(page, address, "/animal/demo-hazel");
    await page.locator("li.struck", { hasText: "with Rook" }).waitFor();
    await go(page, address, "/plan");
    await untilHeading(page, "Plan");
    expect(await page.getByText(/^Saved on this device/).count()).toBe(0);
    expect(errors).toEqual([]);
  });

  test("[UI-373] half entered it survives the phone's death, and is offered by name and step, and on no other goat's page", async () => {
    const profile = newProfile();
    let phone = await profile.start();
    await startDemo(phone.page, address);
    await go(phone.page, address, "/service/demo-hazel");
    await tick(phone.page, /Rook/);
    await untilSaved(phone.page);
    await choose(phone.page, "Together in a pen");
    await untilSaved(phone.page);
    await phone.kill();
    phone = await profile.start();
    const { page } = phone;
    await go(page, address, "/");
    await page.getByText("Mating of Hazel").waitFor();
    await page.getByText(/How, saved/).waitFor();
    await go(page, address, "/service");
    await untilHeading(page, "Enter a mating");
    expect(await isTicked(page, /Rook/)).toBe(false);
    await go(page, address, "/");
    await follow(page, "Carry on");
    await untilHeading(page, "Enter a mating");
    expect([await isTicked(page, /Hazel/), await isTicked(page, /Rook/)]).toEqual([true, true]);
    expect(await page.getByRole("radio", { name: "Together in a pen" }).isChecked()).toBe(true);
    await choose(page, "Yesterday", "From");
    await page.getByRole("radio", { name: /^3 weeks/ }).check();
    await press(page, "Store this mating");
    await untilHeading(page, "Plan");
    await go(page, address, "/");
    await page.getByRole("link", { name: "Find" }).waitFor();
    expect(await page.getByText("You were here").count()).toBe(0);
    await phone.kill();
  });
});
