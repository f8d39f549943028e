import { copyFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { err, ok } from "@pollard/base";
import {
  type EntryStore,
  type ExchangeMarks,
  type ExchangePeer,
  exchangeOnce,
  type HerdId,
  NO_MARKS,
  type SeenCopy,
} from "@pollard/records";
import { anEntry, memoryStore } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createHub } from "./hub.ts";
import { ledgersIn } from "./store/ledger-store.ts";
import type { Ledgers } from "./store/ledgers.ts";
import { DATABASE_FILE } from "./store/open-database.ts";
import { onEachEngine, type PlaceUnderTest } from "./testing/engines.ts";

/** Devices that exchange with the hub as a browser does, through its own function and a real database. */
async function open(place: PlaceUnderTest) {
  const database = await place.open();
  return { ...ledgersIn(database), close: database.close };
}

const herd = "herd" as HerdId;
const path = "http://localhost:4180/api/herds/herd/entries";

/** The hub over HTTP; `lossy` says which answers are lost on the way back, though the hub has done what was asked. */
function peerOf(ledgers: Ledgers, lossy: () => boolean = () => false): ExchangePeer {
  const hub = createHub({ ledgers, webRoot: "/nowhere", log: () => undefined });
  const ask = async (request: Request) => {
    const response = await hub(request);
    const json: unknown = await response.json();
    if (lossy()) return err({ code: "unreachable", cause: "lost on the way" } as const);
    return response.ok ? ok(json) : err({ code: "peer-refused", status: response.status, reason: "" } as const);
  };
  const headers = { "content-type": "application/json" };
  return {
    push: (request) => ask(new Request(path, { method: "POST", headers, body: JSON.stringify(request) })),
    pull: (after, limit, known) =>
      ask(new Request(`${path}?${new URLSearchParams(pullQuery(after, limit, known)).toString()}`)),
  };
}

/** What a pull asks, as an address says it. */
const pullQuery = (after: number, limit: number, known: SeenCopy | undefined): Record<string, string> => ({
  after: String(after),
  limit: String(limit),
  ...(known && { copy: known.copy, place: String(known.seen.place), notch: known.seen.notch }),
});

interface Device {
  readonly store: EntryStore;
  marks: ExchangeMarks;
}

async function exchange(device: Device, peer: ExchangePeer) {
  const report = await exchangeOnce({ herd, store: device.store, peer }, device.marks);
  device.marks = report.marks;
  return report;
}

const note = () => anEntry("note", { text: "rain" });
const aDevice = (): Device => ({ store: memoryStore(), marks: NO_MARKS });
async function idsOf(store: EntryStore): Promise<readonly string[]> {
  const read = await store.read(0, 1_000_000);
  return read.ok ? read.value.map(({ entry }) => entry.id).sort() : [];
}

