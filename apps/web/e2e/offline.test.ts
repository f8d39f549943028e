import { gzipSync } from "node:zlib";
import { animalId } from "@pollard/genetics";
import { anEntry } from "@pollard/records/testing";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { listen, toldOn } from "./listening.ts";
import { herdOnDisk } from "./herd-on-disk.ts";
import {
  addGoat,
  choose,
  exchangeNow,
  follow,
  go,
  openKidding,
  press,
  readHead,
  sayWho,
  startDemo,
  startOwnHerd,
  untilHeading,
  untilSaved,
} from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone, startHub } = underTest();

describe("without a network", () => {
  test("[UI-13] a cold start with the network off: every screen is there, and a head can be read", async () => {
    const { context, page, errors } = await newPhone();
    await startDemo(page, address);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await page.close();
    await context.setOffline(true);
    const cold = await context.newPage();
    cold.setDefaultTimeout(20_000);
    await cold.goto(address);
    await cold.getByRole("link", { name: /Moth/ }).first().waitFor();
    for (const [path, heading] of [
      ["/animals", /goats/],
      ["/plan", "Plan"],
      ["/safe", "Safe"],
      ["/problems", "What does not fit"],
      ["/settings", "Settings"],
      ["/add", "Add a goat"],
    ] as const) {
      await go(cold, address, path);
      await untilHeading(cold, heading);
    }
    await go(cold, address, "/reading/demo-siskin");
    await readHead(cold, { feel: "Nothing", skin: "Slides freely", whorls: "No whorl", crown: "Rounded cap" });
    expect(errors).toEqual([]);
  });

  test("[UI-39] the first load is small: page, look, letters and worker together, compressed", async () => {
    const { page } = await newPhone();
    const loaded = new Map<string, number>();
    page.on("response", (response) => {
      // What the service worker fetches ahead comes after the page is there, and is no part of the first load.
      if (response.request().serviceWorker() !== null || response.url().includes("/api/")) return;
      void response.body().then((body) => loaded.set(response.url(), gzipSync(body).length));
    });
    await page.goto(address);
    await untilHeading(page, /Goats without horns/);
    await page.waitForLoadState("networkidle");
    const kilobytes = [...loaded.values()].reduce((sum, size) => sum + size, 0) / 1000;
    expect(loaded.size).toBeGreaterThan(4);
    expect(kilobytes).toBeLessThanOrEqual(300);
  });

  test("[UI-39] what comes later is fetched once, and each screen of it is then there at once", async () => {
    const { page } = await newPhone();
    await startDemo(page, address);
    await go(page, address, "/settings");
    await untilHeading(page, "Settings");
    const shown = await page.evaluate(() => {
      const heading = (): string | undefined =>
        [...document.querySelectorAll("main h1")].find((one) => one.checkVisibility())?.textContent;
      return new Promise((settle) => {
        window.addEventListener("hashchange", () => setTimeout(() => settle(heading()), 0));
        window.location.hash = "/problems";
      });
    });
    expect(shown).toBe("What does not fit");
  });

  test("[UI-382] a herd on the hub is called by its name where it is begun, never by a piece of its id", async () => {
    const hub = await startHub();
    const { page } = await newPhone();
    await startOwnHerd(page, hub.address, "Thornfield", "Ines");
    await exchangeNow(page, hub.address);
    const id = "01a2149a-ce56-7a2c-8000-000000000001";
    const nameless = anEntry("animal", { animal: animalId("hazel"), name: "Hazel", sex: "doe" }, { herd: id });
    await fetch(`${hub.address}/api/herds/${id}/entries`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ exchange: 1, entries: [nameless] }),
    });
    const { page: other } = await newPhone();
    await other.goto(hub.address);
    const herds = other.getByRole("button", { name: /A herd on the hub/ });
    await herds.nth(1).waitFor();
    const told = await herds.allInnerTexts();
    expect(told.some((text) => text.includes("Thornfield: 1 entry"))).toBe(true);
    expect(told.some((text) => text.includes("Its name comes along with it: 1 entry"))).toBe(true);
    expect(told.join()).not.toContain("01a2149a");
  });

  test("[UI-14] two browsers exchange through the hub: each has what the other entered, and once", async () => {
    const hub = await startHub();
    const first = await newPhone();
    await startOwnHerd(first.page, hub.address, "Thornfield", "Ines");
    await addGoat(first.page, hub.address, { name: "Hazel", sex: "Doe" });
    await exchangeNow(first.page, hub.address);

    const second = await newPhone();
    await second.page.goto(hub.address);
    await press(second.page, /A herd on the hub/);
    await sayWho(second.page, "Tobias");
    await exchangeNow(second.page, hub.address);
    await go(second.page, hub.address, "/animals");
    await untilHeading(second.page, "1 goat");
    await addGoat(second.page, hub.address, { name: "Flint", sex: "Buck" });
    await exchangeNow(second.page, hub.address);

    await exchangeNow(first.page, hub.address);
    await exchangeNow(first.page, hub.address);
    await go(first.page, hub.address, "/animals");
    await untilHeading(first.page, "2 goats");
    await follow(first.page, /Flint/);
    await first.page.getByText("by Tobias").waitFor();
  });

  test("[UI-180] one newborn entered on both phones: asked about, put together, parted again", async () => {
    const { hub, first, second } = await twoPhonesWithHazel();
    for (const { context } of [first, second]) await context.setOffline(true);
    for (const { page } of [first, second]) {
      await go(page, hub.address, "/");
      await openKidding(page);
      await choose(page, "Doe");
      await choose(page, "Alive");
      await untilSaved(page);
      await press(page, "Check the litter");
      await press(page, "Finish this litter");
      await untilHeading(page, /in the herd/);
    }
    for (const { page, context } of [first, second]) {
      await context.setOffline(false);
      await exchangeNow(page, hub.address);
    }
    const { page } = second;
    await go(page, hub.address, "/animals");
    await untilHeading(page, "3 goats");
    await go(page, hub.address, "/problems");
    await untilHeading(page, /may be one kid/);
    await press(page, "One kid");
    await untilHeading(page, "What does not fit");
    await page.getByText("Everything fits together.").waitFor();
    await go(page, hub.address, "/animals");
    await untilHeading(page, "2 goats");
    await follow(page, /doe kid/);
    await page.getByText("by Ines").first().waitFor();
    await page.getByText("by Tobias").first().waitFor();

    await exchangeNow(page, hub.address);
    await exchangeNow(first.page, hub.address);
    await go(first.page, hub.address, "/animals");
    await untilHeading(first.page, "2 goats");
    await follow(first.page, /doe kid/);
    await press(first.page, "Two kids");
    await go(first.page, hub.address, "/animals");
    await untilHeading(first.page, "3 goats");
  });
});

