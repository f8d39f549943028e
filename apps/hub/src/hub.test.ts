import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { err, ok, present } from "@pollard/base";
import { BATCH_LIMIT, type EntryStore, type HerdId, type PullReply, type PushReply } from "@pollard/records";
import { anEntry, memoryStore } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createHub } from "./hub.ts";
import { LARGEST_BODY } from "./json-body.ts";
import type { Ledgers } from "./store/ledgers.ts";

/** Ledgers in memory: the smallest real ones. */
function memoryLedgers(broken?: EntryStore): Ledgers {
  const stores = new Map<HerdId, EntryStore>();
  const of = (herd: HerdId) => {
    const store = broken ?? stores.get(herd) ?? memoryStore();
    stores.set(herd, store);
    return { herd, store, copyFor: () => Promise.resolve(ok("copy-1")) };
  };
  const herds = async () => {
    const kept = [];
    for (const [id, store] of stores) {
      const all = await store.read(0, 1_000_000);
      kept.push({ id, entries: all.ok ? all.value.length : 0 });
    }
    return ok(kept);
  };
  return { of, herds, bringers: () => Promise.resolve(ok(new Map())) };
}

function aHub(broken?: EntryStore) {
  const log: string[] = [];
  const hub = createHub({ ledgers: memoryLedgers(broken), webRoot: "/nowhere", log: (text) => void log.push(text) });
  const send = (
    method: string,
    path: string,
    over: { headers?: Record<string, string>; body?: string | Uint8Array<ArrayBuffer> } = {},
  ) => hub(new Request(`http://localhost:4180${path}`, { method, ...over }));
  const post = (path: string, body: unknown) =>
    send("POST", path, { headers: { "content-type": "application/json" }, body: JSON.stringify(body) });
  const push = async (entries: readonly unknown[], herd = "herd") =>
    (await (await post(`/api/herds/${herd}/entries`, { exchange: 1, entries })).json()) as PushReply;
  const pull = async (after: number, limit = BATCH_LIMIT, herd = "herd") =>
    (await (await send("GET", `/api/herds/${herd}/entries?after=${after}&limit=${limit}`)).json()) as PullReply;
  return { send, post, push, pull, log };
}

const note = (text: string, herd = "herd") => anEntry("note", { text }, { herd });
const verdicts = (reply: PushReply) => reply.verdicts.map(({ verdict }) => verdict);

async function expectRefusal(response: Response, status: number, code: string) {
  expect({ status: response.status, ...((await response.json()) as object) }).toMatchObject({ status, code });
}

