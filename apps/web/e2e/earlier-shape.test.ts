import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { follow, go, press, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** The entries of a kept ledger of version 1: the lines between its head and its seal. */
const keptEntries = (name: string): readonly Readonly<Record<string, unknown>>[] =>
  entriesIn(readFileSync(new URL(`../../../fixtures/ledgers/v1/${name}`, import.meta.url), "utf8"));
const entriesIn = (file: string) =>
  file
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as Readonly<Record<string, unknown>>)
    .filter((line) => "id" in line);

/** What a phone held: every kind of entry, and what a later version wrote about the same doe. */
const ENTRIES = [...keptEntries("every-kind.jsonl"), ...keptEntries("too-new.jsonl").slice(1)];
const HERD = String(ENTRIES[0]?.["herd"]);
/** Answers as they were kept before a weight kept its unit: a litter half told, and a head put aside. */
const DRAFTS = [
  {
    key: "kidding:sorrel",
    kind: "kidding",
    about: "sorrel",
    entry: "01a5b1c2-0000-7000-8000-000000000001",
    step: "kid-0",
    savedAt: "2026-06-20T07:12",
    state: "open",
    answers: {
      on: "2026-06-20",
      time: "07:05",
      kids: [{ kid: "01a5b1c2-0000-7000-8000-00000000000a", sex: "doe", born: "alive", weightText: "3,4" }],
    },
  },
  {
    key: "head-reading:kid-2",
    kind: "head-reading",
    about: "kid-2",
    entry: "01a5b1c2-0000-7000-8000-000000000002",
    step: "skin",
    savedAt: "2026-06-19T18:40",
    state: "aside",
    answers: { on: "2026-06-19", time: "18:31", signs: { feel: { both: "pointed" } }, layout: "one" },
  },
];

interface Kept {
  readonly herd: string;
  readonly entries: readonly unknown[];
  readonly drafts: readonly unknown[];
}

/** Runs in the page: makes the databases of a phone as they were before there were pictures. */
async function makeEarlierPhone({ herd, entries, drafts }: Kept): Promise<void> {
  const made = (name: string, upgrade: (db: IDBDatabase) => void, fill: (db: IDBDatabase) => IDBTransaction) =>
    new Promise<void>((settle, fail) => {
      const opening = indexedDB.open(name, 1);
      opening.addEventListener("upgradeneeded", () => upgrade(opening.result));
      opening.addEventListener("error", () => fail(opening.error ?? new Error(name)));
      opening.addEventListener("success", () => {
        const db = opening.result;
        fill(db).addEventListener("complete", () => {
          db.close();
          settle();
        });
      });
    });
  await made(
    `pollard-herd-${herd}`,
    (db) => {
      db.createObjectStore("entries", { keyPath: "seq", autoIncrement: true }).createIndex("id", "id", {
        unique: true,
      });
      db.createObjectStore("drafts", { keyPath: "key" });
      db.createObjectStore("marks");
    },
    (db) => {
      const writing = db.transaction(["entries", "drafts", "marks"], "readwrite");
      for (const json of entries) writing.objectStore("entries").add({ id: (json as { id: string }).id, json });
      for (const draft of drafts) writing.objectStore("drafts").add(draft);
      writing.objectStore("marks").put({ on: "2026-06-18", time: "20:15", entries: 20 }, "backup");
      return writing;
    },
  );
  await made(
    "pollard-device",
    (db) => {
      db.createObjectStore("facts");
      db.createObjectStore("herds", { keyPath: "id" });
    },
    (db) => {
      const writing = db.transaction(["facts", "herds"], "readwrite");
      writing.objectStore("herds").add({ id: herd, name: "Quern Hill", sort: "own" });
      for (const [key, value] of [
        ["device", "phone-marit"],
        ["who", "Marit"],
        ["current", herd],
      ])
        writing.objectStore("facts").put(value, key);
      return writing;
    },
  );
}

/** A phone on which an earlier version was used last, with the app of today just opened on it. */
async function openedOnEarlierPhone(): Promise<Page> {
  const { page } = await newPhone();
  await page.route(`${address}/before`, (route) => route.fulfill({ contentType: "text/html", body: "<p>before</p>" }));
  await page.goto(`${address}/before`);
  await page.evaluate(makeEarlierPhone, { herd: HERD, entries: ENTRIES, drafts: DRAFTS });
  await page.goto(address);
  return page;
}

describe("a phone's copy from before there were pictures", () => {
  test("[UI-337] opens with every entry, also those of a later version, as they were", async () => {
    const page = await openedOnEarlierPhone();
    await go(page, address, "/safe");
    await page.getByText(`${ENTRIES.length} entries on this device`).waitFor();
    const [backup] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup file")]);
    const byId = (a: { readonly id?: unknown }, b: { readonly id?: unknown }) => (String(a.id) < String(b.id) ? -1 : 1);
    const written = entriesIn(readFileSync(await backup.path(), "utf8"));
    expect(written.toSorted(byId)).toEqual(ENTRIES.toSorted(byId));
    await go(page, address, "/problems");
    await page
      .getByText(/later version/)
      .first()
      .waitFor();
  });

  test("[UI-337] opens with its open answers, and a litter half told is finished once", async () => {
    const page = await openedOnEarlierPhone();
    await page
      .getByRole("region", { name: "You were here" })
      .getByText(/Sorrel/)
      .waitFor();
    await page
      .getByText(/put aside/i)
      .first()
      .waitFor();
    await follow(page, "Carry on");
    await untilHeading(page, "Kid 1");
    expect(await page.getByRole("radio", { name: "Doe", exact: true }).isChecked()).toBe(true);
    expect(await page.getByRole("radio", { name: "Alive", exact: true }).isChecked()).toBe(true);
    expect(await page.getByLabel(/[Ww]eight/).inputValue()).toBe("3,4");
    await press(page, "Check the litter");
    await press(page, "Finish this litter");
    await untilHeading(page, /in the herd/);
    await go(page, address, "/safe");
    await page.getByText(`${ENTRIES.length + 1} entries on this device`).waitFor();
    await go(page, address, "/");
    await page
      .getByText(/put aside/i)
      .first()
      .waitFor();
    expect(await page.getByRole("region", { name: "You were here" }).count()).toBe(0);
    await go(page, address, "/reading/kid-2/feel");
    expect(await page.getByRole("radio", { name: "Pointed", exact: true }).isChecked()).toBe(true);
  });
});
