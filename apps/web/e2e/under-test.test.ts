import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import type { Killable } from "./browser.ts";
import type { RunningHub } from "./hub-process.ts";
import { underTest } from "./under-test.ts";

const { newPhone, newProfile, startHub } = underTest();

const reached = (hub: RunningHub): Promise<boolean> =>
  fetch(hub.address).then(
    ({ ok }) => ok,
    () => false,
  );

describe("what a browser test opens", () => {
  let ofAll: Page;
  let ofOne: { readonly page: Page; readonly hub: RunningHub; readonly mortal: Killable };
  beforeAll(async () => {
    ({ page: ofAll } = await newPhone());
  });

  test("[HO-51] is there for the test", async () => {
    const [{ page }, hub, mortal] = await Promise.all([newPhone(), startHub(), newProfile().start()]);
    ofOne = { page, hub, mortal };
    expect([page, ofAll, mortal.page].map((each) => each.isClosed())).toEqual([false, false, false]);
    expect(await reached(hub)).toBe(true);
  });

  test("[HO-51] is put away after it, what serves all tests stays", async () => {
    const { page, hub, mortal } = ofOne;
    expect([page, ofAll, mortal.page].map((each) => each.isClosed())).toEqual([true, false, true]);
    expect(await reached(hub)).toBe(false);
  });
});
