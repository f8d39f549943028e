import { describe, expect, test } from "vitest";
import { follow, startDemo, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** Addresses as a wrong letter or an old link makes them: each has a part that stands for nothing. */
const WRONG = [
  "/animal/x",
  "/answer/x",
  "/answer/demo-rook",
  "/answer/x/shown",
  "/care/navel/x",
  "/care/x/demo-barley",
  "/care/x/y",
  "/compare/x",
  "/compare/demo-pip/x",
  "/correct/x",
  "/entries/x",
  "/fact/x",
  "/find/x",
  "/help/x",
  "/join/x",
  "/kidding/x",
  "/kidding/demo-rook",
  "/kidding/demo-yarrow/x",
  "/litter/x",
  "/outcome/x",
  "/pair/x/y",
  "/pair/demo-hazel/x",
  "/pairings/x",
  "/pedigree/x",
  "/photo/x",
  "/reading/x",
  "/reading/demo-dunnock/x",
  "/seen/x",
  "/service/x",
  "/sheet/x/y",
  "/sheet/kid/x",
  "/sheet/vet/x",
  "/vet/x",
  "/vet/2026-13-40",
  "/vet/x/demo-dunnock",
  "/vet/2026-13-40/x",
] as const;

describe("an address that is wrong", () => {
  test("[UI-360] whatever part of it stands for nothing, there is a heading, something to read and a way back", async () => {
    const { page, errors } = await newPhone();
    await startDemo(page, address);
    const bare: string[] = [];
    // Another page lies between any two, so that no heading is taken for that of the page before.
    const before = "This device";
    for (const path of WRONG) {
      await page.goto(`${address}/#/holder`);
      await page.locator("h1", { hasText: before }).waitFor({ state: "attached" });
      await page.goto(`${address}/#${path}`);
      const whole = await page
        .waitForFunction(
          (before) => {
            const heading = document.querySelector("h1")?.textContent ?? before;
            const said = document.querySelector("main")?.textContent.replace(heading, "").trim() ?? "";
            return (
              heading !== before &&
              said !== "" &&
              document.querySelector("header .board-key, main a[href='#/']") !== null
            );
          },
          before,
          { timeout: 20_000 },
        )
        .then(
          () => true,
          () => false,
        );
      if (!whole || errors.length > 0) bare.push([path, ...errors.splice(0)].join(" "));
    }
    expect(bare).toEqual([]);
    const noGoat = ["/animal/x", "/reading/x", "/fact/x", "/photo/x", "/service/x", "/vet/2026-12-01/x"];
    const noDoe = ["/kidding/x", "/kidding/demo-rook", "/kidding/demo-rook/check"];
    for (const path of [...noGoat, ...noDoe]) {
      await page.goto(`${address}/#${path}`);
      await untilHeading(page, `This device knows no such ${noDoe.includes(path) ? "doe" : "goat"}.`);
      expect(await page.locator("main").getByRole("radio").count()).toBe(0);
    }
    for (const path of ["/vet/x", "/vet/2026-13-40", "/vet/2026-02-30/demo-dunnock"]) {
      await page.goto(`${address}/#${path}`);
      await untilHeading(page, "There is no such day.");
    }
    await follow(page, "To Today");
    await untilHeading(page, /\d/);
    expect(errors).toEqual([]);
  });
});
