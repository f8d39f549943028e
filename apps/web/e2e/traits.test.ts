import { describe, expect, test } from "vitest";
import { addGoat, choose, go, press, startOwnHerd } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

describe("the traits that are followed", () => {
  test("[UI-371] of a herd of two breeds each has its own figures for unknown parents, and they can be taken back", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await addGoat(page, address, { name: "Kea", sex: "Doe", breed: "Boer" });
    await addGoat(page, address, { name: "Moss", sex: "Doe", breed: "Saanen" });
    await go(page, address, "/loci");
    const wattles = (breed: string) => page.getByLabel(`Wattles${breed}: W in 100`, { exact: true });
    const more = (breed: string) => page.getByLabel(new RegExp(`^Wattles${breed}: W in 100: `)).last();
    const shown = async (breed: string): Promise<string | null> => {
      await choose(page, breed, /breed/);
      return wattles(`, ${breed}`).textContent();
    };
    const [saanens, boers] = [await shown("Saanen"), await shown("Boer")];
    await more(", Boer").click();
    await expect.poll(() => wattles(", Boer").textContent()).not.toBe(boers);
    const own = await shown("Boer");
    expect([await shown("Saanen"), await shown("Boer")]).toEqual([saanens, own]);
    await press(page, "Back to the usual figure: Wattles, Boer");
    await expect.poll(() => wattles(", Boer").textContent()).toBe(boers);
    expect(errors).toEqual([]);
  });

  test("[UI-378] no share is shown as none or all of a hundred", async () => {
    const { page, errors } = await newPhone();
    await startOwnHerd(page, address);
    await go(page, address, "/loci");
    const shares = page.locator(".stepper output");
    await shares.first().waitFor();
    const shown = await shares.allTextContents();
    expect(shown.filter((share) => !/^(<1|>99|[1-9]\d?)$/.test(share))).toEqual([]);
    expect(shown).toEqual(expect.arrayContaining([expect.stringMatching(/^<1$|^>99$/)]));
    expect(errors).toEqual([]);
  });
});
