import { day, err, ok, present, seededRandom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Entry, entryJson, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import { anEntry, aReplacement, aStrike } from "../entry/entry-builders.ts";
import type { EntryStore } from "../keeping/entry-store.ts";
import { fold } from "../fold/ledger.ts";
import type { HerdId } from "../entry/ids.ts";
import { memoryStore } from "../keeping/memory-store.ts";
import { type ExchangePeer, NO_MARKS } from "./exchange.ts";
import { exchangeOnce } from "./exchange-once.ts";
import { storePeer } from "./store-peer.ts";

const herd = "herd" as HerdId;
const TODAY = day("2026-06-01");
const hazel = animalId("hazel");
const aWeight = (kg: number) => anEntry("weight", { animal: hazel, kg, how: "weighed" });
const tooNewEntry: TooNewEntry = (() => {
  const written = { ...aWeight(1), kind: "milk-yield", body: { litres: 2 } };
  return { id: written.id, tooNew: written };
})();

async function all(store: EntryStore): Promise<readonly (Entry | TooNewEntry)[]> {
  const read = await store.read(0, 1_000_000);
  return read.ok ? read.value.map(({ entry }) => entry) : [];
}

async function storeWith(...entries: readonly (Entry | TooNewEntry)[]): Promise<EntryStore> {
  const store = memoryStore();
  await store.append(entries);
  return store;
}

const idsOf = (entries: readonly (Entry | TooNewEntry)[]) => entries.map(({ id }) => id).sort();

describe("exchangeOnce", () => {
  test("[SY-1] each side gets what it lacked", async () => {
    const [ours, theirs] = [aWeight(1), aWeight(2)];
    const [store, hub] = [await storeWith(ours), await storeWith(theirs)];
    const report = await exchangeOnce({ herd, store, peer: storePeer(herd, hub, "copy-a") }, NO_MARKS);
    expect(report).toMatchObject({ received: [theirs], confirmed: 1, refused: [], failure: undefined });
    expect(report.marks).toEqual({ copy: "copy-a", pulled: 1, pushed: 2 });
    expect(await all(store)).toEqual([ours, theirs]);
    expect(await all(hub)).toEqual([theirs, ours]);
  });

  test("[SY-2] the same exchange again, with or without its marks, changes nothing", async () => {
    const [store, hub] = [await storeWith(aWeight(1)), await storeWith(aWeight(2))];
    const sides = { herd, store, peer: storePeer(herd, hub, "copy-a") };
    const { marks } = await exchangeOnce(sides, NO_MARKS);
    const [before, hubBefore] = [await all(store), await all(hub)];
    for (const from of [marks, NO_MARKS]) {
      expect(await exchangeOnce(sides, from)).toMatchObject({ received: [], refused: [], failure: undefined });
      expect([await all(store), await all(hub)]).toEqual([before, hubBefore]);
    }
  });

  test("[SY-3] many entries go in pieces, long ones in small pieces", async () => {
    const long = Array.from({ length: 120 }, () => anEntry("note", { text: "x".repeat(4000) }));
    const short = Array.from({ length: 1200 }, (_, at) => aWeight(1 + (at % 99)));
    const [store, hub] = [await storeWith(...long, ...short), memoryStore()];
    const peer = storePeer(herd, hub, "copy-a");
    const pushes: number[] = [];
    const watched: ExchangePeer = {
      pull: (after, limit) => peer.pull(after, limit),
      push: (request) => {
        pushes.push(JSON.stringify(request).length);
        return peer.push(request);
      },
    };
    const report = await exchangeOnce({ herd, store, peer: watched }, NO_MARKS);
    expect(report).toMatchObject({ confirmed: 1320, failure: undefined });
    expect(pushes.length).toBeGreaterThan(3);
    expect(Math.max(...pushes)).toBeLessThan(300_000);
    const empty = memoryStore();
    const back = await exchangeOnce({ herd, store: empty, peer }, NO_MARKS);
    expect(back.received).toHaveLength(1320);
    expect(idsOf(await all(empty))).toEqual(idsOf(await all(store)));
  });

  test("[SY-4] a bad entry is refused with its reason and never stops the good ones, in either direction", async () => {
    const stray = anEntry("note", { text: "rain" }, { herd: "elsewhere" });
    const bad = { ...aWeight(1), on: "2026-02-30" } as Entry;
    const [good, fine] = [aWeight(2), aWeight(3)];
    const [store, hub] = [await storeWith(stray, good), await storeWith(bad, fine)];
    const report = await exchangeOnce({ herd, store, peer: storePeer(herd, hub, "copy-a") }, NO_MARKS);
    expect(report.refused).toEqual([
      { entry: bad.id, by: "us", reason: { code: "not-a-day", path: "on", got: "2026-02-30" } },
      { entry: stray.id, by: "peer", reason: { code: "other-herd", herd: "elsewhere" } },
    ]);
    expect(report).toMatchObject({ received: [fine], confirmed: 1, failure: undefined });
    expect(idsOf(await all(hub))).toEqual(idsOf([bad, fine, good]));
  });

  test("[SY-5] a device that cannot read an entry still carries it from one hub to another", async () => {
    const [first, second] = [await storeWith(tooNewEntry), memoryStore()];
    const courier = memoryStore();
    await exchangeOnce({ herd, store: courier, peer: storePeer(herd, first, "copy-a") }, NO_MARKS);
    await exchangeOnce({ herd, store: courier, peer: storePeer(herd, second, "copy-b") }, NO_MARKS);
    expect((await all(second)).map(entryJson)).toEqual([tooNewEntry.tooNew]);
  });

  test("[SY-6] a hub that lost its copy is filled again", async () => {
    const store = await storeWith(aWeight(1), aWeight(2));
    const before = await exchangeOnce({ herd, store, peer: storePeer(herd, memoryStore(), "copy-a") }, NO_MARKS);
    const fresh = await storeWith(aWeight(3));
    const after = await exchangeOnce({ herd, store, peer: storePeer(herd, fresh, "copy-b") }, before.marks);
    expect(after.failure).toBeUndefined();
    expect(idsOf(await all(fresh))).toEqual(idsOf(await all(store)));
    expect(await all(store)).toHaveLength(3);
  });

  test("[SY-2] what was safe before the signal went stays marked, and nothing else is", async () => {
    const entries = Array.from({ length: 1100 }, (_, at) => aWeight(1 + (at % 99)));
    const [store, hub] = [await storeWith(...entries), memoryStore()];
    const peer = storePeer(herd, hub, "copy-a");
    let pushes = 0;
    const leaving: ExchangePeer = {
      pull: (after, limit) => peer.pull(after, limit),
      push: async (request) => {
        pushes += 1;
        return pushes > 1 ? err({ code: "unreachable", cause: "no signal" }) : peer.push(request);
      },
    };
    const report = await exchangeOnce({ herd, store, peer: leaving }, NO_MARKS);
    expect(report.failure).toEqual({ code: "unreachable", cause: "no signal" });
    expect(report.confirmed).toBe(report.marks.pushed);
    expect(await all(hub)).toHaveLength(report.marks.pushed);
  });

  test("[SY-2] a full phone keeps its marks where they were", async () => {
    const store: EntryStore = { ...memoryStore(), append: async () => err({ code: "full" }) };
    const peer = storePeer(herd, await storeWith(aWeight(1)), "copy-a");
    expect(await exchangeOnce({ herd, store, peer }, NO_MARKS)).toMatchObject({
      failure: { code: "store", failure: { code: "full" } },
      marks: { pulled: 0, pushed: 0 },
    });
  });

  test("[SY-7] an answer that is none, leads nowhere, or is of a later exchange is not trusted", async () => {
    const store = await storeWith(aWeight(1));
    const failureFor = async (pull: unknown, push: unknown = {}) => {
      const peer: ExchangePeer = { pull: async () => ok(pull), push: async () => ok(push) };
      const { failure, marks } = await exchangeOnce({ herd, store, peer }, NO_MARKS);
      expect(marks.pushed).toBe(0);
      return failure;
    };
    const page = { exchange: 1, copy: "c", entries: [], next: 0, more: "no" };
    for (const answer of [undefined, null, [], "<html>", {}, { ...page, next: -1 }, { ...page, more: "yes" }])
      expect(await failureFor(answer)).toEqual({ code: "not-understood", where: "pull" });
    expect(await failureFor({ ...page, entries: [entryJson(aWeight(2))], next: 0 })).toMatchObject({ where: "pull" });
    expect(await failureFor({ exchange: 2 })).toEqual({ code: "later-exchange", spoken: 2 });
    expect(await failureFor(page, { exchange: 1, copy: "c", verdicts: [] })).toMatchObject({ where: "push" });
    expect(await failureFor(page, { exchange: 1, copy: "d", verdicts: [{ verdict: "known" }] })).toEqual({
      code: "copy-changed",
    });
  });

  describe("laws", () => {
    const steps = fc.array(
      fc.record({
        what: fc.constantFrom("write", "write", "exchange", "exchange", "forget-marks", "hub-lost"),
        device: fc.nat(2),
        seed: fc.nat(1_000_000),
      }),
      { minLength: 5, maxLength: 40 },
    );
    let exchanges = 0;
    let failures = 0;

    test("[SY-8] phones with bad signal, and one of an older version, end with equal herds", {
      timeout: 60_000,
    }, async () => {
      await fc.assert(
        fc.asyncProperty(steps, async (story) => {
          const written: Entry[] = [anEntry("animal", { animal: hazel, sex: "doe" })];
          const phones = [0, 1, 2].map(() => ({ store: memoryStore(), marks: NO_MARKS }));
          let hub = { store: memoryStore(), copy: "copy-0" };
          await phones[0]?.store.append(written);
          const meet = async (device: number, wrapped: (peer: ExchangePeer) => ExchangePeer) => {
            const phone = present(phones[device], "a phone");
            const direct = storePeer(herd, hub.store, hub.copy);
            const peer = wrapped(device === 2 ? forOldPhone(direct) : direct);
            const report = await exchangeOnce({ herd, store: phone.store, peer }, phone.marks);
            phone.marks = report.marks;
            exchanges += 1;
            failures += report.failure ? 1 : 0;
          };
          for (const [at, { what, device, seed }] of story.entries()) {
            const phone = present(phones[device], "a phone");
            if (what === "write") {
              const entry = writtenBy(device, seed, written);
              written.push(entry);
              await phone.store.append([entry]);
            } else if (what === "exchange") await meet(device, (peer) => shaky(peer, seed));
            else if (what === "forget-marks") phone.marks = NO_MARKS;
            else hub = { store: memoryStore(), copy: `copy-${at + 1}` };
          }
          for (let round = 0; round < 2; round++) for (const device of [0, 1, 2]) await meet(device, (peer) => peer);
          const want = fold(written, TODAY);
          for (const store of [hub.store, phones[0]?.store, phones[1]?.store])
            expect(fold(await all(present(store, "a store")), TODAY)).toEqual(want);
          const old = await all(present(phones[2]?.store, "a store"));
          expect(idsOf(old)).toEqual(idsOf(written));
          expect(old.filter(isTooNew)).toHaveLength(written.filter(laterThanOldPhone).length);
        }),
        { numRuns: 60 },
      );
      expect(exchanges).toBeGreaterThan(500);
      expect(failures).toBeGreaterThan(50);
    });
  });
});

/** What a phone's owner writes: facts, and corrections of anything written anywhere so far. The old phone knows no `trait`. */
function writtenBy(device: number, seed: number, written: readonly Entry[]): Entry {
  const over = { device: `phone-${device}`, by: `Person ${device}` };
  const target = present(written[seed % written.length], "something written");
  const kg = 1 + (seed % 90);
  switch (seed % 4) {
    case 0:
      return device === 2
        ? anEntry("note", { text: `note ${seed}` }, over)
        : anEntry("trait", { animal: hazel, trait: "wattles", value: String(seed) }, over);
    case 1:
      return aStrike(target.id, over);
    case 2:
      return aReplacement(
        target.id,
        { kind: "weight", on: "2026-03-02", body: { animal: hazel, kg, how: "guessed" } },
        [],
        over,
      );
    default:
      return anEntry("weight", { animal: hazel, kg, how: "weighed" }, over);
  }
}

const laterThanOldPhone = (entry: Entry): boolean => entry.kind === "trait";

/** A peer as a phone sees it whose program is older than the kind `trait`: for it that is a kind it has never heard of. */
function forOldPhone(peer: ExchangePeer): ExchangePeer {
  const renamed = (entries: readonly unknown[], from: string, to: string) =>
    (entries as readonly Entry[]).map((entry) => ((entry.kind as string) === from ? { ...entry, kind: to } : entry));
  return {
    push: ({ exchange, entries }) => peer.push({ exchange, entries: renamed(entries, "not-heard-of", "trait") }),
    pull: async (after, limit) => {
      const answer = await peer.pull(after, limit);
      if (!answer.ok) return answer;
      const reply = answer.value as { readonly entries: readonly unknown[] };
      return ok({ ...reply, entries: renamed(reply.entries, "trait", "not-heard-of") });
    },
  };
}

/** A bad line: requests that never arrive, answers that get lost, pages that come short, doubled and in disorder. */
function shaky(peer: ExchangePeer, seed: number): ExchangePeer {
  const random = seededRandom(seed);
  const chance = (p: number) => random.next() < p;
  const lost = () => err({ code: "unreachable", cause: "no signal" } as const);
  return {
    push: async (request) => {
      if (chance(0.2)) return lost();
      const answer = await peer.push(request);
      return chance(0.2) ? lost() : answer;
    },
    pull: async (after, limit) => {
      if (chance(0.15)) return lost();
      const answer = await peer.pull(after, chance(0.5) ? Math.min(2, limit) : limit);
      if (!answer.ok || chance(0.15)) return lost();
      const reply = answer.value as { readonly entries: readonly unknown[] };
      const entries = chance(0.5) ? [...reply.entries, ...reply.entries].reverse() : reply.entries;
      return ok({ ...reply, entries });
    },
  };
}
