import { present } from "@pollard/base";
import type { EntryStore, HerdId } from "@pollard/records";
import { anEntry, entryStoreContract, memoryStore } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { onEachEngine, type PlaceUnderTest } from "../testing/engines.ts";
import { ledgersIn } from "./ledger-store.ts";

const herd = "herd" as HerdId;
const note = (text: string) => anEntry("note", { text });

async function openAt(place: PlaceUnderTest) {
  const database = await place.open();
  return { ...ledgersIn(database), close: () => database.close() };
}

onEachEngine("ledgers", ({ engine, newPlace }) => {
  const openNew = async () => openAt(await newPlace());

  let shared: Promise<PlaceUnderTest> | undefined;
  let herds = 0;
  // Each test has a herd of its own in one database, as many herds have it.
  entryStoreContract("hub", async () => {
    const place = await (shared ??= newPlace());
    const own = `herd-${++herds}` as HerdId;
    const ledgers = await openAt(place);
    let last = ledgers;
    return {
      store: ledgers.of(own).store,
      reopen: async () => {
        await ledgers.close();
        last = await openAt(place);
        return last.of(own).store;
      },
      close: () => last.close(),
    };
  });

  describe("of many herds", () => {
    test("[HU-11] herds are kept apart, though an id may stand in two", async () => {
      const ledgers = await openNew();
      const entry = note("one");
      const [oak, elm] = ["oak" as HerdId, "elm" as HerdId];
      await ledgers.of(oak).store.append([entry, note("two")]);
      expect(await ledgers.of(elm).store.read(0, 10)).toEqual({ ok: true, value: [] });
      expect(await ledgers.of(elm).store.append([entry])).toMatchObject({ ok: true, value: { added: [entry.id] } });
      const listed = [
        { id: elm, entries: 1 },
        { id: oak, entries: 2 },
      ];
      expect(await ledgers.herds()).toEqual({ ok: true, value: listed });
    });

    test("[HU-11] a herd that was only asked for is none", async () => {
      const ledgers = await openNew();
      await ledgers.of(herd).store.read(0, 10);
      await ledgers.of(herd).copyFor(0);
      await ledgers.of(herd).store.append([]);
      expect(await ledgers.herds()).toEqual({ ok: true, value: [] });
    });

    test("[HU-6] each herd is numbered from one, without a gap, whatever is pushed again between", async () => {
      const ledgers = await openNew();
      const other = ledgers.of("other" as HerdId).store;
      const { store } = ledgers.of(herd);
      const [a, b, c, d] = [note("a"), note("b"), note("c"), note("d")];
      await store.append([a, b]);
      await other.append([a, b, c, d]);
      await store.append([b, a, c, c]);
      await store.append([a]);
      await store.append([d]);
      const read = await store.read(0, 10);
      expect(read.ok && read.value.map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
    });

    test("[HU-6] names of any letters are kept apart: quotes, NUL, halves of a character", async () => {
      const ledgers = await openNew();
      const names = ["a", 'a"', "a\\", "a\u0000", "a\ud800", "a\ud801", "A", "山羊", "x'); drop table entry; --"];
      const { store } = ledgers.of("odd\u0000" as HerdId);
      const entries = names.map((id) => ({ ...note("odd"), id: id as ReturnType<typeof note>["id"] }));
      expect(await store.append(entries)).toMatchObject({ ok: true, value: { added: names } });
      expect(await store.append(entries)).toMatchObject({ ok: true, value: { added: [] } });
      const read = await store.read(0, 100);
      expect(read.ok && read.value.map(({ entry }) => entry)).toEqual(entries);
      expect(await ledgers.herds()).toMatchObject({ ok: true, value: [{ id: "odd\u0000", entries: names.length }] });
    });

    test("[HU-6] to ask for what comes after a place beyond all places is to ask for nothing", async () => {
      const { store } = (await openNew()).of(herd);
      await store.append([note("one")]);
      for (const after of [1, 2 ** 31 - 1, 2 ** 31, 2 ** 53 - 1])
        expect(await store.read(after, 10)).toEqual({ ok: true, value: [] });
    });

    test("[HU-6] a copy keeps its name when opened again, and another database has another", async () => {
      const place = await newPlace();
      const name = await (await openAt(place)).of(herd).copyFor(0);
      expect(name).toMatchObject({ ok: true });
      expect(await (await openAt(place)).of(herd).copyFor(0)).toEqual(name);
      expect(await (await openNew()).of(herd).copyFor(0)).not.toEqual(name);
    });

    test("[HU-12] a copy that is behind what somebody has had from it takes a new name, once", async () => {
      const ledgers = await openNew();
      await ledgers.of(herd).store.append([note("one"), note("two")]);
      const name = await ledgers.of(herd).copyFor(0);
      expect(await ledgers.of(herd).copyFor(2)).toEqual(name);
      const renamed = await ledgers.of(herd).copyFor(3);
      expect(renamed).toMatchObject({ ok: true });
      expect(renamed).not.toEqual(name);
      expect(await ledgers.of(herd).copyFor(2)).toEqual(renamed);
    });

    test("[HU-91] who brought an entry first is kept, whoever brings it again", async () => {
      const ledgers = await openNew();
      const [one, two, three] = [note("one"), note("two"), note("three")];
      await ledgers.of(herd, "milo").store.append([one]);
      await ledgers.of(herd).store.append([two]);
      await ledgers.of(herd, "ines").store.append([one, two, three]);
      const ids = [one.id, two.id, three.id, "none"];
      const want = new Map([
        [one.id as string, "milo"],
        [two.id, undefined],
        [three.id, "ines"],
      ]);
      expect(await ledgers.bringers(herd, ids)).toEqual({ ok: true, value: want });
      expect(await ledgers.bringers("elm" as HerdId, ids)).toEqual({ ok: true, value: new Map() });
    });

    test("[HU-90] a place has the notch of the writing that filled it; told of another, the copy takes a new name, once", async () => {
      const ledgers = await openNew();
      const { store, copyFor } = ledgers.of(herd);
      const [one, two, three] = [note("one"), note("two"), note("three")];
      const first = await store.append([one, two]);
      const second = await store.append([three, one]);
      const seen = present(first.ok ? first.value.furthest : undefined, "a landmark");
      expect(second).toMatchObject({ ok: true, value: { furthest: { place: 3 } } });
      expect(await store.append([two])).toMatchObject({ ok: true, value: { added: [], furthest: seen } });
      const name = await copyFor(0);
      const copy = name.ok ? name.value : "";
      expect(await copyFor(2, { copy, seen })).toEqual(name);
      expect(await copyFor(2, { copy: "another copy", seen: { place: 2, notch: "of another" } })).toEqual(name);
      const renamed = await copyFor(2, { copy, seen: { ...seen, notch: "of another" } });
      expect(renamed).toMatchObject({ ok: true });
      expect(renamed).not.toEqual(name);
      expect(await copyFor(2, { copy, seen: { place: 9, notch: seen.notch } })).toEqual(renamed);
    });

    test("[HU-12] asked by several at once, a copy without a name takes one, and all are told the same", async () => {
      const place = await newPlace();
      const first = await openAt(place);
      // Two connections of one program would wait for each other in the embedded file; a hub has one.
      const hubs = engine === "libsql" ? [first, first] : [first, await openAt(place), await openAt(place)];
      const told = await Promise.all(hubs.map((ledgers) => ledgers.of(herd).copyFor(0)));
      expect(new Set(told.map((name) => name.ok && name.value)).size).toBe(1);
    });

    test("[HU-8] a ledger that is gone is an answer, not a crash", async () => {
      const ledgers = await openNew();
      await ledgers.close();
      const gone = { ok: false, error: { code: "unavailable" } };
      expect(await ledgers.of(herd).store.append([note("late")])).toMatchObject(gone);
      expect(await ledgers.of(herd).store.read(0, 1)).toMatchObject(gone);
      expect(await ledgers.herds()).toMatchObject(gone);
    });
  });

  describe("laws", () => {
    const ids = fc.constantFrom("a", "b", "c", "d", "e", "f", "g", "h");
    const anAct = fc.record({ herd: fc.nat(1), push: fc.array(ids, { maxLength: 6 }), read: fc.nat(8) });
    let runs = 0;

    test("[HU-6] whatever is pushed and read in whatever order, it is as a list for each herd would be", async () => {
      const ledgers = await openNew();
      await fc.assert(
        fc.asyncProperty(fc.array(anAct, { maxLength: 12 }), async (acts) => {
          runs++;
          const twins = [0, 1].map((n) => ({
            kept: ledgers.of(`herd-${runs}-${n}` as HerdId).store,
            list: memoryStore(),
          }));
          for (const { herd: at, push, read } of acts) {
            const { kept, list } = present(twins[at], "a herd");
            const entries = push.map((id) => ({
              ...note("x"),
              id: id as ReturnType<typeof note>["id"],
              by: `${runs}`,
            }));
            expect(await kept.append(entries)).toMatchObject(await list.append(entries));
            const entriesOf = async (store: EntryStore) => {
              const page = await store.read(0, read + 1);
              return page.ok ? page.value.map(({ entry }) => entry) : page.error;
            };
            expect(await entriesOf(kept)).toEqual(await entriesOf(list));
          }
          for (const { kept } of twins) {
            const page = await kept.read(0, 100);
            expect(page.ok && page.value.map(({ seq }) => seq)).toEqual(page.ok && page.value.map((_, n) => n + 1));
          }
        }),
        { numRuns: 40 },
      );
    });
  });
});
