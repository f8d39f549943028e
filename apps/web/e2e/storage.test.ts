import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { cameraPicture } from "./camera-picture.ts";
import { faultyStorage } from "./faulty-storage.ts";
import { listen, toldOn } from "./listening.ts";
import { addGoat, follow, go, press, startDemo, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

const notSaved = (page: Page) => page.getByRole("alert").filter({ hasText: /Not saved yet/ });
const ticks = (page: Page) => page.getByText(/^Saved on this device/).count();
const answer = (page: Page, name: string) => page.getByRole("radio", { name, exact: true });

/** The first question about the head of a kid of the invented herd, on a phone whose storage can be made to fail. */
async function readingDunnock() {
  const { context, page, errors } = await newPhone();
  const storage = await faultyStorage(page);
  await startDemo(page, address);
  await go(page, address, "/reading/demo-dunnock");
  await untilHeading(page, /What do you feel/);
  return { context, page, errors, storage };
}

/** How many entries the page Safe says that this phone holds. */
async function entriesHere(page: Page): Promise<number> {
  await go(page, address, "/safe");
  const said = page.getByText(/^\d+ entries on this device/);
  await said.waitFor();
  return Number.parseInt(await said.innerText(), 10);
}

describe("a phone that is full", () => {
  test("[UI-221] what was saved is told in passing, what was not at once, and neither takes the focus", async () => {
    const { page, storage } = await readingDunnock();
    await page.evaluate(listen);
    await answer(page, "Pointed").check();
    await untilSaved(page);
    expect((await toldOn(page)).filter((said) => /Saved on this device/.test(said))).toEqual([
      expect.stringMatching(/^status: Saved on this device/),
    ]);
    expect((await toldOn(page)).filter((said) => said.startsWith("alert"))).toEqual([]);
    await storage.leaveRoom(0);
    await answer(page, "Nothing").check();
    await notSaved(page).waitFor();
    expect((await toldOn(page)).filter((said) => said.startsWith("alert"))).toEqual([
      expect.stringMatching(/^alert: Not saved yet/),
    ]);
    expect(await answer(page, "Nothing").evaluate((one) => one === document.activeElement)).toBe(true);
  });

  test("[UI-240] an answer that does not fit is said at once not to be saved, held, and kept once there is room", async () => {
    const { page, errors, storage } = await readingDunnock();
    await storage.leaveRoom(0);
    await answer(page, "Pointed").check();
    await notSaved(page).getByText("This device is full. Your answer is still on the screen.").waitFor();
    expect(await ticks(page)).toBe(0);

    const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup now")]);
    expect(readFileSync(await download.path(), "utf8")).toContain("demo-dunnock");
    expect(await answer(page, "Pointed").isChecked()).toBe(true);

    // Somebody goes on with another thing, and comes back: it is held, named, and said not to be on the disk.
    await page.evaluate(() => (window.location.hash = "/"));
    const banner = page.getByRole("region", { name: "You were here" });
    await banner.getByText("Reading the head of Dunnock").waitFor();
    await banner.getByText("Not saved yet. Pollard holds it while this page is open.").waitFor();
    await banner.getByRole("link", { name: "Carry on" }).click();
    await untilHeading(page, /What do you feel/);
    await notSaved(page).waitFor();
    expect(await answer(page, "Pointed").isChecked()).toBe(true);
    expect(await ticks(page)).toBe(0);

    await storage.leaveRoom(undefined);
    await press(page, "Try again");
    await untilSaved(page);
    await page.reload();
    await untilHeading(page, /What do you feel/);
    expect(await answer(page, "Pointed").isChecked()).toBe(true);
    expect(errors).toEqual([]);
  });

  test("[UI-241] a finished reading that does not fit stays on its page, and is stored once with the next try", async () => {
    const { page, storage } = await readingDunnock();
    await answer(page, "Pointed").check();
    await untilSaved(page);
    const before = await entriesHere(page);
    await go(page, address, "/reading/demo-dunnock/check");
    await storage.leaveRoom(0);
    await press(page, "Store this reading");
    await notSaved(page).waitFor();
    expect(await page.locator("main").innerText()).toContain("Pointed");
    expect(await page.locator(".squares").count()).toBe(0);
    await storage.leaveRoom(undefined);
    await press(page, "Try again");
    await page.locator(".squares").waitFor();
    expect(await entriesHere(page)).toBe(before + 1);
  });

  test("[UI-242] a photo that does not fit is refused with choices, the picture stays, and much smaller it fits", async () => {
    const { page, errors } = await newPhone();
    const storage = await faultyStorage(page);
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe", head: "Horned" });
    await storage.leaveRoom(50_000);
    await follow(page, "Take a photo");
    await page
      .locator("input[type=file]")
      .first()
      .setInputFiles({ name: "b.jpg", mimeType: "image/jpeg", buffer: await cameraPicture(page) });
    await press(page, "Keep this photo");
    await page.getByText("No room for a picture. Everything else is safe.").waitFor();
    for (const choice of ["Try again", "Keep it much smaller", "Go on without it"])
      expect(await page.getByRole("button", { name: choice }).isVisible()).toBe(true);
    expect(await page.locator("img.photo-shown").isVisible()).toBe(true);
    await press(page, "Keep it much smaller");
    await page.getByRole("link", { name: "Take a photo" }).waitFor();
    await page.locator("img.photo-shown").waitFor();

    // With no room at all the rest of the goat's page is as it was entered.
    await storage.leaveRoom(0);
    await follow(page, "Take a photo");
    await notSaved(page).waitFor();
    await storage.leaveRoom(undefined);
    await press(page, "Try again");
    await page.getByRole("button", { name: "Back" }).click();
    await page
      .getByText(/Horned/)
      .first()
      .waitFor();
    expect(errors).toEqual([]);
  });
});

describe("one tap on a phone that is full", () => {
  test("[UI-250] what it did is held when another page is opened, named on Today, and kept once with the next try", async () => {
    const { page, errors } = await newPhone();
    const storage = await faultyStorage(page);
    await startDemo(page, address);
    const before = await entriesHere(page);
    await go(page, address, "/care");
    await storage.leaveRoom(0);
    const done = page.getByRole("button", { name: /^Done: / }).first();
    await done.click();
    await notSaved(page).getByText("This device is full. Your answer is still on the screen.").waitFor();
    await page.evaluate(() => (window.location.hash = "/animals"));
    await untilHeading(page, /goats/);
    await page.evaluate(() => (window.location.hash = "/"));
    const held = page.getByRole("region", { name: /^Not saved yet/ });
    await held.getByText("Not saved yet. Pollard holds it while this page is open.").waitFor();
    expect(await held.getByRole("listitem").innerText()).toMatch(/, .+: done\.$/);
    await held.getByRole("button", { name: "Try again" }).click();
    await held.getByRole("button", { name: "Try again", disabled: false }).waitFor();
    expect(await held.getByRole("listitem").count()).toBe(1);
    await storage.leaveRoom(undefined);
    await held.getByRole("button", { name: "Try again" }).click();
    await held.waitFor({ state: "detached" });
    expect(await entriesHere(page)).toBe(before + 1);
    expect(errors).toEqual([]);
  });
});

describe("a phone whose storage does not answer", () => {
  test("[UI-243] a connection lost in the background is opened again, and nobody notices", async () => {
    const { page, errors, storage } = await readingDunnock();
    await storage.loseConnections();
    await answer(page, "Pointed").check();
    await untilSaved(page);
    await page.reload();
    await untilHeading(page, /What do you feel/);
    expect(await answer(page, "Pointed").isChecked()).toBe(true);
    expect(errors).toEqual([]);
  });

  test("[UI-243] where it cannot be opened either, there is no tick, and what was saved before is not begun anew", async () => {
    const { page, errors, storage } = await readingDunnock();
    await answer(page, "Pointed").check();
    await untilSaved(page);
    await storage.opening("fails");
    await storage.loseConnections();
    await press(page, "Next");
    await untilHeading(page, /Does the skin/);
    await answer(page, "Held fast").check();
    await notSaved(page).getByText("This device's storage does not answer.").waitFor();
    expect(await ticks(page)).toBe(0);
    await storage.opening("works");
    await press(page, "Try again");
    await untilSaved(page);

    await storage.opening("fails");
    await storage.loseConnections();
    await page.evaluate(() => (window.location.hash = "/reading/demo-siskin"));
    await notSaved(page).waitFor();
    await page.evaluate(() => (window.location.hash = "/reading/demo-dunnock"));
    await notSaved(page).waitFor();
    expect(await page.getByRole("radio").count()).toBe(0);
    await storage.opening("works");
    await press(page, "Try again");
    await untilHeading(page, /Does the skin/);
    expect(await answer(page, "Held fast").isChecked()).toBe(true);
    expect(errors).toEqual([]);
  });
});

describe("whether the browser will keep the herd", () => {
  const SAID = {
    granted: "Yes. Only a person can remove it.",
    denied: "Not promised. A full device may drop everything at once.",
    absent: "This browser does not say. Make backups often.",
  } as const;

  test.each(["granted", "denied", "absent"] as const)(
    "[UI-244] %s: said in plain words, and asked for again with an answer",
    async (state) => {
      const { page, errors } = await newPhone();
      await page.addInitScript((given) => {
        const missing = given === "absent";
        const answers = {
          persist: missing ? undefined : async () => given === "granted",
          persisted: missing ? undefined : async () => given === "granted",
        };
        for (const [name, value] of Object.entries(answers))
          Object.defineProperty(StorageManager.prototype, name, { value, configurable: true });
      }, state);
      await startOwnHerd(page, address);
      await go(page, address, "/safe");
      await page.getByText(SAID[state]).waitFor();
      const ask = page.getByRole("button", { name: "Ask the browser to keep it" });
      expect(await ask.count()).toBe(state === "granted" ? 0 : 1);
      if (state !== "granted") {
        await ask.click();
        await page.getByText("The browser did not promise it. Make backups often.").waitFor();
      }
      expect(errors).toEqual([]);
    },
  );

  test.each([
    ["not promised, little room as in a private window: it is said what such a one forgets", false, 1],
    ["promised: nothing is said of private windows", true, 0],
  ] as const)("[UI-345] keeping %s", async (_of, kept, told) => {
    const { page, errors } = await newPhone();
    await page.addInitScript((promised) => {
      const answers = {
        persist: async () => promised,
        persisted: async () => promised,
        estimate: async () => ({ usage: 2_000_000, quota: 100_000_000 }),
      };
      for (const [name, value] of Object.entries(answers))
        Object.defineProperty(StorageManager.prototype, name, { value, configurable: true });
    }, kept);
    await startOwnHerd(page, address);
    await go(page, address, "/safe");
    await page.getByText(kept ? SAID.granted : SAID.denied).waitFor();
    await page.getByText(/^2 MB used of 100 MB/).waitFor();
    const forgets = page.getByText("A private window forgets everything when it is closed. Pollard cannot tell");
    expect(await forgets.count()).toBe(told);
    expect(errors).toEqual([]);
  });
});
