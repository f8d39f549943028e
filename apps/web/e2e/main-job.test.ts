import type { BrowserContext, Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { widthOfFirstWord } from "./browser.ts";
import {
  addGoat,
  choose,
  follow,
  go,
  openKidding,
  press,
  readHead,
  startDemo,
  startOwnHerd,
  untilHeading,
  untilSaved,
} from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone, newProfile } = underTest();

describe("the main job on a small phone", () => {
  test("[UI-12] from the first page to the vet's list: a kidding, two heads read, advice, a choice", async () => {
    const { page, errors } = await newPhone();
    await page.goto(address);
    expect(await widthOfFirstWord(page)).toBeGreaterThan(50);
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe", head: "Horned" });
    await addGoat(page, address, { name: "Flint", sex: "Buck", head: "Polled" });
    await go(page, address, "/");
    await openKidding(page);
    await choose(page, "Doe");
    await choose(page, "Alive");
    await press(page, "Another kid");
    await untilHeading(page, "Kid 2");
    await choose(page, "Buck");
    await choose(page, "Alive");
    await untilSaved(page);
    await press(page, "Check the litter");
    await press(page, "Finish this litter");
    await untilHeading(page, "2 kids are in the herd.");

    await follow(page, "Read this head");
    await untilHeading(page, /What do you feel/);
    expect(await page.locator("body").innerText()).not.toMatch(/\d+ in \d+/);
    await readHead(page, { feel: "Pointed", skin: "Held fast", whorls: "Clear whorl", crown: "Did not look" });
    expect(await page.locator("main").innerText()).toMatch(
      /in \d+ kids like this one grow horns; .* in \d+ stay hornless/,
    );
    await page.getByText("What would change it").click();
    await page.getByText(/^Up to .* for horns, the advice is to leave it\.$/).waitFor();
    await press(page, "Vet's list");
    await page.getByText("You chose: Vet's list").waitFor();

    await go(page, address, "/animals");
    await follow(page, /Hazel's buck kid/);
    await follow(page, "Read this head");
    await readHead(page, { feel: "Low, rounded", skin: "Slides freely", whorls: "No whorl", crown: "Rounded cap" });
    await untilHeading(page, /buck kid's head/);

    await go(page, address, "/");
    await follow(page, /Ask the vet for|The vet comes/);
    await untilHeading(page, /Vet's list for/);
    await page.getByRole("listitem").filter({ hasText: "Hazel's doe kid" }).first().waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-2] the tab is closed in the middle of a kidding: it comes back to the same kid, and finishing makes one litter", async () => {
    const { context, page } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Hazel", sex: "Doe" });
    await go(page, address, "/");
    await openKidding(page);
    await choose(page, "Doe");
    await untilSaved(page);
    await press(page, "Another kid");
    await untilHeading(page, "Kid 2");
    await choose(page, "Buck");
    await untilSaved(page);
    await page.close({ runBeforeUnload: false });

    const again = await reopened(context);
    await again.getByText("Kidding of Hazel").waitFor();
    await again.getByText(/Kid 2, saved/).waitFor();
    await follow(again, "Carry on");
    await untilHeading(again, "Kid 2");
    expect(await again.getByRole("radio", { name: "Buck", exact: true }).isChecked()).toBe(true);
    await press(again, "Check the litter");
    // Two quick presses are one litter.
    await again.getByRole("button", { name: "Finish this litter" }).dblclick();
    await untilHeading(again, "2 kids are in the herd.");
    await go(again, address, "/animals");
    await untilHeading(again, "3 goats");
    await go(again, address, "/");
    await again.getByRole("link", { name: "Find" }).waitFor();
    expect(await again.getByText("You were here").count()).toBe(0);
  });

  test("[UI-1] the phone dies after each answer of a reading: every answer it had acknowledged is there", async () => {
    const profile = newProfile();
    let phone = await profile.start();
    await startDemo(phone.page, address);
    await go(phone.page, address, "/reading/demo-dunnock");
    const answers = [
      [/What do you feel/, "Pointed"],
      [/Does the skin/, "Held fast"],
      [/whorl of hair/, "Not sure"],
    ] as const;
    for (const [question, answer] of answers) {
      await untilHeading(phone.page, question);
      await phone.page.getByRole("radio", { name: answer, exact: true }).check();
      await untilSaved(phone.page);
      await phone.kill();
      phone = await profile.start();
      await phone.page.goto(address);
      await phone.page.getByText("Reading the head of Dunnock").waitFor();
      await follow(phone.page, "Carry on");
      await untilHeading(phone.page, question);
      expect(await phone.page.getByRole("radio", { name: answer, exact: true }).isChecked()).toBe(true);
      await press(phone.page, "Next");
    }
    await untilHeading(phone.page, /shape is the crown/);
    await press(phone.page, "Next");
    const check = await phone.page.locator("main").innerText();
    for (const [, answer] of answers) expect(check).toContain(answer);
    expect(check).toContain("Not reached");
  });

  test("[UI-37] two tabs of one herd: what one enters the other shows, and each says that there are two", async () => {
    const { context, page } = await newPhone();
    await startOwnHerd(page, address);
    await go(page, address, "/animals");
    await untilHeading(page, "0 goats");
    const other = await reopened(context);
    await other.getByRole("link", { name: "Find" }).waitFor();
    await addGoat(other, address, { name: "Hazel", sex: "Doe" });
    await untilHeading(page, "1 goat");
    await page.getByRole("link", { name: /Hazel/ }).first().waitFor();
    await go(page, address, "/safe");
    await page.getByText("Pollard is open twice on this device.").waitFor();
    await other.close();
  });

  test("[UI-42] of two corrections a person chooses, and a kid is named later", async () => {
    const { page, errors } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/problems");
    await page.getByRole("link", { name: "Open the goat: Fescue" }).waitFor();
    const before = await page.locator("main li.card").count();
    await press(page, /^This one is right/);
    await expect.poll(() => page.locator("main li.card").count()).toBe(before - 1);

    await go(page, address, "/animal/demo-barley");
    await follow(page, "Change What is known of it");
    await untilHeading(page, "What is known of it");
    await page.getByLabel(/^Name/).fill("Barleycorn");
    await press(page, "Store this");
    await untilHeading(page, "Barleycorn");
    expect(errors).toEqual([]);
  });

  test("[UI-375] what is struck among what does not fit is said at once, and its undo brings it back", async () => {
    const { page, errors } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/problems");
    await page.getByRole("link", { name: "Open the goat: Fescue" }).waitFor();
    const cards = () => page.locator("main li.card").allInnerTexts();
    const before = await cards();
    await press(page, "Entered by mistake");
    await page.getByText(/^Saved on this device.*Entered by mistake: .* by /).waitFor();
    await expect.poll(cards).not.toEqual(before);
    await press(page, "Undo");
    await expect.poll(cards).toEqual(before);
    expect(errors).toEqual([]);
  });

  test("[UI-38] a head is read with the keyboard alone", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/reading/demo-dunnock");
    await untilHeading(page, /What do you feel/);
    await tabTo(page, () => document.activeElement?.getAttribute("name") === "found-feel");
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    expect(await page.getByRole("radio", { name: "Pointed", exact: true }).isChecked()).toBe(true);
    await untilSaved(page);
    await tabTo(page, () => document.activeElement?.textContent === "Next");
    const ring = await page.evaluate(() => getComputedStyle(document.activeElement ?? document.body).outlineWidth);
    expect(Number.parseFloat(ring)).toBeGreaterThanOrEqual(2);
    await page.keyboard.press("Enter");
    await untilHeading(page, /Does the skin/);
    await page.goBack();
    await untilHeading(page, /What do you feel/);
    expect(await page.getByRole("radio", { name: "Pointed", exact: true }).isChecked()).toBe(true);
  });
});

/** Presses Tab until the focus is where it is wanted. */
async function tabTo(page: Page, isThere: () => boolean): Promise<void> {
  for (let presses = 0; presses < 40; presses++) {
    if (await page.evaluate(isThere)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("the keyboard does not reach it");
}

/** The same phone, a new tab. */
async function reopened(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(address);
  return page;
}
