import { err, ok, present, seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Entry } from "../entry/entry.ts";
import { anEntry } from "../entry/entry-builders.ts";
import type { HerdId } from "../entry/ids.ts";
import type { EntryStore, StoredEntry } from "../keeping/entry-store.ts";
import { type CopyName, type ExchangeMarks, type ExchangePeer, NO_MARKS } from "./exchange.ts";
import { exchangeOnce } from "./exchange-once.ts";
import { givePull, type KeptLedger, takePush } from "./kept-ledger.ts";

const herd = "herd" as HerdId;
const note = () => anEntry("note", { text: "rain" });

/** What a hub's disk holds: its line, and the name of the copy. */
interface Disk {
  readonly line: readonly StoredEntry[];
  readonly copy: CopyName;
}

let notches = 0;

/** The smallest hub whose disk can be put back, as it was at any time, without anybody being told. */
function aHub() {
  let disk: Disk = { line: [], copy: `copy ${++notches}` };
  const store: EntryStore = {
    append: async (entries) => {
      const ids = new Set(entries.map(({ id }) => id));
      const here = new Set(disk.line.map(({ entry }) => entry.id));
      const fresh = entries.filter(({ id }, at) => !here.has(id) && entries.findIndex((one) => one.id === id) === at);
      const notch = `notch ${++notches}`;
      const line = [...disk.line, ...fresh.map((entry, at) => ({ seq: disk.line.length + at + 1, entry, notch }))];
      disk = { ...disk, line };
      const last = line.filter(({ entry }) => ids.has(entry.id)).at(-1);
      const furthest = last && { place: last.seq, notch: present(last.notch, "a notch") };
      return ok({ added: fresh.map(({ id }) => id), ...(furthest && { furthest }) });
    },
    read: async (after, limit) => ok(disk.line.slice(after, after + limit)),
  };
  const ledger: KeptLedger = {
    herd,
    store,
    copyFor: async (reached, known) => {
      const isBehind = reached > disk.line.length;
      const isOther = known?.copy === disk.copy && disk.line[known.seen.place - 1]?.notch !== known.seen.notch;
      if (isBehind || isOther) disk = { ...disk, copy: `copy ${++notches}` };
      return ok(disk.copy);
    },
  };
  const wired = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
  const refused = err({ code: "peer-refused", status: 503, reason: "unavailable" } as const);
  const peer: ExchangePeer = {
    push: async (request) => {
      const answer = await takePush(ledger, wired(request));
      return answer.ok ? ok(wired(answer.value)) : refused;
    },
    pull: async (after, limit, known) => {
      const answer = await givePull(ledger, after, limit, known);
      return answer.ok ? ok(wired(answer.value)) : refused;
    },
  };
  return { peer, saved: () => disk, putBack: (old: Disk) => void (disk = old), ids: () => idsOf(disk.line) };
}

/** A device that keeps what it has in the order of arrival, and can be put back as well. */
function aDevice() {
  let kept: { readonly line: readonly StoredEntry[]; readonly marks: ReadonlyMap<number, ExchangeMarks> } = {
    line: [],
    marks: new Map(),
  };
  const store: EntryStore = {
    append: async (entries) => {
      const here = new Set(kept.line.map(({ entry }) => entry.id));
      const fresh = entries.filter(({ id }, at) => !here.has(id) && entries.findIndex((one) => one.id === id) === at);
      kept = {
        ...kept,
        line: [...kept.line, ...fresh.map((entry, at) => ({ seq: kept.line.length + at + 1, entry }))],
      };
      return ok({ added: fresh.map(({ id }) => id) });
    },
    read: async (after, limit) => ok(kept.line.slice(after, after + limit)),
  };
  return {
    write: (entry: Entry) => store.append([entry]),
    async meet(hub: number, peer: ExchangePeer) {
      const report = await exchangeOnce({ herd, store, peer }, kept.marks.get(hub) ?? NO_MARKS);
      kept = { ...kept, marks: new Map(kept.marks).set(hub, report.marks) };
      return report;
    },
    saved: () => kept,
    putBack: (old: typeof kept) => void (kept = old),
    ids: () => idsOf(kept.line),
  };
}