describe("exchange with the hub", () => {
  test("[HU-5] the good entries of a push are kept, each bad one is refused with its reason", async () => {
    const { push, pull } = aHub();
    const [good, other] = [note("first"), note("second")];
    const bad = { ...note("third"), on: "2026-02-30" };
    const strange = note("fourth", "another-herd");
    const reply = await push([good, bad, "no entry", strange, other]);
    expect(verdicts(reply)).toEqual(["accepted", "refused", "refused", "refused", "accepted"]);
    expect(reply.verdicts[1]).toMatchObject({ reason: { code: "not-a-day", path: "on" } });
    expect(reply.verdicts[3]).toMatchObject({ reason: { code: "other-herd", herd: "another-herd" } });
    expect((await pull(0)).entries).toEqual([good, other]);
  });

  test("[HU-6] the same entries pushed again are known, and nothing is doubled", async () => {
    const { push, pull } = aHub();
    const entries = [note("one"), note("two")];
    expect(verdicts(await push(entries))).toEqual(["accepted", "accepted"]);
    expect(verdicts(await push([...entries, note("three")]))).toEqual(["known", "known", "accepted"]);
    expect((await pull(0)).entries.length).toBe(3);
  });

  test("[HU-6] one id twice in a push is accepted once, as first written", async () => {
    const { push, pull } = aHub();
    const first = note("one");
    expect(verdicts(await push([first, { ...first, by: "Somebody else" }]))).toEqual(["accepted", "known"]);
    expect((await pull(0)).entries).toEqual([first]);
  });

  test("[HU-6] a pull goes on where the last one ended, and says whether more is waiting", async () => {
    const { push, pull } = aHub();
    const entries = Array.from({ length: 5 }, (_, n) => note(`note ${n}`));
    await push(entries);
    const first = await pull(0, 3);
    expect([first.entries.length, first.more]).toEqual([3, "yes"]);
    expect((await pull(0, 5)).more).toBe("no");
    const second = await pull(first.next, 3);
    expect([second.entries.length, second.more]).toEqual([2, "no"]);
    expect([...first.entries, ...second.entries]).toEqual(entries);
    expect(await pull(second.next)).toMatchObject({ entries: [], next: second.next, more: "no", copy: "copy-1" });
  });

  test("[HU-6] long entries are handed out in small answers, and all of them", async () => {
    const { push, pull } = aHub();
    const long = Array.from({ length: 400 }, (_, n) => note(`${n} ${"x".repeat(3900)}`));
    await push(long);
    const given: unknown[] = [];
    let answers = 0;
    for (let after = 0, more = "yes"; more === "yes"; answers++) {
      const page = await pull(after);
      expect(JSON.stringify(page).length).toBeLessThan(1_100_000);
      given.push(...page.entries);
      [after, more] = [page.next, page.more];
    }
    expect(given).toEqual(long);
    expect(answers).toBe(2);
  });

  test("[HU-5] an entry of a later version is kept and handed on as it came", async () => {
    const { push, pull } = aHub();
    const later = { ...note("x"), v: 2, kind: "milk-yield", body: { litres: 2 }, extra: ["山羊"] };
    expect(verdicts(await push([later]))).toEqual(["accepted"]);
    expect((await pull(0)).entries).toEqual([later]);
  });

  test("[HU-108] entries are handed out packed to whoever can unpack them: the same, in a fifth of the bytes", async () => {
    const { push, send } = aHub();
    await push(Array.from({ length: 300 }, (_, n) => note(`doe ${n} is seen, cría número ${n * 7}`)));
    const path = "/api/herds/herd/entries";
    const whole = await (await send("GET", path)).text();
    for (const [accepted, unpack] of [
      ["gzip, deflate", gunzipSync],
      ["gzip, deflate, br, zstd", brotliDecompressSync],
    ] as const) {
      const response = await send("GET", path, { headers: { "accept-encoding": accepted } });
      const bytes = Buffer.from(await response.arrayBuffer());
      expect(unpack(bytes).toString()).toBe(whole);
      expect(response.headers.get("content-length")).toBe(String(bytes.length));
      expect(response.headers.get("vary")).toBe("accept-encoding");
      expect(response.headers.get("cache-control")).toBe("no-store");
      expect(bytes.length).toBeLessThan(Buffer.byteLength(whole) / 5);
    }
    const past = await send("GET", `${path}?after=300`, { headers: { "accept-encoding": "gzip" } });
    expect(past.headers.get("content-encoding")).toBe(null);
  });

  test("[HU-11] herds are listed, and none sees another's entries", async () => {
    const { push, pull, send } = aHub();
    await push([note("a", "oak")], "oak");
    await push([note("b", "elm"), note("c", "elm")], "elm");
    expect(await (await send("GET", "/api/herds")).json()).toEqual({
      herds: [
        { id: "oak", entries: 1 },
        { id: "elm", entries: 2 },
      ],
    });
    expect((await pull(0, 10, "oak")).entries.length).toBe(1);
  });

  // Unicode 15, table 3-7: no well-formed letter begins with 80 or C0, goes on after F5, or ends in the middle.
  test.each(
    [[0x80], [0xc0, 0xaf], [0xed, 0xa0, 0x80], [0xf5, 0x80, 0x80, 0x80], [0xe2, 0x82]].map((bytes) => ({ bytes })),
  )(
    "[HU-109] published: a body with the bytes $bytes is refused whole, and no letter of it is mended",
    async ({ bytes }) => {
      const { send, pull } = aHub();
      const [before = "", after = ""] = JSON.stringify({ exchange: 1, entries: [note("@")] }).split("@");
      const post = (letters: readonly number[]) => {
        const body = Buffer.concat([Buffer.from(before), Buffer.from(letters), Buffer.from(after)]);
        return send("POST", "/api/herds/herd/entries", { headers: { "content-type": "application/json" }, body });
      };
      await expectRefusal(await post(bytes), 400, "not-json");
      expect((await pull(0)).entries).toEqual([]);
      expect((await post([...Buffer.from("cría 山羊")])).status).toBe(200);
      expect(JSON.stringify(await pull(0))).toContain("cría 山羊");
    },
  );

  test("[HU-7] what is no push, or too much, is refused whole", async () => {
    const { post, send } = aHub();
    const path = "/api/herds/herd/entries";
    for (const body of [null, 3, "x", [], {}, { exchange: 1 }, { exchange: "1", entries: [] }])
      await expectRefusal(await post(path, body), 400, "not-a-push");
    await expectRefusal(await post(path, { exchange: 99, entries: [] }), 409, "later-exchange");
    const many = Array.from({ length: BATCH_LIMIT + 1 }, () => 0);
    await expectRefusal(await post(path, { exchange: 1, entries: many }), 413, "too-many");
    for (const query of ["after=-1", "after=x", "after=1e3", "limit=0", "after=99999999999999999999"])
      await expectRefusal(await send("GET", `${path}?${query}`), 400, "not-a-place");
    for (const herd of ["x".repeat(81), "%E0%A4%A"])
      await expectRefusal(await send("GET", `/api/herds/${herd}/entries`), 400, "not-a-herd");
  });

  test("[HU-8] a full disk and a lost ledger are said, with the entries not counted as kept", async () => {
    const failing = (error: { code: "full" } | { code: "unavailable"; cause: unknown }): EntryStore => ({
      append: () => Promise.resolve(err(error)),
      read: () => Promise.resolve(err(error)),
    });
    const full = aHub(failing({ code: "full" }));
    await expectRefusal(await full.post("/api/herds/herd/entries", { exchange: 1, entries: [] }), 507, "full");
    const lost = aHub(failing({ code: "unavailable", cause: new Error("disk gone") }));
    const response = await lost.send("GET", "/api/herds/herd/entries");
    expect(await response.clone().text()).not.toContain("disk gone");
    await expectRefusal(response, 503, "unavailable");
    expect(lost.log.join()).toContain("disk gone");
  });

  test("[HU-8] what the program itself got wrong is logged, and the answer shows nothing of it", async () => {
    const wrong: EntryStore = {
      append: () => Promise.reject(new Error("secret detail")),
      read: () => Promise.reject(new Error("secret detail")),
    };
    const { send, log } = aHub(wrong);
    const response = await send("GET", "/api/herds/herd/entries");
    expect(await response.clone().text()).not.toContain("secret");
    await expectRefusal(response, 500, "broken");
    expect(log.join()).toContain("secret detail");
  });
});