/** Another exchange of the open herd is under way, as in another tab, until it is let go. */
async function exchangeUnderWay(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(
    (herd) =>
      new Promise<void>((held) => {
        void navigator.locks.request(`pollard-exchange-${herd}`, async () => {
          await new Promise<void>((letGo) => {
            Object.assign(window, { letGo });
            held();
          });
        });
      }),
    await herdOnDisk(page),
  );
  return () => page.evaluate("letGo()");
}

test("[UI-385] Exchange now waits for an exchange that is under way, and hands over what was entered since", async () => {
  const { page, errors } = await newPhone();
  await startOwnHerd(page, address, "Thornfield", "Ines");
  await addGoat(page, address, { name: "Hazel", sex: "Doe" });
  await exchangeNow(page, address);
  const letGo = await exchangeUnderWay(page);
  await addGoat(page, address, { name: "Fern", sex: "Doe" });
  await go(page, address, "/safe");
  await page.getByText("On this device only: 1").first().waitFor();
  await press(page, "Exchange now");
  await page.getByRole("button", { name: "Exchanging" }).waitFor();
  // The phone's own turn has come too, and waits as well.
  await expect.poll(() => page.evaluate(async () => (await navigator.locks.query()).pending?.length)).toBe(2);
  await letGo();
  await page
    .getByText(/^Everything is on the hub/)
    .first()
    .waitFor();
  await page.getByRole("button", { name: "Exchange now" }).waitFor();
  expect(errors).toEqual([]);
});