const idsOf = (line: readonly StoredEntry[]): readonly string[] => line.map(({ entry }) => entry.id).sort();

/** An exchange of the first versions: it tells nothing of what was seen, whichever side it is on. */
const ofFirstVersion = (peer: ExchangePeer): ExchangePeer => ({
  push: async ({ exchange, entries }) => withoutSeen(await peer.push({ exchange, entries })),
  pull: async (after, limit) => withoutSeen(await peer.pull(after, limit)),
});
function withoutSeen(answer: Awaited<ReturnType<ExchangePeer["pull"]>>) {
  if (!answer.ok) return answer;
  const { seen: _, ...rest } = answer.value as { readonly seen?: unknown };
  return ok(rest);
}

/** Answers that are lost on the way back, and requests that never arrive. */
function shaky(peer: ExchangePeer, seed: number): ExchangePeer {
  const random = seededRandom(seed);
  const lost = () => err({ code: "unreachable", cause: "no signal" } as const);
  const over = async (ask: () => ReturnType<ExchangePeer["pull"]>) => {
    if (random.next() < 0.15) return lost();
    const answer = await ask();
    return random.next() < 0.2 ? lost() : answer;
  };
  return {
    push: (request) => over(() => peer.push(request)),
    pull: (after, limit, known) => over(() => peer.pull(after, Math.min(limit, 3), known)),
  };
}

