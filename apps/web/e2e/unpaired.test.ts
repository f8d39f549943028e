import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { addGoat, choose, follow, go, press, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

const WATCHED = "No plan pairs her before the vet, a DNA test or a kidding settles it.";
const planned = (page: Page, doe: string) => page.locator(".sheet-page").getByRole("link", { name: new RegExp(doe) });

/** A herd of a horned buck and of Sedge, grown and polled, of whom nothing else is known; her page is open. */
async function boughtSedge() {
  const phone = await newPhone();
  await startOwnHerd(phone.page, address);
  await addGoat(phone.page, address, { name: "Flint", sex: "Buck", head: "Horned" });
  await addGoat(phone.page, address, { name: "Sedge", sex: "Doe", head: "Polled" });
  return phone;
}

describe("a grown polled doe of unknown parents", () => {
  test("[UI-348] the plan names her with the reason and what settles it, and leads to her page; so does her own part of it", async () => {
    const { page, errors } = await boughtSedge();
    await go(page, address, "/pairings");
    await page.getByText("Not paired, intersex is not ruled out: Sedge.").waitFor();
    await page.getByText("The vet, a DNA test or a kidding settles it: enter what you know.").waitFor();
    expect(await planned(page, "Sedge").count()).toBe(0);
    await follow(page, /Sedge/);
    await untilHeading(page, "Sedge");
    const her = page.url().split("/").at(-1);
    await go(page, address, `/pairings/${her}`);
    await page.getByText("Not paired, intersex is not ruled out: Sedge.").waitFor();
    await follow(page, "Open the goat");
    await page.getByText(WATCHED).waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-347] her page says why no plan pairs her; that she kidded is one tap, undone there or from her history", async () => {
    const { page, errors } = await boughtSedge();
    await page.getByText(WATCHED).waitFor();

    // One tap, and its undo.
    await press(page, "She has kidded before");
    await untilSaved(page);
    await page.getByText(WATCHED).waitFor({ state: "detached" });
    await page.getByText("she has kidded before", { exact: false }).last().waitFor();
    await press(page, "Undo");
    await page.getByText(WATCHED).waitFor();
    await press(page, "She has kidded before");
    await page.getByText(WATCHED).waitFor({ state: "detached" });
    await go(page, address, "/pairings");
    await planned(page, "Sedge").waitFor();
    expect(await page.getByText("Not paired").count()).toBe(0);

    // Later, from her history.
    await go(page, address, "/animals");
    await follow(page, /Sedge/);
    await page
      .getByRole("button", { name: /^Entered by mistake: Trait seen/ })
      .first()
      .click();
    await page.getByText(WATCHED).waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-346] asked where she is added: yes, and the plan pairs her from the first day", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Flint", sex: "Buck", head: "Horned" });
    await go(page, address, "/add");
    await page.getByLabel(/^Name/).fill("Sedge");
    expect(await page.getByRole("group", { name: /kidded before/ }).count()).toBe(0);
    await choose(page, "Doe", "Sex");
    await choose(page, "Yes", /kidded before/);
    await choose(page, "Still a kid", /Grown head/);
    await page.getByRole("group", { name: /kidded before/ }).waitFor({ state: "detached" });
    await choose(page, "Polled", /Grown head/);
    await untilSaved(page);
    await press(page, "Add this goat");
    await untilHeading(page, "Sedge");
    await page.getByText("she has kidded before").waitFor();
    expect(await page.getByText(WATCHED).count()).toBe(0);
    // What is asked with the rest does not end the adding of goats.
    await page.getByRole("link", { name: "Add another goat" }).waitFor();
    await go(page, address, "/pairings");
    await planned(page, "Sedge").waitFor();
    expect(errors).toEqual([]);
  });
});
