import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import { anEntry } from "../entry/entry-builders.ts";
import type { EntryStore } from "./entry-store.ts";
import type { EntryId } from "../entry/ids.ts";

/** A store under test. */
export interface StoreUnderTest {
  readonly store: EntryStore;
  /** Lets go of the store, as at the end of the program, and opens what it left behind. */
  readonly reopen: () => Promise<EntryStore>;
  readonly close?: () => Promise<void>;
}

const aWeight = (kg: number): Entry => anEntry("weight", { animal: animalId("hazel"), kg, how: "weighed" });

function tooNewEntry(): TooNewEntry {
  const written = { ...aWeight(40), v: 2, kind: "milk-yield", body: { litres: 2, shades: ["ö", "山羊", "🐐"] } };
  return { id: written.id, tooNew: written };
}

/** Everything in a store, read in small pieces as a phone would. */
async function readAll(store: EntryStore, limit = 3): Promise<readonly (Entry | TooNewEntry)[]> {
  const all: (Entry | TooNewEntry)[] = [];
  let after = 0;
  for (;;) {
    const page = await store.read(after, limit);
    if (!page.ok) throw new Error(`the store could not be read: ${page.error.code}`);
    const last = page.value.at(-1);
    if (!last) return all;
    expect(page.value.length).toBeLessThanOrEqual(limit);
    for (const { seq, entry } of page.value) {
      expect(seq).toBeGreaterThan(after);
      after = seq;
      all.push(entry);
    }
  }
}

async function expectAdded(store: EntryStore, entries: readonly (Entry | TooNewEntry)[], added: readonly EntryId[]) {
  expect(await store.append(entries)).toMatchObject({ ok: true, value: { added } });
}

/**
 * What every store must do. Each adapter's test file is one call of this.
 *
 * `open` gives an empty store each time it is called.
 */
export function entryStoreContract(name: string, open: () => Promise<StoreUnderTest>): void {
  const inStore = (title: string, body: (under: StoreUnderTest) => Promise<void>) =>
    test(title, async () => {
      const under = await open();
      try {
        await body(under);
      } finally {
        await under.close?.();
      }
    });

  describe(`entry store: ${name}`, () => {
    inStore("[ES-1] a new store is empty", async ({ store }) => {
      expect(await store.read(0, 10)).toEqual({ ok: true, value: [] });
      await expectAdded(store, [], []);
      expect(await readAll(store)).toEqual([]);
    });

    inStore("[ES-1] what was appended is read back whole, in the order of arrival", async ({ store }) => {
      const more = { ...aWeight(3), by: "Åse 🐐", mood: { nested: ["x", 1.5, true] } };
      const entries = [aWeight(1), aWeight(2), more, aWeight(4)];
      const ids = entries.map((entry) => entry.id);
      await expectAdded(store, entries.slice(0, 1), ids.slice(0, 1));
      await expectAdded(store, entries.slice(1), ids.slice(1));
      expect(await readAll(store)).toEqual(entries);
    });

    inStore("[ES-2] the same entry twice is there once, as first written", async ({ store }) => {
      const first = aWeight(1);
      await expectAdded(store, [first], [first.id]);
      const other = aWeight(2);
      await expectAdded(store, [{ ...first, by: "Somebody else" }, other, other], [other.id]);
      expect(await readAll(store)).toEqual([first, other]);
    });

    inStore("[ES-2] one id twice in one call: the first counts", async ({ store }) => {
      const first = aWeight(1);
      await expectAdded(store, [first, { ...first, by: "Somebody else" }], [first.id]);
      expect(await readAll(store)).toEqual([first]);
    });

    inStore(
      "[ES-3] reading goes on after the place that was reached, and never gives more than asked",
      async ({ store }) => {
        const entries = Array.from({ length: 7 }, (_, kg) => aWeight(kg + 1));
        await store.append(entries);
        const page = await store.read(0, 4);
        const last = page.ok ? page.value.at(-1) : undefined;
        expect(page.ok && page.value.map(({ entry }) => entry)).toEqual(entries.slice(0, 4));
        const rest = await store.read(last?.seq ?? 0, 100);
        expect(rest.ok && rest.value.map(({ entry }) => entry)).toEqual(entries.slice(4));
      },
    );

    inStore("[ES-3] what arrives later comes after every place that was reached", async ({ store }) => {
      const [early, late] = [aWeight(1), aWeight(2)];
      await store.append([early]);
      const page = await store.read(0, 10);
      const reached = page.ok ? (page.value.at(-1)?.seq ?? 0) : 0;
      await store.append([early, late]);
      const rest = await store.read(reached, 10);
      expect(rest.ok && rest.value.map(({ entry }) => entry)).toEqual([late]);
    });

    inStore("[ES-4] an entry too new to be understood is kept as it came", async ({ store }) => {
      const tooNew = tooNewEntry();
      const plain = aWeight(1);
      await expectAdded(store, [tooNew, plain], [tooNew.id, plain.id]);
      expect(await readAll(store)).toEqual([tooNew, plain]);
    });

    inStore("[ES-5] calls at the same time lose nothing and double nothing", async ({ store }) => {
      const entries = Array.from({ length: 12 }, (_, kg) => aWeight(kg + 1));
      const calls = entries.map((entry, at) => store.append([entry, ...entries.slice(0, at)]));
      const added = (await Promise.all(calls)).flatMap((call) => (call.ok ? call.value.added : []));
      const wanted = entries.map((entry) => entry.id).sort();
      expect([...added].sort()).toEqual(wanted);
      expect((await readAll(store)).map((entry) => entry.id).sort()).toEqual(wanted);
    });

    inStore("[ES-6] everything that was acknowledged is there after the store was opened again", async (under) => {
      const entries = [aWeight(1), tooNewEntry(), aWeight(3)];
      await under.store.append(entries);
      const again = await under.reopen();
      expect(await readAll(again)).toEqual(entries);
      const later = aWeight(4);
      await expectAdded(again, [...entries, later], [later.id]);
      expect(await readAll(again)).toEqual([...entries, later]);
    });

    inStore(
      "[ES-7] a season's book typed in at once, 5,000 entries, is seen whole or not at all",
      async ({ store }) => {
        const entries = Array.from({ length: 5000 }, (_, at) => aWeight(1 + (at % 200)));
        const ids = entries.map((entry) => entry.id);
        let settled: readonly EntryId[] | undefined;
        const append = store.append(entries).then((call) => {
          settled = call.ok ? call.value.added : [];
        });
        while (!settled) {
          const seen = await store.read(0, 5000);
          expect([0, 5000]).toContain(seen.ok && seen.value.length);
        }
        await append;
        expect(settled).toEqual(ids);
        expect((await readAll(store, 1000)).map((entry) => entry.id)).toEqual(ids);
      },
    );
  });
}
