import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { atRest } from "./rest.ts";
import { SCREENS, visitDay } from "./screens.ts";
import { choose, follow, go, press, startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone, newProfile } = underTest();

const radio = (page: Page, name: string) => page.getByRole("radio", { name, exact: true }).first();

describe("without a network, and after the phone has died", () => {
  test("[UI-212] every screen opens from cold with the network off, and none says that it cannot", async () => {
    const { context, page, errors } = await newPhone();
    await startDemo(page, address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.close();
    await context.setOffline(true);
    const cold = await context.newPage();
    const show = await atRest(cold, address);
    const wrong: string[] = [];
    cold.on("pageerror", (error) => wrong.push(error.message));
    for (const [at, path] of SCREENS.entries()) {
      // Now and then another document in between: then the screen is the first that the page opens.
      if (at % 12 === 0) await cold.goto("about:blank");
      await show(path);
      expect(await cold.locator("main h1").count(), path).toBeGreaterThan(0);
      if (path !== "/nowhere" && (await cold.locator("[role=alert]").count()) > 0) wrong.push(path);
    }
    await go(cold, address, "/safe");
    const [backup] = await Promise.all([cold.waitForEvent("download"), press(cold, "Make a backup file")]);
    expect(backup.suggestedFilename()).toMatch(/^pollard-/);
    expect({ wrong, errors }).toEqual({ wrong: [], errors: [] });
  });

  test("[UI-213] the phone dies after every tap of a birth: what it had acknowledged is there, at the same question", async () => {
    const profile = newProfile();
    let phone = await profile.start();
    await startDemo(phone.page, address);
    await go(phone.page, address, "/kidding/demo-yarrow");
    await untilHeading(phone.page, "Kid 1");
    const taps: readonly (readonly [
      heading: string,
      tap: (page: Page) => Promise<void>,
      checked: readonly string[],
    ])[] = [
      ["Kid 1", (page) => choose(page, "Doe"), ["Doe"]],
      ["Kid 1", (page) => choose(page, "Alive"), ["Doe", "Alive"]],
      ["Kid 2", (page) => press(page, "Another kid"), []],
      ["Kid 2", (page) => choose(page, "Buck"), ["Buck"]],
      ["Kid 2", (page) => choose(page, "Born dead"), ["Buck", "Born dead"]],
      ["Check, then finish", (page) => press(page, "Check the litter"), []],
    ];
    for (const [heading, tap, checked] of taps) {
      await tap(phone.page);
      await untilHeading(phone.page, heading);
      await untilSaved(phone.page);
      await phone.kill();
      phone = await profile.start();
      await phone.page.goto(address);
      await phone.page.getByText("Kidding of Yarrow").waitFor();
      await follow(phone.page, "Carry on");
      await untilHeading(phone.page, heading);
      const found = await phone.page
        .locator("input:checked")
        .evaluateAll((all) => all.map((one) => one.closest("label")?.innerText.trim()));
      expect(found).toEqual(checked);
    }
    expect(await phone.page.locator("main section h2").allInnerTexts()).toEqual(["Kid 1", "Kid 2"]);
    await press(phone.page, "Finish this litter");
    await untilHeading(phone.page, /in the herd/);
    await phone.kill();
    phone = await profile.start();
    await phone.page.goto(address);
    await phone.page.getByRole("link", { name: "Find" }).waitFor();
    expect(await phone.page.getByText("Kidding of Yarrow").count()).toBe(0);
  });

  test("[UI-218] the phone dies in the middle of what the vet did: each answer comes back, and Store says what is missing", async () => {
    const profile = newProfile();
    let phone = await profile.start();
    await startDemo(phone.page, address);
    await go(phone.page, address, `/vet/${visitDay()}/demo-dunnock`);
    await choose(phone.page, "A bud", /left/);
    await untilSaved(phone.page);
    await phone.kill();
    phone = await profile.start();
    await phone.page.goto(address);
    await phone.page.getByText("The vet's work on Dunnock").waitFor();
    await phone.page.getByText(/Found on the left, saved/).waitFor();
    await follow(phone.page, "Carry on");
    await untilHeading(phone.page, "Dunnock at the vet");
    expect(
      await phone.page.locator("input:checked").evaluateAll((all) => all.map((one) => one.getAttribute("name"))),
    ).toEqual(["found-left"]);
    await press(phone.page, "Store this");
    await phone.page.getByText("Say first what was done.").waitFor();
    await choose(phone.page, "Both sides");
    await untilSaved(phone.page);
    await press(phone.page, "Store this");
    await untilHeading(phone.page, /Vet's list for/);
    await go(phone.page, address, "/");
    await phone.page.getByRole("link", { name: "Find" }).waitFor();
    expect(await phone.page.getByText("The vet's work on").count()).toBe(0);
  });

  test("[UI-214] an unfinished answer is offered under its animal's name, kept when put aside, and on no other animal", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    expect(await page.getByText("You were here").count()).toBe(0);
    await go(page, address, "/reading/demo-dunnock");
    await choose(page, "Pointed");
    await untilSaved(page);
    await go(page, address, "/reading/demo-siskin");
    await page.locator(".board-title", { hasText: "Siskin" }).waitFor();
    await untilHeading(page, /What do you feel/);
    expect(await radio(page, "Pointed").isChecked()).toBe(false);
    await go(page, address, "/");
    await page.getByText("Reading the head of Dunnock").waitFor();
    expect(await page.getByText(/Reading the head of/).count()).toBe(1);
    await press(page, "Put aside");
    await page.getByText("1 answer put aside").waitFor();
    await page.reload();
    await page.getByText("1 answer put aside").waitFor();
    expect(await page.getByText("You were here").count()).toBe(0);
    await go(page, address, "/reading/demo-dunnock");
    await untilHeading(page, /What do you feel/);
    expect(await radio(page, "Pointed").isChecked()).toBe(true);
  });

  test("[UI-215] two tabs finish the same birth: one litter", async () => {
    const { context, page } = await newPhone();
    await startDemo(page, address);
    const entries = async (): Promise<number> => {
      await go(page, address, "/safe");
      const said = page.getByText(/entries on this device/).first();
      return Number(/\d+/.exec(await said.innerText())?.[0]);
    };
    const before = await entries();
    await go(page, address, "/kidding/demo-yarrow");
    await choose(page, "Doe");
    await untilSaved(page);
    await press(page, "Check the litter");
    await untilSaved(page);
    const other = await context.newPage();
    await go(other, address, "/kidding/demo-yarrow/check");
    await Promise.all([page, other].map((tab) => press(tab, "Finish this litter")));
    await Promise.all([page, other].map((tab) => untilHeading(tab, /in the herd/)));
    expect(await entries()).toBe(before + 1);
  });

  test("[UI-216] whoever cleared what the browser keeps is offered a backup, and has the herd again", async () => {
    const { context, page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/safe");
    const [backup] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup file")]);
    const file = await backup.path();
    await page.goto("about:blank");
    const devtools = await context.newCDPSession(page);
    await devtools.send("Storage.clearDataForOrigin", { origin: address, storageTypes: "all" });
    await page.goto(address);
    await untilHeading(page, /Goats without horns/);
    await page.locator("input[type=file]").setInputFiles(file);
    await untilHeading(page, /using this device/);
    await page.getByLabel("Name").fill("Ines");
    await press(page, "Next");
    await press(page, "Start");
    await page.getByRole("link", { name: /Moth/ }).first().waitFor();
  });
});
