import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { phoneClock } from "./phone-clock.ts";
import { atRest, untilAtRest } from "./rest.ts";
import { addGoat, choose, follow, go, openKidding, press, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** A phone of its own in a zone, at a moment. */
async function phoneAt(zone: string, utc: string) {
  const { context, page, errors } = await newPhone();
  await atRest(page, address);
  const clock = await phoneClock(context, page, utc, zone);
  await startOwnHerd(page, address);
  await addGoat(page, address, { name: "Hazel", sex: "Doe" });
  await go(page, address, "/");
  return { context, page, errors, clock };
}

/** Hazel has one doe kid; the page that asks whether all is right. */
async function oneKid(page: Page): Promise<void> {
  await openKidding(page);
  await choose(page, "Doe");
  await choose(page, "Alive");
  await untilSaved(page);
  await press(page, "Check the litter");
  await page.getByRole("button", { name: "Finish this litter" }).waitFor();
}

/** The day that the ledger has for the one birth, as its backup tells; the time of day may stand behind it. */
async function dayOfBirth(page: Page): Promise<string | undefined> {
  await go(page, address, "/safe");
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup")]);
  const lines = readFileSync(await download.path(), "utf8").split("\n");
  const births = lines.flatMap((line) => {
    const entry = line.startsWith("{") ? (JSON.parse(line) as { readonly kind?: string; readonly on?: string }) : {};
    return entry.kind === "kidding" ? [entry.on] : [];
  });
  expect(births.length).toBe(1);
  return births[0]?.slice(0, 10);
}

/** How old the page of Hazel's kid says that it is. */
async function ageSaid(page: Page): Promise<string> {
  await go(page, address, "/animals");
  await follow(page, /doe kid|Wren/);
  const said = page.getByText(/\d+ (day|week|month|year)s? old/).first();
  await said.waitFor();
  return /\d+ \w+ old/.exec(await said.innerText())?.[0] ?? "";
}

/** Ten past midnight on 15 March 2026 in five zones; their offsets by the IANA database, none of which has summer time then. */
const TEN_PAST_MIDNIGHT = [
  ["Pacific/Pago_Pago", "2026-03-15T11:10:00Z"], // UTC-11
  ["America/Bogota", "2026-03-15T05:10:00Z"], // UTC-5
  ["UTC", "2026-03-15T00:10:00Z"],
  ["Asia/Kolkata", "2026-03-14T18:40:00Z"], // UTC+5:30
  ["Pacific/Kiritimati", "2026-03-14T10:10:00Z"], // UTC+14
] as const;

describe("where the phone is", () => {
  test("[UI-247] born at 23:50 and entered at 00:10: yesterday is offered, and all days are the same in five zones", async () => {
    const seen: string[] = [];
    for (const [zone, utc] of TEN_PAST_MIDNIGHT) {
      const { page, errors } = await phoneAt(zone, utc);
      await oneKid(page);
      await page.getByText("It is just past midnight. Was it yesterday?").waitFor();
      await press(page, "Yesterday");
      await press(page, "Finish this litter");
      await untilHeading(page, /in the herd/);
      const age = await ageSaid(page);
      await go(page, address, "/");
      await page.locator("main a.row").first().waitFor();
      const today = await page.locator("main").innerText();
      expect([zone, await dayOfBirth(page), age]).toEqual([zone, "2026-03-14", "1 day old"]);
      seen.push(today);
      expect(errors).toEqual([]);
    }
    expect(seen[0]).toContain("Sunday 15 March");
    expect(new Set(seen).size).toBe(1);
  });

  test("[UI-247] carried into another zone the page turns to the day there, and what was entered keeps its day", async () => {
    const { page, errors, clock } = await phoneAt("Europe/Madrid", "2026-03-16T12:00:00Z");
    await oneKid(page);
    await press(page, "Finish this litter");
    await untilHeading(page, /in the herd/);
    await go(page, address, "/");
    await untilHeading(page, "Monday 16 March");
    await clock.travel("Pacific/Kiritimati");
    await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await untilHeading(page, "Tuesday 17 March");
    expect(await ageSaid(page)).toBe("1 day old");
    expect(await dayOfBirth(page)).toBe("2026-03-16");
    await clock.travel("Pacific/Pago_Pago");
    await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await go(page, address, "/");
    await untilHeading(page, "Monday 16 March");
    expect(await dayOfBirth(page)).toBe("2026-03-16");
    expect(errors).toEqual([]);
  });
});

describe("a clock that is off, or put right", () => {
  test("[UI-248] an hour, a day, a leap day, summer time: ages go by days, and the day that was entered stays", async () => {
    const { page, errors, clock } = await phoneAt("Europe/Madrid", "2026-03-26T22:30:00Z"); // 23:30 there
    await oneKid(page);
    await press(page, "Finish this litter");
    await untilHeading(page, /in the herd/);
    // Summer time begins there on 29 March 2026 and ends on 25 October, each at 01:00 UTC (Directive 2000/84/EC).
    for (const [moment, age] of [
      ["2026-03-26T21:30:00Z", "0 days old"],
      ["2026-03-26T23:30:00Z", "1 day old"],
      ["2026-03-29T00:59:00Z", "3 days old"],
      ["2026-03-29T21:59:00Z", "3 days old"],
      ["2026-03-29T22:01:00Z", "4 days old"],
      ["2026-10-25T00:59:00Z", "6 months old"],
      ["2028-02-29T12:00:00Z", "23 months old"],
    ] as const) {
      await clock.set(moment);
      expect(await ageSaid(page), moment).toBe(age);
    }
    await go(page, address, "/");
    await clock.set("2001-01-01T12:00:00Z");
    expect(await dayOfBirth(page)).toBe("2026-03-26");
    await clock.set("2026-03-27T10:00:00Z");
    expect(await ageSaid(page)).toBe("1 day old");
    expect(errors).toEqual([]);
  });

  test.each([
    ["an hour", "2026-03-16T11:00:00Z"],
    ["to the year 2001", "2001-01-01T00:00:00Z"],
  ])("[UI-248] a clock that goes back %s: what is entered last still comes last, and counts", async (_, back) => {
    const { page, errors, clock } = await phoneAt("Europe/Madrid", "2026-03-16T12:00:00Z");
    await renamed(page, "Wren", "Hazel");
    await clock.set(back);
    await renamed(page, "Sedge", "Wren");
    await clock.set("2026-03-16T13:00:00Z");
    await go(page, address, "/animals");
    await page.getByRole("link", { name: /Sedge/ }).waitFor();
    await go(page, address, "/problems");
    await page.getByText("Everything fits together.").waitFor();
    await go(page, address, "/safe");
    const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup")]);
    const stamps = [...readFileSync(await download.path(), "utf8").matchAll(/"at":"([^"]+)"/g)].map(
      ([, at = ""]) => at,
    );
    expect(stamps.length).toBe(4);
    expect(stamps.toSorted((a, b) => (a < b ? -1 : 1))).toEqual(stamps);
    expect(errors).toEqual([]);
  });
});

