import { createServer, type AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { anEntry } from "@pollard/records/testing";
import { beforeEach, describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import type { RunningHub } from "./hub-process.ts";
import { addGoat, choose, exchangeNow, go, press, sayWho, startOwnHerd, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

/** The hub's own name and certificate, for a name that belongs to nobody (RFC 2606). */
const NAME = "goats.example";
const certificate = (ending: string): string =>
  fileURLToPath(new URL(`../../hub/src/testing/certificate/${NAME}.${ending}`, import.meta.url));

const { newPhone, startHub } = underTest([
  `--host-resolver-rules=MAP ${NAME} 127.0.0.1`,
  "--ignore-certificate-errors",
]);
let hub: RunningHub;
let reach: string;

/** A port that is free now. */
const freePort = (): Promise<number> =>
  new Promise((settle) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => settle(port));
    });
  });

beforeEach(async () => {
  const port = await freePort();
  reach = `https://${NAME}:${port}`;
  const door = ["--name", reach, "--host", "127.0.0.1", "--cert", certificate("crt"), "--key", certificate("key")];
  hub = await startHub(door);
});

/** The digits of a code, as they stand on the computer's page. */
async function codeFor(computer: Page, role: "Everything" | "Record only" | "The vet"): Promise<string> {
  await go(computer, hub.address, "/phones");
  await computer.getByRole("radio", { name: new RegExp(`^${role}`) }).check();
  await press(computer, "Show a code");
  return computer.locator(".join-code").innerText();
}

describe("phones", () => {
  test("[UI-97] a phone joins by the digits, both see what the other wrote; shut out, it keeps what it has", async () => {
    const computer = await newPhone();
    await startOwnHerd(computer.page, hub.address);
    await addGoat(computer.page, hub.address, { name: "Hazel", sex: "Doe" });
    await go(computer.page, hub.address, "/safe");
    await press(computer.page, "Exchange now");

    const code = await codeFor(computer.page, "Everything");
    expect(code).toMatch(/^\d{4} \d{4} \d{4}$/);
    const phone = await newPhone();
    await phone.page.goto(`${reach}/#/join/${code.replaceAll(" ", "")}`);
    await phone.page.getByLabel(/called/).fill("Tobias's phone");
    await press(phone.page, "Join");
    await sayWho(phone.page, "Tobias");
    await go(phone.page, reach, "/animals");
    await untilHeading(phone.page, "1 goat");
    await addGoat(phone.page, reach, { name: "Flint", sex: "Buck" });
    await exchangeNow(phone.page, reach);

    await exchangeNow(computer.page, hub.address);
    await go(computer.page, hub.address, "/animals");
    await untilHeading(computer.page, "2 goats");

    await go(computer.page, hub.address, "/phones");
    await press(computer.page, /Let it in no longer: Tobias/);
    await computer.page.getByText(/is let in no longer. What it wrote stays/).waitFor();
    await addGoat(phone.page, reach, { name: "Moss", sex: "Doe" });
    await go(phone.page, reach, "/safe");
    await press(phone.page, "Exchange now");
    await phone.page.getByText(/This device is let in no longer/).waitFor();
    await go(phone.page, reach, "/animals");
    await untilHeading(phone.page, "3 goats");

    // Once more by a code: the computer lists one phone, and what it was let in by before is worth nothing.
    const second = await codeFor(computer.page, "Everything");
    await phone.page.goto(`${reach}/#/join/${second.replaceAll(" ", "")}`);
    await phone.page.getByLabel(/called/).fill("Tobias's phone");
    await press(phone.page, "Join");
    await go(computer.page, hub.address, "/phones");
    await computer.page.getByRole("button", { name: /Let it in no longer: Tobias/ }).waitFor();
    expect(await computer.page.getByRole("button", { name: /Tobias/ }).count()).toBe(1);
    await press(computer.page, /Let it in no longer: Tobias/);
    await press(computer.page, /Let it in again: Tobias/);
    await computer.page.getByText("Tobias's phone is let in again.").waitFor();
    await exchangeNow(phone.page, reach);
    expect([...computer.errors, ...phone.errors]).toEqual([]);
  });

  test("[UI-290] the first phone of a herd that is to begin joins by a code, and what it writes is on the hub", async () => {
    const made = await fetch(`${hub.address}/api/herds/begun-by-a-phone/invites`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ role: "keeper" }),
    });
    const { code } = (await made.json()) as { readonly code: string };
    const phone = await newPhone();
    await phone.page.goto(`${reach}/#/join/${code}`);
    await phone.page.getByLabel(/called/).fill("Ines's phone");
    await press(phone.page, "Join");
    await sayWho(phone.page, "Ines");
    await addGoat(phone.page, reach, { name: "Alder", sex: "Doe" });
    await exchangeNow(phone.page, reach);
    const kept = await fetch(`${hub.address}/api/herds/begun-by-a-phone/entries`);
    expect(JSON.stringify(await kept.json())).toContain("Alder");
    expect(phone.errors).toEqual([]);
  });

  test("[UI-97] a code that is used up, and one that never was, are said in a sentence", async () => {
    const computer = await newPhone();
    await startOwnHerd(computer.page, hub.address, "Elmfield");
    const phone = await newPhone();
    await phone.page.goto(reach);
    await press(phone.page, /Join a herd/);
    await phone.page.getByLabel(/The code/).fill("0000 0000 0000");
    await phone.page.getByLabel(/called/).fill("A phone");
    await press(phone.page, "Join");
    await phone.page.getByText(/This code is not good/).waitFor();
    expect([...computer.errors, ...phone.errors]).toEqual([]);
  });
});

