import { describe, expect, test } from "vitest";
import { DESK } from "./browser.ts";
import { atRest, untilAtRest } from "./rest.ts";
import { go, startDemo, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

describe("the drawn pedigree", () => {
  test("[UI-122] one stop for Tab, arrows to the sire and back, a new size, Enter opens", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, address);
    await go(page, address, "/pedigree/demo-moth");
    await untilHeading(page, /Family of Moth/);
    const stops = page.locator('.pedigree [tabindex="0"]');
    expect(await stops.count()).toBe(1);
    await stops.focus();
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");
    expect(await focused()).toMatch(/^II-\d\. Moth, .* The goat in question\.$/);
    await page.keyboard.press("ArrowUp");
    expect(await focused()).toMatch(/^I-1\. Gale, buck\./);
    const width = () =>
      page.evaluate(() => document.querySelector(".pedigree.whole")?.getBoundingClientRect().width ?? 0);
    const before = await width();
    await page.keyboard.press("+");
    expect(await width()).toBeGreaterThan(before * 1.3);
    await page.keyboard.press("Enter");
    await untilHeading(page, /Family of Gale/);
    expect(errors).toEqual([]);
  });

  test("[UI-310] the arrow at the goat in question crosses no name and no symbol of another", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, address);
    for (const goat of ["moth", "fescue", "pip", "tern"]) {
      await go(page, address, `/pedigree/demo-${goat}`);
      await page.locator(".pedigree .arrow").first().waitFor();
      const crossed = await page.evaluate(() => {
        const arrow = document.querySelector(".pedigree .symbol .arrow");
        const at = arrow?.getBoundingClientRect();
        if (arrow === null || at === undefined) return ["there is no arrow"];
        const own = arrow.closest(".symbol");
        return [
          ...document.querySelectorAll(".pedigree .symbol text, .pedigree .symbol circle, .pedigree .symbol path"),
        ]
          .filter((part) => part.closest(".symbol") !== own && part.closest("defs") === null)
          .filter((part) => {
            const box = part.getBoundingClientRect();
            return box.left < at.right && at.left < box.right && box.top < at.bottom && at.top < box.bottom;
          })
          .map((part) => part.textContent || part.tagName);
      });
      expect(crossed, goat).toEqual([]);
    }
    expect(errors).toEqual([]);
  });

  test("[UI-324] names stand in the middle under their symbols, and no line and no other word runs through them", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, address);
    await go(page, address, "/pedigree");
    await page.locator(".pedigree .symbol").first().waitFor();
    const { names, crossed } = await page.evaluate(() => {
      const drawing = document.querySelector(".pedigree.whole");
      const boxOf = (part: Element) => part.getBoundingClientRect();
      // Boxes that touch do not meet; where they stand is known to a tenth of a pixel at best.
      const over = (end: number, start: number) => end > start + 0.1;
      const meet = (a: DOMRect, b: DOMRect) =>
        over(b.right, a.left) && over(a.right, b.left) && over(b.bottom, a.top) && over(a.bottom, b.top);
      const all = (of: string) => [...(drawing?.querySelectorAll(of) ?? [])];
      const words = all("text");
      return {
        names: all(".symbol .name").map((name) => {
          const symbol = boxOf(name.closest(".symbol")?.querySelector("rect") ?? name);
          const box = boxOf(name);
          return (box.left + box.right - symbol.left - symbol.right) / 2;
        }),
        crossed: all(".name, .small, .years").flatMap((word) =>
          [...all(".stroke"), ...words]
            .filter((other) => other !== word && meet(boxOf(word), boxOf(other)))
            .filter(
              (other) => !(word.closest(".symbol") !== null && word.closest(".symbol") === other.closest(".symbol")),
            )
            .map((other) => `${word.textContent} meets ${other.textContent || other.getAttribute("d")}`),
        ),
      };
    });
    expect(names.length).toBeGreaterThan(20);
    expect(Math.max(...names.map(Math.abs))).toBeLessThan(1);
    expect(crossed).toEqual([]);
    expect(errors).toEqual([]);
  });

  test("[UI-123] the list holds every goat that the drawing holds", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, address);
    await go(page, address, "/pedigree");
    await page.locator(".pedigree .symbol").first().waitFor();
    await page.getByText("The same as a list").click();
    const drawn = await page
      .locator(".pedigree .symbol")
      .evaluateAll((all) =>
        all
          .map((each) => (each.getAttribute("aria-label") ?? "").replace(/^[IVX]+-\d+\. /, ""))
          .filter((said) => !said.startsWith("A sire nobody") && !said.startsWith("A dam nobody")),
      );
    const said = await page.locator(".pedigree-list li li li").allTextContents();
    expect(drawn.length).toBeGreaterThan(40);
    expect(said.toSorted()).toEqual(drawn.toSorted());
    expect(errors).toEqual([]);
  });

  test("[UI-127] / searches the table, ? lists the keys, and both can be switched off", async () => {
    const { page, errors } = await newPhone(DESK);
    await atRest(page, address);
    await startDemo(page, address);
    await page.keyboard.press("/");
    await page.locator("[data-search]:focus").waitFor();
    await page.keyboard.type("haz/");
    expect(await page.locator("[data-search]").inputValue()).toBe("haz/");
    await page.locator("main").focus();
    await page.keyboard.press("?");
    await untilHeading(page, /Keys/);
    await page.getByRole("radio", { name: "No, switch them off" }).check({ force: true });
    await page.locator("main").focus();
    await page.keyboard.press("/");
    await untilAtRest(page);
    await untilHeading(page, /Keys/);
    expect(errors).toEqual([]);
  });

  test("[UI-124] five generations and the key are one page of A4 and of Letter", async () => {
    const { page } = await newPhone(DESK);
    await startDemo(page, address);
    await go(page, address, "/pedigree/demo-moth");
    await page.getByRole("radio", { name: "5" }).check({ force: true });
    await page.locator(".pedigree-key").waitFor();
    for (const format of ["A4", "Letter"] as const) {
      const pdf = (await page.pdf({ format })).toString("latin1");
      // ISO 32000-1 7.7.3.3: every page is an object of type Page.
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    }
  });

  test("[UI-328] paper is black on white, whatever the light of the screen", async () => {
    const { page } = await newPhone(DESK);
    await startDemo(page, address);
    for (const light of ["day", "sun", "barn"]) {
      await page.evaluate((wanted) => localStorage.setItem("pollard-look", `${wanted} bare right`), light);
      await page.reload();
      await go(page, address, "/pedigree/demo-moth");
      await page.locator(".pedigree .name").first().waitFor();
      await page.emulateMedia({ media: "print" });
      const seen = await page.evaluate(() => {
        const styleOf = (part: string) => getComputedStyle(document.querySelector(part) ?? document.body);
        return [
          styleOf(".pedigree .stroke").stroke,
          styleOf(".pedigree .name").fill,
          styleOf(".pedigree .name").stroke,
          styleOf("body").backgroundColor,
        ];
      });
      expect(seen, light).toEqual(["rgb(0, 0, 0)", "rgb(0, 0, 0)", "rgb(255, 255, 255)", "rgb(255, 255, 255)"]);
      await page.emulateMedia({ media: null });
    }
  });
});