describe("is this phone's date right?", () => {
  test("[UI-249] asked once a day where something is entered, never while a head is read, and in nobody's way", async () => {
    const { page, errors, clock } = await phoneAt("Europe/Madrid", "2046-03-16T12:00:00Z");
    const question = page.getByRole("region", { name: "Is this device's date right?" });
    await oneKid(page);
    expect(await question.count()).toBe(0);
    await press(page, "Finish this litter");
    await untilHeading(page, /in the herd/);
    await clock.set("2041-01-01T12:00:00Z");
    await go(page, address, "/");
    expect(await question.count()).toBe(0);
    await go(page, address, "/add");
    await question.getByText("This device says: Tuesday 1 January 2041.").waitFor();
    await question.getByText("The last entry was written on Friday 16 March 2046.").waitFor();
    expect(await axeFaults(page, { within: "main" })).toEqual([]);
    await addGoat(page, address, { name: "Flint", sex: "Buck" });
    await go(page, address, "/add");
    await question.getByRole("button", { name: "It is wrong" }).click();
    await page.getByText("Set the date in this device's settings. Each day entered can be changed later.").waitFor();
    await go(page, address, "/");
    await go(page, address, "/add");
    await page.getByLabel(/^Name/).waitFor();
    expect(await question.count()).toBe(0);

    await clock.set("2046-06-01T12:00:00Z");
    await go(page, address, "/add");
    await question.getByRole("button", { name: "It is right" }).click();
    await clock.set("2046-06-02T12:00:00Z");
    await page.getByLabel(/^Name/).waitFor();
    await untilAtRest(page); // the question would have come by now
    expect(await question.count()).toBe(0);
    expect(errors).toEqual([]);
  });
});

/** A goat gets another name. */
async function renamed(page: Page, name: string, before: string): Promise<void> {
  await go(page, address, "/animals");
  await follow(page, new RegExp(before));
  await follow(page, "Change What is known of it");
  await page.getByLabel(/^Name/).fill(name);
  await press(page, "Store this");
  await untilHeading(page, name);
}
