import { describe, expect, test } from "vitest";
import { DESK } from "./browser.ts";
import { Keyboard } from "./keys.ts";
import { atRest } from "./rest.ts";
import { SCREENS } from "./screens.ts";
import { startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

describe("by the keys alone", () => {
  test("[UI-210] from the first page over pairing, birth, reading, the vet's day and what grew to the printed list", async () => {
    const { page, errors } = await newPhone(DESK);
    await atRest(page, address);
    const keys = new Keyboard(page);
    await page.goto(address);
    await untilHeading(page, /Goats without horns/);
    await keys.press(/^Look around/);
    await untilHeading(page, /using this device/);
    await keys.to(/^Name/);
    await page.keyboard.type("Ines");
    await page.keyboard.press("Enter");
    await keys.press(/^Start$/);
    await page.getByRole("link", { name: /Moth/ }).first().waitFor();

    // Which buck for which doe: the grid is one stop, arrows move in it.
    await keys.press(/^Plan$/);
    await untilHeading(page, "Plan");
    await keys.press(/^Which buck for which doe$/);
    await page.getByRole("grid").waitFor();
    await keys.to(/ with .*: .*kids with horns/);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await untilHeading(page, / × /);
    await keys.answer(/No wish/, /She goes to him/);
    await untilSaved(page);

    // A birth.
    await keys.press(/^Today$/);
    await untilHeading(page, /\d/);
    await keys.press(/^Kidding$/);
    await keys.press(/^Yarrow/);
    await untilHeading(page, "Kid 1");
    await keys.answer(/^Doe$/, /^Buck$/);
    await keys.answer(/^Alive$/, /^Alive$/);
    await untilSaved(page);
    await keys.press(/^Check the litter$/);
    await untilHeading(page, "Check, then finish");
    await keys.press(/^Finish this litter$/);
    await untilHeading(page, "One kid is in the herd.");

    // Its head.
    await keys.press(/^Read this head$/);
    for (const [question, first, wanted] of [
      [/What do you feel/, /^Nothing/, /^Pointed/],
      [/Does the skin/, /^Slides freely/, /^Held fast/],
      [/whorl of hair/, /^No whorl|^Clear whorl/, /^Clear whorl/],
      [/shape is the crown/, /^Rounded cap/, /^Flat/],
    ] as const) {
      await untilHeading(page, question);
      await keys.answer(first, wanted);
      await untilSaved(page);
      await keys.press(/^Next$/);
    }
    await keys.press(/^Store this reading$/);
    await page.locator(".squares").waitFor();
    await keys.press(/^Vet's list/);
    await page.getByText("You chose: Vet's list").waitFor();

    // The vet's day: what was done to one kid; then the list is printed.
    await keys.press(/^Today$/);
    await page.getByRole("link", { name: "Find" }).waitFor();
    await keys.press(/The vet comes/);
    await untilHeading(page, /Vet's list for/);
    await keys.press(/^Print this list$/);
    await page.locator("iframe").evaluate((frame: HTMLIFrameElement) => {
      Object.assign(frame.contentWindow ?? {}, { print: () => void Object.assign(window, { printed: "yes" }) });
    });
    await keys.press(/^Print$/);
    await page.waitForFunction(() => "printed" in window);
    await page.goBack();
    await untilHeading(page, /Vet's list for/);
    await keys.press(/^Enter what was done$/);
    await untilHeading(page, /at the vet/);
    await keys.answer(/^Both sides/, /^Looked, left alone/);
    await keys.press(/^Store/);
    await untilHeading(page, /Vet's list for/);

    // What grew, and what it teaches.
    await keys.press(/^Today$/);
    await page.getByRole("link", { name: "Find" }).waitFor();
    await keys.press(/See what grew on Medlar/);
    await untilHeading(page, /Medlar/);
    await keys.answer(/^Nothing/, /^Horn/);
    await keys.answer(/^Nothing/, /^Horn/);
    await keys.press(/^Store what grew$/);
    await page.getByRole("button", { name: "Store what grew" }).waitFor({ state: "detached" });
    await keys.press(/^Plan$/);
    await untilHeading(page, "Plan");
    await keys.press(/^How our calls came out$/);
    await untilHeading(page, /./);
    expect(keys.unseen).toEqual([]);
    expect(errors).toEqual([]);
  });

  test("[UI-220] what keeps a form from being stored is told at its field; more than one thing in a list that leads there", async () => {
    const { page } = await newPhone();
    const show = await atRest(page, address);
    await startDemo(page, address);
    const keys = new Keyboard(page);
    /** Where the focus is: the field that is asked there, else the part of the page. */
    const at = () =>
      page.evaluate(() => {
        const one = document.activeElement;
        return one?.closest<HTMLElement>("[data-asks]")?.dataset["asks"] ?? one?.tagName.toLowerCase();
      });
    const isError = async (): Promise<boolean> => (await page.title()).startsWith("Error: ");

    // Several things: a list above the form, each line of which leads to its field.
    for (const [path, store, fields] of [
      ["/service/demo-hazel", /^Store this mating$/, ["bucks", "way", "on"]],
      ["/loci/add", /^Add this trait$/, ["name", "alleles"]],
      ["/join", /^Join$/, ["code", "phone"]],
      ["/add", /^Add this goat$/, ["name", "sex"]],
    ] as const) {
      await show(path);
      expect(await isError(), path).toBe(false);
      await keys.press(store);
      const list = page.locator("main section[tabindex='-1']");
      await list.waitFor();
      expect(await at(), path).toBe("section");
      expect(await isError(), path).toBe(true);
      const lines = await list.getByRole("button").allInnerTexts();
      const reached: (string | undefined)[] = [];
      for (const line of lines) {
        await list.focus();
        await keys.press(new RegExp(`^${line.replaceAll(/[.?()]/g, "\\$&")}$`));
        reached.push(await at());
        const described = page.locator(`[data-asks="${reached.at(-1)}"] :is(p, output)`, { hasText: line });
        expect(await described.count(), `${path}: ${line}`).toBe(1);
      }
      expect(reached).toEqual(fields);
    }

    // The goat gets a name: one thing is left, told at its field, where the focus goes; then it is stored.
    await page.locator("[data-asks=name] input").focus();
    await page.keyboard.type("Bryony");
    await untilSaved(page);
    await keys.press(/^Add this goat$/);
    expect(await at()).toBe("sex");
    expect(await page.locator("main section[tabindex='-1']").count()).toBe(0);
    expect(await isError()).toBe(true);
    await page.keyboard.press("Space");
    await expect.poll(isError).toBe(false);
    await keys.press(/^Add this goat$/);
    await untilHeading(page, "Bryony");
    expect(await isError()).toBe(false);

    // One thing from the start.
    await show("/fact/demo-hazel");
    await keys.press(/^Store this$/);
    expect(await at()).toBe("kind");
    expect(await isError()).toBe(true);
    expect(keys.unseen).toEqual([]);
  });

  test("[UI-211] on every screen what takes the focus is seen with its ring, under no bar; Tab comes to an end", async () => {
    const { page } = await newPhone();
    const show = await atRest(page, address);
    await startDemo(page, address);
    const keys = new Keyboard(page);
    let stops = 0;
    for (const path of SCREENS) {
      await show(path);
      await keys.tab();
      stops += await keys.everyStop();
    }
    expect(stops).toBeGreaterThan(SCREENS.length * 5);
    for (const path of ["/", "/care", "/pedigree/demo-moth", "/kidding/demo-yarrow", "/list"]) {
      await show(path);
      await expect.poll(async () => (await keys.tab()).role, { interval: 0, timeout: 30_000 }).toBe("body");
    }
    expect(keys.unseen).toEqual([]);
  });
});