/** What axe finds wrong on a page in each light, and how much wider than a phone of 320 px it is. */
async function faultsOf(page: Page): Promise<readonly string[]> {
  const found: string[] = [];
  for (const light of ["sun", "barn", "day"]) {
    await page.evaluate((wanted) => localStorage.setItem("pollard-look", `${wanted} bare right`), light);
    await page.reload();
    await page.locator("h1").first().waitFor();
    await page.locator("main .card").first().waitFor();
    found.push(...(await axeFaults(page)).map((fault) => `${light}: ${fault}`));
  }
  const size = page.viewportSize();
  await page.setViewportSize({ width: 320, height: 640 });
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  if (over > 0) found.push(`wider by ${over}`);
  if (size !== null) await page.setViewportSize(size);
  return found;
}

/** The two questions after a vet's phone has joined. */
async function sayWhoAsVet(page: Page, who: string): Promise<void> {
  await untilHeading(page, /using this device/);
  await page.getByLabel("Name").fill(who);
  await press(page, "Next");
  await press(page, "Start");
  await untilHeading(page, "Visits");
}

describe("a helper's phone", () => {
  test("[UI-177] what it records is taken; a setting is not, and the phone says which and why", async () => {
    const computer = await newPhone();
    await startOwnHerd(computer.page, hub.address, "Ashfield");
    const code = await codeFor(computer.page, "Record only");
    const phone = await newPhone();
    await phone.page.goto(`${reach}/#/join/${code.replaceAll(" ", "")}`);
    await phone.page.getByLabel(/called/).fill("Milo's phone");
    await press(phone.page, "Join");
    await sayWho(phone.page, "Milo");
    await go(phone.page, reach, "/holder");
    await phone.page.getByText("The hub knows this device as: Milo's phone.").waitFor();
    await addGoat(phone.page, reach, { name: "Sorrel", sex: "Doe" });
    await go(phone.page, reach, "/settings");
    await press(phone.page, "One more look: More");
    await go(phone.page, reach, "/safe");
    await press(phone.page, "Exchange now");
    await phone.page.getByText("The hub would not take 1 entry.").waitFor();
    const line = phone.page.getByRole("listitem").filter({ hasText: /^Setting, today, by Milo/ });
    await line.getByText("The keeper does not let this device do that. Ask the keeper to enter it.").waitFor();
    await phone.page.reload();
    await press(phone.page, "Exchange now");
    await line.waitFor();
    await exchangeNow(computer.page, hub.address);
    await go(computer.page, hub.address, "/animals");
    await untilHeading(computer.page, "1 goat");
    expect([...computer.errors, ...phone.errors]).toEqual([]);
  });
});