describe("what the hub refuses", () => {
  const path = "/api/herds/herd/entries";
  const json = { "content-type": "application/json" };

  test("[HU-7] a body of another type, too large, too deep or broken", async () => {
    const { send } = aHub();
    const refused = async (headers: Record<string, string>, body: string, status: number, code: string) =>
      expectRefusal(await send("POST", path, { headers, body }), status, code);
    await refused({ "content-type": "text/plain" }, "{}", 415, "wrong-content-type");
    await refused({}, "{}", 415, "wrong-content-type");
    await refused({ "content-type": "application/jsonp" }, "{}", 415, "wrong-content-type");
    await refused(json, " ".repeat(LARGEST_BODY + 1), 413, "too-large");
    await refused({ ...json, "content-length": String(LARGEST_BODY + 1) }, "{}", 413, "too-large");
    await refused(json, "[".repeat(100_000), 400, "too-deep");
    await refused(json, '{"exchange": 1, ', 400, "not-json");
    await refused(json, "", 400, "not-json");
  });

  test("[HU-7] brackets inside a text are no depth", async () => {
    const { push } = aHub();
    expect(verdicts(await push([note(`he said "${"[{".repeat(100)}\\"`)]))).toEqual(["accepted"]);
  });

  test("[HU-7] another method, with those that are allowed", async () => {
    const { send } = aHub();
    for (const [method, at, allow] of [
      ["DELETE", path, "GET, HEAD, POST"],
      ["PUT", "/api/herds", "GET, HEAD"],
      ["POST", "/", "GET, HEAD"],
      ["OPTIONS", path, "GET, HEAD, POST"],
    ] as const) {
      const response = await send(method, at);
      expect(response.headers.get("allow")).toBe(allow);
      await expectRefusal(response, 405, "wrong-method");
    }
  });

  test("[HU-7] an address of the interface that there is not", async () => {
    const { send } = aHub();
    for (const at of ["/api", "/api/", "/api/goats", "/api/herds/", "/api/herds/a/b/entries"])
      await expectRefusal(await send("GET", at), 404, "no-such-page");
  });

  test("[HU-7] HEAD is GET without the body", async () => {
    const { send } = aHub();
    const head = await send("HEAD", "/api/health");
    expect([head.status, await head.text()]).toEqual([200, ""]);
    expect(await (await send("GET", "/api/health")).json()).toEqual({ hub: "pollard", exchange: 1 });
  });

  test("[HU-4] a name that somebody pointed at this computer", async () => {
    const hub = createHub({ ledgers: memoryLedgers(), webRoot: "/nowhere", log: () => undefined });
    for (const host of ["goats.example", "localhost.example", "127.0.0.1.example", "192.168.1.7:4180", "[fe80::1]"])
      await expectRefusal(await hub(new Request(`http://${host}/api/health`)), 421, "not-local");
    for (const host of ["localhost", "localhost:4180", "127.0.0.1:4180", "[::1]:4180"])
      expect((await hub(new Request(`http://${host}/api/health`))).status).toBe(200);
    const claimed = new Request("http://localhost:4180/api/health", { headers: { host: "goats.example" } });
    await expectRefusal(await hub(claimed), 421, "not-local");
  });

  test("[HU-4] a page of another site, or of another port", async () => {
    const { send } = aHub();
    const body = JSON.stringify({ exchange: 1, entries: [] });
    const posted = (headers: Record<string, string>) => send("POST", path, { headers: { ...json, ...headers }, body });
    for (const origin of ["https://goats.example", "http://localhost:4181", "http://127.0.0.1:4180", "null"])
      await expectRefusal(await posted({ origin }), 403, "other-origin");
    expect((await posted({ origin: "http://localhost:4180" })).status).toBe(200);
    for (const site of ["cross-site", "same-site"])
      await expectRefusal(await send("GET", path, { headers: { "sec-fetch-site": site } }), 403, "other-origin");
    const link = { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate" };
    expect((await send("GET", "/api/health", { headers: link })).status).toBe(200);
    await expectRefusal(await posted(link), 403, "other-origin");
  });

  test("[HU-3] every response, refusals too, forbids what is not the app's own", async () => {
    const { send } = aHub();
    for (const response of [await send("GET", "/api/health"), await send("GET", "/x.js"), await send("PUT", path)]) {
      const policy = present(response.headers.get("content-security-policy") ?? undefined, "policy");
      expect(policy).toContain("default-src 'self'");
      expect(policy.replace("'wasm-unsafe-eval'", "")).not.toMatch(/unsafe|https?:|\*/);
      expect(response.headers.get("x-content-type-options")).toBe("nosniff");
      expect(response.headers.get("referrer-policy")).toBe("no-referrer");
      expect(response.headers.has("access-control-allow-origin")).toBe(false);
    }
  });
});

describe("laws", () => {
  test("[HU-5] whatever is pushed, there is one verdict for each, and what is safe there can be pulled", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.oneof(
            fc.jsonValue(),
            fc.constantFrom("a", "b", "c").map((t) => ({ ...note(t), id: t })),
          ),
        ),
        async (entries) => {
          const { push, pull } = aHub();
          const reply = await push(entries);
          expect(reply.verdicts.length).toBe(entries.length);
          const accepted = entries.filter((_, n) => reply.verdicts[n]?.verdict === "accepted");
          expect((await pull(0)).entries).toEqual(JSON.parse(JSON.stringify(accepted)));
        },
      ),
      { numRuns: 50 },
    );
  });
});
