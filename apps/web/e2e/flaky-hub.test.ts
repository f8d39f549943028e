import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { type FlakyHub, startFlakyHub } from "./flaky-hub.ts";
import { herdDatabase } from "./herd-on-disk.ts";
import { addGoat, choose, exchangeNow, follow, go, press, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { newPhone, putAway } = underTest();
let hub: FlakyHub;

/** The answers to the first question about a head that lie on this phone's disk. */
const feelOnDisk = async (page: Page): Promise<unknown> =>
  page.evaluate(
    async (name) => {
      const settled = <T>(asked: IDBRequest<T>) =>
        new Promise<T>((settle) => asked.addEventListener("success", () => settle(asked.result)));
      const db = await settled(indexedDB.open(name));
      const drafts = await settled(db.transaction("drafts").objectStore("drafts").getAll());
      db.close();
      const reading = drafts.find((draft: { kind: string }) => draft.kind === "head-reading") as
        | { answers: { signs: { feel?: { both?: string } } } }
        | undefined;
      return reading?.answers.signs.feel?.both;
    },
    await herdDatabase(page),
  );

/** A herd of one's own on a hub behind a bad line, with a kid of today whose head is about to be read. */
async function aboutToRead() {
  hub = await startFlakyHub();
  putAway(() => hub.stop());
  const { context, page, errors } = await newPhone();
  await startOwnHerd(page, hub.address);
  await addGoat(page, hub.address, { name: "Hazel", sex: "Doe" });
  await go(page, hub.address, "/kidding");
  await follow(page, "Another doe");
  await follow(page, /Hazel/);
  await choose(page, "Doe");
  await choose(page, "Alive");
  await untilSaved(page);
  return { context, page, errors };
}

/** Stores the litter on the page, and goes on to its kid's head. */
async function onToTheHead(page: Page): Promise<void> {
  await press(page, "Check the litter");
  await press(page, "Finish this litter");
  await untilHeading(page, /in the herd/);
  await go(page, hub.address, "/animals");
  await follow(page, /doe kid/);
  await page.locator('a[href*="/reading/"]').first().click();
  await untilHeading(page, /What do you feel/);
}

const FEELS = { Pointed: "pointed", Nothing: "nothing" } as const;

/** Answers the question with the other of two answers, until the phone says that its disk has it. */
async function answer(page: Page, said: keyof typeof FEELS): Promise<void> {
  await page.getByRole("radio", { name: said, exact: true }).check();
  await untilSaved(page);
  await expect.poll(() => feelOnDisk(page)).toBe(FEELS[said]);
}

describe("a hub that is worse than none", () => {
  test("[UI-339] says nothing: every answer is kept and acknowledged while its question still hangs", async () => {
    const { page, errors } = await aboutToRead();
    hub.become("silent");
    await onToTheHead(page);
    await expect.poll(() => hub.held().length).toBeGreaterThan(0);
    const [hanging, before] = [hub.held(), hub.asked()];
    for (const said of ["Pointed", "Nothing", "Pointed"] as const) {
      await answer(page, said);
      expect(hub.held(), said).toEqual(hanging);
    }
    // An answer in the making is no matter of the hub's: it is asked nothing for it.
    expect(hub.asked() - before).toBeLessThanOrEqual(1);
    hub.become("through");
    await go(page, hub.address, "/safe");
    await press(page, "Exchange now");
    await page.getByText("Everything is on the hub too").waitFor({ timeout: 40_000 });
    expect(errors).toEqual([]);
  });

  test("[UI-339] comes and goes every two seconds: every answer is kept, and few questions are asked", async () => {
    const { page, errors } = await aboutToRead();
    await onToTheHead(page);
    const before = hub.asked();
    for (const [at, line] of (["cut", "through", "cut", "through", "cut", "through"] as const).entries()) {
      hub.become(line);
      await page.waitForTimeout(1000);
      await answer(page, at % 2 === 0 ? "Pointed" : "Nothing");
      await page.waitForTimeout(1000);
    }
    // A turn asks for what is new, and opens the line again on which that is told of: no more.
    expect(hub.asked() - before).toBeLessThanOrEqual(2 * 6);
    await exchangeNow(page, hub.address);
    expect(errors).toEqual([]);
  });
});