describe("a hub that was put back", () => {
  test("[SY-40] others have filled the gap already: a device that is no further than they notices all the same", async () => {
    const [hub, ines, tobias] = [aHub(), aDevice(), aDevice()];
    await ines.write(note());
    await ines.meet(0, hub.peer);
    await tobias.meet(0, hub.peer);
    const old = hub.saved();
    await tobias.write(note());
    await tobias.meet(0, hub.peer);
    await tobias.meet(0, hub.peer);
    hub.putBack(old);
    await ines.write(note());
    await ines.write(note());
    await ines.meet(0, hub.peer);
    await tobias.meet(0, hub.peer);
    await ines.meet(0, hub.peer);
    expect(hub.ids()).toHaveLength(4);
    for (const device of [ines, tobias]) expect(device.ids()).toEqual(hub.ids());
  });

  test("[SY-40] the same entry at the same place is no proof that what was before it is the same", async () => {
    const [hub, ines, tobias] = [aHub(), aDevice(), aDevice()];
    const old = hub.saved();
    const shared = note();
    await tobias.write(note());
    await tobias.write(shared);
    await tobias.meet(0, hub.peer);
    await tobias.meet(0, hub.peer);
    hub.putBack(old);
    await ines.write(note());
    await ines.write(shared);
    await ines.meet(0, hub.peer);
    await tobias.meet(0, hub.peer);
    await ines.meet(0, hub.peer);
    expect(tobias.ids()).toHaveLength(3);
    for (const each of [hub, ines]) expect(each.ids()).toEqual(tobias.ids());
  });

  test("[SY-40] what a device handed over and has not had back is handed over again", async () => {
    const [hub, ines] = [aHub(), aDevice()];
    await ines.write(note());
    await ines.meet(0, hub.peer);
    const old = hub.saved();
    await ines.write(note());
    await ines.meet(0, hub.peer);
    hub.putBack(old);
    await ines.meet(0, hub.peer);
    expect(hub.ids()).toEqual(ines.ids());
  });

  test("[SY-41] a device of the first versions and a hub of the first versions go on as they did", async () => {
    const [hub, old, ines] = [aHub(), aDevice(), aDevice()];
    const first = ofFirstVersion(hub.peer);
    await old.write(note());
    expect(await old.meet(0, first)).toMatchObject({ failure: undefined, confirmed: 1 });
    await ines.write(note());
    // The hub is brought up to date under a device that is, and back: what was seen is kept.
    for (const peer of [first, hub.peer, first, hub.peer])
      expect(await ines.meet(0, peer)).toMatchObject({ failure: undefined });
    await old.meet(0, first);
    expect([old.ids(), ines.ids()]).toEqual([hub.ids(), hub.ids()]);
    const before = hub.saved();
    await ines.write(note());
    await ines.meet(0, hub.peer);
    hub.putBack(before);
    await old.write(note());
    await old.meet(0, first);
    // One device that notices is enough: by the new name of the copy the old one starts anew as well.
    await ines.meet(0, hub.peer);
    for (const [device, peer] of [
      [old, first],
      [ines, hub.peer],
    ] as const)
      await device.meet(0, peer);
    expect(hub.ids()).toHaveLength(4);
    expect([old.ids(), ines.ids()]).toEqual([hub.ids(), hub.ids()]);
  });

  test("[SY-41] what is told of the copy in a way that is not ours is as if nothing were told", async () => {
    const [hub, ines] = [aHub(), aDevice()];
    await ines.write(note());
    const strange: ExchangePeer = {
      push: async (request) => {
        const answer = await hub.peer.push({ ...request, known: { copy: 7, seen: "there" } as never });
        return answer.ok ? ok({ ...(answer.value as object), seen: { place: -1 }, newer: ["field"] }) : answer;
      },
      pull: async (after, limit) => {
        const answer = await hub.peer.pull(after, limit);
        return answer.ok ? ok({ ...(answer.value as object), seen: ["later"], newer: { field: 1 } }) : answer;
      },
    };
    expect(await ines.meet(0, strange)).toMatchObject({ failure: undefined, confirmed: 1, marks: { seen: undefined } });
    expect(hub.ids()).toEqual(ines.ids());
  });

  describe("laws", () => {
    const acts = fc.array(
      fc.record({
        what: fc.constantFrom("write", "meet", "meet", "meet", "save", "put-hub-back", "put-device-back"),
        device: fc.nat(3),
        hub: fc.nat(1),
        seed: fc.nat(1_000_000),
      }),
      { minLength: 40, maxLength: 90 },
    );
    let putBack = 0;
    let noticed = 0;

    test("[SY-40] devices and hubs put back to any time in any order: all end with all that anybody still holds", {
      timeout: 60_000,
    }, async () => {
      await fc.assert(
        fc.asyncProperty(acts, async (story) => {
          const hubs = [aHub(), aHub()];
          const devices = [aDevice(), aDevice(), aDevice(), aDevice()];
          const disks = hubs.map((hub) => [hub.saved()]);
          const pockets = devices.map((device) => [device.saved()]);
          for (const { what, device: d, hub: h, seed } of story) {
            const [hub, device] = [present(hubs[h], "a hub"), present(devices[d], "a device")];
            const [ofHub, ofDevice] = [present(disks[h], "disks"), present(pockets[d], "pockets")];
            if (what === "write") await device.write(note());
            else if (what === "meet") {
              const { copy } = hub.saved();
              await device.meet(h, shaky(hub.peer, seed));
              if (hub.saved().copy !== copy) noticed += 1;
            } else if (what === "save") {
              ofHub.push(hub.saved());
              ofDevice.push(device.saved());
            } else {
              putBack += 1;
              if (what === "put-hub-back") hub.putBack(present(ofHub[seed % ofHub.length], "a disk"));
              else device.putBack(present(ofDevice[seed % ofDevice.length], "a pocket"));
            }
          }
          const held = new Set([...hubs, ...devices].flatMap((each) => each.ids()));
          for (let round = 0; round < 3; round++)
            for (const device of devices) for (const [h, hub] of hubs.entries()) await device.meet(h, hub.peer);
          for (const each of [...hubs, ...devices]) expect(each.ids()).toEqual([...held].sort());
        }),
        { numRuns: 150 },
      );
      expect(putBack).toBeGreaterThan(300);
      expect(noticed).toBeGreaterThan(50);
    });
  });
});