describe("two phones that did not know of each other", () => {
  test("[UI-252] one name corrected on both: both are shown, a person chooses, and the choice is taken back", async () => {
    const { hub, first, second } = await twoNamesForHazel();
    for (const { page } of [first, second]) {
      await go(page, hub.address, "/problems");
      await page.getByRole("button", { name: /^This one is right: .*Hazelnut.*by Ines/ }).waitFor();
      await page.getByRole("button", { name: /^This one is right: .*Hazelwood.*by Tobias/ }).waitFor();
    }
    await press(second.page, /^This one is right: .*Hazelnut/);
    await second.page.getByText("Everything fits together.").waitFor();
    await exchangeNow(second.page, hub.address);
    await exchangeNow(first.page, hub.address);
    await go(first.page, hub.address, "/problems");
    await first.page.getByText("Everything fits together.").waitFor();
    await go(first.page, hub.address, "/animals");
    await follow(first.page, /Hazelnut/);
    await press(first.page, /^Entered by mistake/);
    await go(first.page, hub.address, "/problems");
    await first.page.getByRole("button", { name: /^This one is right: .*Hazelwood/ }).waitFor();
    expect([...first.errors, ...second.errors]).toEqual([]);
  });

  test("[UI-375] what was chosen of two corrections is said at once, and its undo asks again", async () => {
    const { hub, first, second } = await twoNamesForHazel();
    const { page } = first;
    await go(page, hub.address, "/problems");
    const right = (name: string) => page.getByRole("button", { name: new RegExp(`^This one is right: .*${name}`) });
    await right("Hazelwood").click();
    await page.getByText("Everything fits together.").waitFor();
    await page.getByText(/^Saved on this device.*Right: .*Hazelwood.*by Tobias/).waitFor();
    await press(page, "Undo");
    await right("Hazelnut").waitFor();
    await right("Hazelwood").waitFor();
    expect(await page.getByRole("button", { name: "Undo" }).count()).toBe(0);
    expect([...first.errors, ...second.errors]).toEqual([]);
  });

  test("[UI-252] struck out on one and corrected on the other: history holds both, and brought back it is as corrected", async () => {
    const { hub, first, second } = await twoPhonesWithHazel();
    for (const { context } of [first, second]) await context.setOffline(true);
    await go(first.page, hub.address, "/animals");
    await follow(first.page, /Hazel/);
    await press(first.page, /^Entered by mistake/);
    await renameHazel(second.page, hub.address, "Hazelnut");
    for (const { page, context } of [first, second, first]) {
      await context.setOffline(false);
      await exchangeNow(page, hub.address);
    }
    for (const { page } of [first, second]) {
      await go(page, hub.address, "/animals");
      await untilHeading(page, /0 goats|No goats/);
      await go(page, hub.address, "/entries");
      const lines = page.locator("li.struck");
      await lines.filter({ hasText: "by Tobias" }).waitFor();
      await lines.filter({ hasText: "by Ines" }).waitFor();
    }
    await press(first.page, /^Bring it back|^Bring back/);
    await go(first.page, hub.address, "/animals");
    await first.page.getByRole("link", { name: /Hazelnut/ }).waitFor();
    expect([...first.errors, ...second.errors]).toEqual([]);
  });

  test("[UI-338] what was handed over is told in passing, and the focus stays where it was", async () => {
    const { hub, first, second } = await twoPhonesWithHazel();
    const { page, context } = first;
    await context.setOffline(true);
    await addGoat(page, hub.address, { name: "Flint", sex: "Buck" });
    await go(page, hub.address, "/safe");
    await page.getByText("On this device only: 1").waitFor();
    const key = page.getByRole("button", { name: "Make a backup file" });
    await key.focus();
    await page.evaluate(listen);
    await context.setOffline(false);
    await page.getByText("Everything is on the hub too").waitFor();
    expect(await toldOn(page)).toContainEqual(expect.stringMatching(/^status: Everything is on the hub too/));
    expect((await toldOn(page)).filter((said) => said.startsWith("alert"))).toEqual([]);
    expect(await key.evaluate((one) => one === document.activeElement)).toBe(true);
    expect([...first.errors, ...second.errors]).toEqual([]);
  });

  test.each([
    ["Today", "/", /^status: One entry does not fit/],
    ["What does not fit", "/problems", /^status: 1 thing to look at/],
  ])("[UI-338] a clash that comes in is told in passing on %s, and the focus stays", async (_page, path, told) => {
    const { hub, first, second } = await twoPhonesWithHazel();
    for (const { context } of [first, second]) await context.setOffline(true);
    await renameHazel(first.page, hub.address, "Hazelnut");
    await renameHazel(second.page, hub.address, "Hazelwood");
    await second.context.setOffline(false);
    await exchangeNow(second.page, hub.address);
    const { page } = first;
    await go(page, hub.address, path);
    const place = page.getByRole("link", { name: "Plan", exact: true });
    await place.focus();
    await page.evaluate(listen);
    await first.context.setOffline(false);
    await expect.poll(() => toldOn(page)).toContainEqual(expect.stringMatching(told));
    expect((await toldOn(page)).filter((said) => said.startsWith("alert"))).toEqual([]);
    expect(await place.evaluate((one) => one === document.activeElement)).toBe(true);
    expect([...first.errors, ...second.errors]).toEqual([]);
  });
});

/** Two phones of one herd on one hub: the goat Hazel is on both, entered by Ines on the first. */
async function twoPhonesWithHazel() {
  const hub = await startHub();
  const first = await newPhone();
  await startOwnHerd(first.page, hub.address, "Thornfield", "Ines");
  await addGoat(first.page, hub.address, { name: "Hazel", sex: "Doe" });
  await exchangeNow(first.page, hub.address);
  const second = await newPhone();
  await second.page.goto(hub.address);
  await press(second.page, /A herd on the hub/);
  await sayWho(second.page, "Tobias");
  await exchangeNow(second.page, hub.address);
  // What they open later without a network has to be on them.
  for (const { page } of [first, second])
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  return { hub, first, second };
}

/** Two phones that each gave Hazel another name without knowing of the other, and have met since. */
async function twoNamesForHazel() {
  const phones = await twoPhonesWithHazel();
  const { hub, first, second } = phones;
  for (const { context } of [first, second]) await context.setOffline(true);
  await renameHazel(first.page, hub.address, "Hazelnut");
  await renameHazel(second.page, hub.address, "Hazelwood");
  for (const { page, context } of [first, second]) {
    await context.setOffline(false);
    await exchangeNow(page, hub.address);
  }
  await exchangeNow(first.page, hub.address);
  return phones;
}

/** Hazel gets another name. */
async function renameHazel(page: Page, at: string, name: string): Promise<void> {
  await go(page, at, "/animals");
  await follow(page, /Hazel/);
  await follow(page, "Change What is known of it");
  await page.getByLabel(/^Name/).fill(name);
  await press(page, "Store this");
  await untilHeading(page, name);
}