onEachEngine("devices that exchange through the hub", ({ engine, newPlace }) => {
  // A server is put back by its own programs: backup.test.ts has what comes after that.
  test.runIf(engine === "libsql")(
    "[HU-12] the hub's file is put back from an older backup: the phone hands everything over again",
    async () => {
      const [live, backup] = [await newPlace(), await newPlace()];
      const phone = aDevice();
      let hub = await open(live);
      await phone.store.append([note(), note()]);
      await exchange(phone, peerOf(hub));
      await hub.close();
      mkdirSync(backup.folder);
      copyFileSync(join(live.folder, DATABASE_FILE), join(backup.folder, DATABASE_FILE));
      hub = await open(live);
      await phone.store.append([note(), note()]);
      await exchange(phone, peerOf(hub));
      await exchange(phone, peerOf(hub)); // the phone learns the places of what it handed over
      await hub.close();

      hub = await open(backup);
      expect((await idsOf(hub.of(herd).store)).length).toBe(2);
      await exchange(phone, peerOf(hub));
      expect(await idsOf(hub.of(herd).store)).toEqual(await idsOf(phone.store));
      expect((await idsOf(phone.store)).length).toBe(4);
      await hub.close();
    },
  );

  test("[HU-90] put back while the gap was filled by others: a phone notices by a notch, and all have everything", async () => {
    const place = await newPlace();
    const [ines, tobias] = [aDevice(), aDevice()];
    const kept = join(place.folder, "old.db");
    let hub = await place.open();
    const meet = (device: Device) => exchange(device, peerOf(ledgersIn(hub)));
    await ines.store.append([note(), note()]);
    for (const device of [ines, tobias]) await meet(device);
    // The embedded file is put back as a file; of a server, its rows are taken out again.
    if (engine === "libsql") {
      await hub.close();
      copyFileSync(join(place.folder, DATABASE_FILE), kept);
      hub = await place.open();
    }
    await tobias.store.append([note()]);
    await meet(tobias);
    await meet(tobias);
    if (engine === "libsql") {
      await hub.close();
      copyFileSync(kept, join(place.folder, DATABASE_FILE));
      hub = await place.open();
    } else {
      await hub.db.deleteFrom("entry").where("seq", ">", 2).execute();
      await hub.db.updateTable("herd").set({ last: 2, entries: 2 }).execute();
    }
    await ines.store.append([note(), note()]);
    await meet(ines);
    expect(await idsOf(ledgersIn(hub).of(herd).store)).toHaveLength(4);
    for (const device of [tobias, ines]) await meet(device);
    const there = await idsOf(ledgersIn(hub).of(herd).store);
    expect(there).toHaveLength(5);
    for (const { store } of [ines, tobias]) expect(await idsOf(store)).toEqual(there);
  });

  test("[HU-97] after a month offline, 5,000 entries each way, every third answer lost: each exchange goes on from the last", {
    timeout: 60_000,
  }, async () => {
    const hub = await open(await newPlace());
    const phone = aDevice();
    const entries = (count: number) => Array.from({ length: count }, note);
    await hub.of(herd).store.append(entries(5000));
    await phone.store.append(entries(5000));
    let asked = 0;
    const lossy = peerOf(hub, () => ++asked % 3 === 0);
    let reached = 0;
    let exchanges = 0;
    for (let isDone = false; !isDone; exchanges += 1) {
      isDone = (await exchange(phone, lossy)).failure === undefined;
      const { pulled, pushed } = phone.marks;
      // Two of three answers come: each exchange moves a mark on, and none ever moves back.
      expect(pulled + pushed).toBeGreaterThan(reached);
      reached = pulled + pushed;
    }
    expect(exchanges).toBeGreaterThan(5);
    const there = await idsOf(hub.of(herd).store);
    expect(there).toHaveLength(10_000);
    expect(await idsOf(phone.store)).toEqual(there);
    await hub.close();
  });

  test("[HU-98] a newer app finds a hub that lacks its routes and does not know its fields, and its entries are kept all the same", async () => {
    const hub = await open(await newPlace());
    const answering = createHub({ ledgers: hub, webRoot: "/nowhere", log: () => undefined });
    const missing = await answering(new Request("http://localhost:4180/api/herds/herd/later-matter"));
    expect([missing.status, await missing.json()]).toMatchObject([404, { code: "no-such-page" }]);
    const later = { ...note(), v: 2, kind: "later-kind", body: { of: ["a", { newer: "shape" }] }, newer: true };
    const send = (body: unknown) =>
      answering(
        new Request(path, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify(body),
        }),
      );
    const kept = await send({ exchange: 1, entries: [later, note()], known: { later: "way" }, newer: { field: 1 } });
    expect(await kept.json()).toMatchObject({ verdicts: [{ verdict: "accepted" }, { verdict: "accepted" }] });
    const pulled = await answering(new Request(`${path}?after=0&limit=9&newer=field&place=later&copy=`));
    expect(((await pulled.json()) as { readonly entries: readonly unknown[] }).entries[0]).toEqual(later);
    const refused = await send({ exchange: 2, entries: [note()] });
    expect([refused.status, await refused.json()]).toMatchObject([409, { code: "later-exchange" }]);
    // A phone of before hears of what it cannot read, carries it, and goes on.
    const phone = aDevice();
    expect(await exchange(phone, peerOf(hub))).toMatchObject({ failure: undefined, refused: [] });
    expect(await idsOf(phone.store)).toHaveLength(2);
    await hub.close();
  });

  describe("laws", () => {
    const anAct = fc.record({ device: fc.nat(2), act: fc.constantFrom("write", "exchange", "exchange") });

    test("[HU-6] whatever is written when, and whichever answers are lost, all end with the same entries", async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.array(anAct, { maxLength: 25 }),
          fc.array(fc.boolean(), { minLength: 1, maxLength: 9 }),
          async (acts, losses) => {
            const hub = await open(await newPlace());
            const devices = [aDevice(), aDevice(), aDevice()];
            let asked = 0;
            const lossy = peerOf(hub, () => losses[asked++ % losses.length] ?? false);
            let written = 0;
            for (const { device: at, act } of acts) {
              const device = devices[at] ?? aDevice();
              if (act === "exchange") await exchange(device, lossy);
              else {
                await device.store.append([note(), note()]);
                written += 2;
              }
            }
            for (const device of [...devices, ...devices])
              expect((await exchange(device, peerOf(hub))).failure).toBeUndefined();
            const there = await idsOf(hub.of(herd).store);
            expect(there.length).toBe(written);
            for (const { store } of devices) expect(await idsOf(store)).toEqual(there);
            await hub.close();
          },
        ),
        { numRuns: engine === "libsql" ? 25 : 8 },
      );
    });
  });
});