/** A day so many days from now, as calendars on this computer say it. */
function dayFromNow(days: number): string {
  const at = new Date(Date.now() + days * 86_400_000);
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** A herd on the hub with a kid for the vet, open on the computer. */
async function herdWithAVisit(herd: string): Promise<{ readonly page: Page; readonly errors: readonly string[] }> {
  const [moth, visit] = ["moth" as never, dayFromNow(0)];
  const of = (on: string) => ({ herd, on });
  const entries = [
    anEntry("setting", { key: "herd-name", value: "Oak <b>Hollow</b>" }, of(dayFromNow(-9))),
    anEntry("animal", { animal: "hazel" as never, name: "Hazel", sex: "doe", head: "horned" }, of(dayFromNow(-9))),
    anEntry(
      "kidding",
      { dam: "hazel" as never, kids: [{ kid: moth, sex: "doe", born: "alive", name: "Moth <script>" }] },
      of(dayFromNow(-4)),
    ),
    anEntry("vet-day", { vet: "Dr. Amaro" }, of(visit)),
    anEntry("choice", { kid: moth, choice: "vet-list", day: visit as never }, of(dayFromNow(-1))),
  ];
  const sent = await fetch(`${hub.address}/api/herds/${herd}/entries`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ exchange: 1, entries }),
  });
  expect(sent.status).toBe(200);
  const { page, errors } = await newPhone();
  await page.goto(hub.address);
  await press(page, "Oak <b>Hollow</b>");
  await sayWho(page, "Ines");
  await page.getByText(/Moth/).first().waitFor();
  return { page, errors };
}

describe("what is shown outside", () => {
  test("[UI-175] the vet's phone sees the list and nothing else, writes without a signal, and the herd has it", async () => {
    const { page, errors } = await herdWithAVisit("oak-hollow");
    const visit = dayFromNow(0);
    const code = await codeFor(page, "The vet");
    await go(page, hub.address, `/vet/${visit}`);
    await press(page, "Show this list to the vet");
    await page.getByText("1 kid is shown.").waitFor();

    const vet = await newPhone();
    await vet.page.goto(`${reach}/#/join/${code.replaceAll(" ", "")}`);
    await vet.page.getByLabel(/called/).fill("Dr. Amaro's phone");
    await press(vet.page, "Join");
    await sayWhoAsVet(vet.page, "Dr. Amaro");
    await untilHeading(vet.page, "Moth <script>");
    expect(await vet.page.locator("body").innerText()).not.toMatch(/in \d+ kids|Animals/);
    expect(await faultsOf(vet.page)).toEqual([]);
    await vet.page.goto(`${reach}/#/animals`);
    await untilHeading(vet.page, "There is nothing at this address.");
    await vet.page.goto(`${reach}/#/`);

    await vet.context.setOffline(true);
    await vet.page.getByRole("link", { name: /Enter what was done: Moth/ }).click();
    await choose(vet.page, "Both sides");
    await press(vet.page, "Store this");
    await vet.page.getByText("1 waits here to be handed over.").waitFor();
    await vet.context.setOffline(false);
    await press(vet.page, "Hand over now");
    await vet.page.getByText("All is handed over.").waitFor();

    await exchangeNow(page, hub.address);
    await go(page, hub.address, `/vet/${visit}`);
    await page.getByText("Both sides").first().waitFor();
    expect([...errors, ...vet.errors]).toEqual([]);
  });

  test("[UI-176] a kid's paper opens by its link for whoever has it, until the keeper ends it", async () => {
    const { page, errors } = await herdWithAVisit("elm-hollow");
    await go(page, hub.address, "/sheet/kid/moth");
    await press(page, "Make a link");
    const address = await page.locator(".guest-link").innerText();
    expect(address.startsWith(`${reach}/paper/`)).toBe(true);
    const guest = await newPhone();
    await guest.page.goto(address);
    await untilHeading(guest.page, /Moth <script>/);
    expect(await guest.page.locator("script").count()).toBe(0);
    await go(page, hub.address, "/phones");
    expect(await faultsOf(page)).toEqual([]);
    await press(page, /End this link/);
    await page.getByText(/is shown no longer/).waitFor();
    await guest.page.reload();
    await untilHeading(guest.page, "This link is over.");
    expect([...errors, ...guest.errors]).toEqual([]);
  });
});
