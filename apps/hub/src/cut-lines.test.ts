import { createHash } from "node:crypto";
import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Socket } from "node:net";
import { createAdaptorServer } from "@hono/node-server";
import { err, ok, type Result } from "@pollard/base";
import {
  exchangeOnce,
  type ExchangePeer,
  exchangePhotos,
  type HerdId,
  NO_MARKS,
  type PeerFailure,
  type PhotoPeer,
  type PhotoShelf,
} from "@pollard/records";
import { anEntry, memoryStore } from "@pollard/records/testing";
import { afterAll, expect, test } from "vitest";
import { createHub } from "./hub.ts";
import { photosIn } from "./photos/photos.ts";
import { ledgersIn } from "./store/ledger-store.ts";
import { onEachEngine } from "./testing/engines.ts";

const herd = "herd" as HerdId;
const nameOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

type Way = "up" | "down";

/** A stretch of wire between a device and a hub that breaks after so many bytes one way, as often as it is told. */
async function wireTo(port: number) {
  let cut: { readonly way: Way; readonly after: number } | undefined;
  let cuts = 0;
  const carried = { up: 0, down: 0 };
  const server = createServer((near) => {
    const far = connect(port, "127.0.0.1");
    const breakOff = () => {
      near.destroy();
      far.destroy();
    };
    const carry = (from: Socket, to: Socket, way: Way) =>
      from.on("data", (piece: Buffer) => {
        const left = cut?.way === way ? cut.after - carried[way] : Number.POSITIVE_INFINITY;
        carried[way] += piece.length;
        if (piece.length <= left) return void to.write(piece);
        cuts += 1;
        cut = undefined;
        // What came before the break still arrives.
        to.write(piece.subarray(0, Math.max(0, left)), breakOff);
      });
    carry(near, far, "up");
    carry(far, near, "down");
    for (const end of [near, far]) end.on("error", breakOff).on("close", breakOff);
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}`,
    cutAfter: (way: Way, after: number) => {
      [carried.up, carried.down] = [0, 0];
      cut = { way, after };
    },
    carried: (way: Way) => carried[way],
    cuts: () => cuts,
    close: () => server.close(),
  };
}

/** A device's side of the wire: every request on a connection of its own, as on a bad signal. */
function deviceOn(address: string) {
  const ask = async (path: string, init: RequestInit = {}): Promise<Result<Response, PeerFailure>> => {
    try {
      const headers = {
        connection: "close",
        ...(init.body === undefined ? {} : { "content-type": "application/json" }),
      };
      const response = await fetch(`${address}/api/herds/${herd}/${path}`, { ...init, headers });
      const whole = new Response(await response.arrayBuffer(), response);
      return response.ok ? ok(whole) : err({ code: "peer-refused", status: response.status, reason: "" });
    } catch (cause) {
      return err({ code: "unreachable", cause });
    }
  };
  const json = async (path: string, init?: RequestInit): Promise<Result<unknown, PeerFailure>> => {
    const answer = await ask(path, init);
    return answer.ok ? ok(await answer.value.json()) : answer;
  };
  const peer: ExchangePeer = {
    push: (request) => json("entries", { method: "POST", body: JSON.stringify(request) }),
    pull: (after, limit) => json(`entries?after=${after}&limit=${limit}`),
  };
  const photos: PhotoPeer = {
    lacking: (names) => json("photos", { method: "POST", body: JSON.stringify({ photos: names }) }),
    give: (name, bytes) => json(`photos/${name}`, { method: "PUT", body: Uint8Array.from(bytes) }),
    async ask(name) {
      const answer = await ask(`photos/${name}`);
      return answer.ok ? ok(new Uint8Array(await answer.value.arrayBuffer())) : answer;
    },
  };
  return { peer, photos };
}

function shelf(): PhotoShelf & { readonly held: Map<string, Uint8Array> } {
  const held = new Map<string, Uint8Array>();
  return {
    held,
    lacking: (names) => Promise.resolve(ok(names.filter((name) => !held.has(name)))),
    find: (name) => Promise.resolve(ok(held.get(name))),
    keep: (name, bytes) => Promise.resolve(ok(held.set(name, bytes))),
  };
}

onEachEngine("cut lines", ({ newPlace }) => {
  const closing: (() => void)[] = [];
  afterAll(() => {
    for (const close of closing) close();
  });
  const openNew = async () => {
    const database = await (await newPlace()).open();
    const ledgers = ledgersIn(database);
    const kept = photosIn(database);
    const hub = createHub({ ledgers, photos: kept, webRoot: "/nowhere", log: () => undefined });
    const server = createAdaptorServer({ fetch: (request) => hub(request), overrideGlobalObjects: false });
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    const wire = await wireTo((server.address() as AddressInfo).port);
    closing.push(wire.close, () => server.close());
    return { ledger: ledgers.of(herd).store, kept, wire, ...deviceOn(wire.address) };
  };

  test("[HU-66] cut at 10, 50 and 90 of 100 bytes either way, an exchange goes on from there and ends whole", async () => {
    const entries = Array.from({ length: 400 }, (_, n) =>
      anEntry("note", { text: `${n} ${"x".repeat(300)}` }, { herd }),
    );
    let cuts = 0;
    for (const way of ["up", "down"] as const)
      for (const share of [0.1, 0.5, 0.9]) {
        const { ledger, wire, peer } = await openNew();
        const [ours, theirs] = [entries.slice(0, 200), entries.slice(200)];
        const store = memoryStore();
        await store.append(ours);
        await ledger.append(theirs);
        wire.cutAfter(way, Number.POSITIVE_INFINITY);
        await peer.pull(0, 1000); // an answer comes packed: its length is seen on the wire
        const length = way === "up" ? JSON.stringify(ours).length : wire.carried("down");
        wire.cutAfter(way, Math.round(length * share));
        const broken = await exchangeOnce({ herd, store, peer }, NO_MARKS);
        expect(broken.failure?.code).toBe("unreachable");
        // Whatever arrived is whole: no entry is half there, and no mark is past what is.
        const between = await ledger.read(0, 1000);
        expect([200, 400]).toContain(between.ok && between.value.length);
        const whole = await exchangeOnce({ herd, store, peer }, broken.marks);
        expect(whole.failure).toBeUndefined();
        for (const each of [store, ledger]) {
          const all = await each.read(0, 1000);
          const ids = all.ok ? all.value.map(({ entry }) => entry.id) : [];
          expect(ids.sort()).toEqual(entries.map(({ id }) => id).sort());
        }
        cuts += wire.cuts();
      }
    expect(cuts).toBe(6);
  });

  test("[HU-66] a picture that was cut off is not there, and the next time it is whole", async () => {
    const picture = Uint8Array.from({ length: 200_000 }, (_, n) => [0xff, 0xd8, 0xff][n] ?? (n * 31) % 251);
    const name = nameOf(picture);
    const digest = (bytes: Uint8Array) => Promise.resolve(nameOf(bytes));
    for (const way of ["up", "down"] as const)
      for (const share of [0.1, 0.5, 0.9]) {
        const { kept, wire, photos } = await openNew();
        const device = shelf();
        if (way === "up") device.held.set(name, picture);
        else await kept.keep(herd, name, picture);
        const sides = { shelf: device, peer: photos, digest };
        wire.cutAfter(way, Math.round(picture.length * share));
        const broken = await exchangePhotos(sides, [name]);
        expect([broken.failure?.code, broken.given + broken.received]).toEqual(["unreachable", 0]);
        if (way === "up") expect(await kept.lacking(herd, [name])).toEqual(ok([name]));
        else expect(device.held.size).toBe(0);
        expect(await exchangePhotos(sides, [name])).toMatchObject({ refused: [], failure: undefined });
        const there = await kept.find(herd, name);
        // By their digests: to compare so many bytes one by one takes seconds.
        const both = [device.held.get(name), there.ok ? there.value : undefined];
        expect(both.map((bytes) => bytes && nameOf(bytes))).toEqual([name, name]);
        expect(wire.cuts()).toBe(1);
      }
  });
});
