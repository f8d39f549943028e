import AxeBuilder from "@axe-core/playwright";
import { describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { atRest } from "./rest.ts";
import { startDemo } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** Runs in a page: adds a picture that has no words, and words that are hardly to be seen. */
function addFaults(body: HTMLElement): void {
  const pale = Object.assign(document.createElement("p"), { textContent: "pale" });
  Object.assign(pale.style, { color: "#bbb", background: "#fff" });
  body.append(Object.assign(document.createElement("img"), { src: "data:," }), pale);
}

describe("what axe finds", () => {
  test("[HO-53] within the page it is what axe's usual way finds, in the frame of a sheet too", async () => {
    const { page } = await newPhone();
    const show = await atRest(page, address);
    await startDemo(page, address);
    await show("/sheet/barn");
    for (const body of [page.locator("main"), page.frameLocator("iframe").locator("body")])
      await body.evaluate(addFaults);
    const { violations } = await new AxeBuilder({ page }).analyze();
    const counted = (faults: readonly string[]) =>
      faults.map((fault) => [fault.split(":")[0], fault.split(" | ").length]);
    const faults = counted(await axeFaults(page));
    expect(faults).toEqual(violations.map(({ id, nodes }) => [id, nodes.length]));
    expect(faults).toEqual([
      ["color-contrast", 2],
      ["image-alt", 2],
    ]);
    expect(counted(await axeFaults(page, { rules: ["image-alt"] }))).toEqual([["image-alt", 2]]);
    expect(await axeFaults(page, { within: ".board" })).toEqual([]);
  });
});
