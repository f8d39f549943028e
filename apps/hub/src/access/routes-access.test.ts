import { present } from "@pollard/base";
import type { HerdId } from "@pollard/records";
import { anEntry, aReplacement, aStrike } from "@pollard/records/testing";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createHub, ROUTES } from "../hub.ts";
import { type News, newsOf } from "../news.ts";
import { photosIn } from "../photos/photos.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { openDatabase } from "../store/open-database.ts";
import type { HubDatabase } from "../store/hub-database.ts";
import { accessIn, type Role } from "./access.ts";
import type { Peer } from "./caller.ts";
import { papersIn } from "./papers.ts";

const REACH = "https://goats.example";
const folder = mkdtempSync(join(tmpdir(), "pollard-access-"));
let database: HubDatabase;
let hub: ReturnType<typeof createHub>;
let news: News;
const tokens = new Map<string, string>();

beforeAll(async () => {
  database = await openDatabase({ folder, address: undefined });
  const access = accessIn(database, () => new Date());
  const papers = papersIn(database, () => new Date());
  news = newsOf(database);
  hub = createHub({
    ledgers: ledgersIn(database),
    webRoot: folder,
    log: () => undefined,
    access,
    papers,
    photos: photosIn(database),
    news,
    reach: REACH,
  });
  for (const [name, herd, role] of [
    ["keeper", "oak", "keeper"],
    ["helper", "oak", "helper"],
    ["vet", "oak", "vet"],
    ["revoked", "oak", "keeper"],
    ["other herd's keeper", "elm", "keeper"],
    ["other herd's helper", "elm", "helper"],
    ["other herd's vet", "elm", "vet"],
  ] as const) {
    const joined = await letIn(herd, role);
    tokens.set(name, joined.token);
    if (name === "revoked")
      await asked("DELETE", `/api/herds/oak/devices/${joined.device}`, { at: "http://localhost" });
  }
  const ago = papersIn(database, () => new Date(Date.now() - 3 * 86_400_000));
  const paper = { language: "en", title: "Moth", herd: "Oak", asOf: "", blocks: [] };
  for (const [name, from] of [
    ["guest's link", papers],
    ["link that is over", ago],
  ] as const) {
    const made = await from.publish("oak" as HerdId, { kid: "moth", paper, days: 1 });
    tokens.set(name, made.ok ? made.value.token : "");
  }
});
afterAll(async () => {
  news.stop();
  await database.close();
  rmSync(folder, { recursive: true });
});

interface Asking {
  readonly at?: string;
  readonly token?: string | undefined;
  readonly body?: unknown;
  readonly peer?: Peer;
  readonly headers?: Readonly<Record<string, string>>;
}

const asked = (method: string, path: string, { at = REACH, token, body, peer, headers = {} }: Asking = {}) =>
  hub(
    new Request(`${at}${path}`, {
      method,
      headers: {
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...(body === undefined ? {} : { "content-type": "application/json" }),
        ...headers,
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    }),
    peer ?? (at === REACH ? "elsewhere" : "this-computer"),
  );

async function letIn(herd: string, role: Role): Promise<{ readonly token: string; readonly device: string }> {
  const invite = await asked("POST", `/api/herds/${herd}/invites`, { at: "http://localhost", body: { role } });
  const { code } = (await invite.json()) as { readonly code: string };
  const joined = await asked("POST", "/api/join", { body: { code, name: "a phone" } });
  expect(joined.status).toBe(200);
  return (await joined.json()) as { readonly token: string; readonly device: string };
}

/** Every address that has a herd in it, with each of its methods; taken from the hub, so that none is forgotten. */
const HERD_ROUTES = ROUTES.filter(({ path }) => path.includes(":herd")).flatMap(({ path, methods, audience }) =>
  Object.keys(methods).map((method) => ({
    method,
    audience,
    path: path.replace(":herd", "oak").replaceAll(/:\w+/g, "something"),
  })),
);
const STRANGERS = [
  "nobody",
  "revoked",
  "unknown",
  "other herd's keeper",
  "other herd's helper",
  "other herd's vet",
  "guest's link",
  "link that is over",
] as const;

describe("herds never see one another", () => {
  test("[HU-44] there are addresses to be tried, and each says who it is for", () => {
    expect(HERD_ROUTES.length).toBeGreaterThan(4);
    expect(HERD_ROUTES.every(({ audience }) => audience !== "anyone")).toBe(true);
  });

  test("[HU-105] what is open to anyone, or to this computer alone, is this and nothing else", () => {
    const of = (wanted: string) => ROUTES.filter(({ audience }) => audience === wanted).map(({ path }) => path);
    // Health, counts (which ask for their own token), joining, a guest's paper, the app's files.
    expect(of("anyone")).toEqual(["/api/health", "/metrics", "/api/join", "/paper/:token", "/*"]);
    expect(of("house")).toEqual(["/api/herds"]);
    const others = ROUTES.filter(({ audience }) => !["anyone", "house"].includes(audience));
    expect(others.filter(({ path }) => !path.startsWith("/api/herds/:herd/"))).toEqual([]);
  });

  test.each(HERD_ROUTES.flatMap((route) => STRANGERS.map((who) => ({ ...route, who }))))(
    "[HU-44] $method $path: $who is turned away, and not told whether the herd is here",
    async ({ method, path, who }) => {
      const token = who === "nobody" ? undefined : (tokens.get(who) ?? "a-token-that-was-never-given");
      const body = method === "POST" ? { exchange: 1, entries: [], role: "keeper" } : undefined;
      const here = await asked(method, path, { token, body });
      const gone = await asked(method, path.replace("oak", "nowhere"), { token, body });
      expect([401, 403]).toContain(here.status);
      const [text, other] = [await here.text(), await gone.text()];
      expect([here.status, text]).toEqual([gone.status, other]);
      expect(text).not.toMatch(/oak|elm/);
    },
  );

  test.each(HERD_ROUTES)("[HU-44] $method $path: the herd's own keeper is let through", async ({ method, path }) => {
    const body = method === "POST" ? { exchange: 1, entries: [], role: "helper" } : undefined;
    const { status } = await asked(method, path, { token: tokens.get("keeper"), body });
    expect([401, 403]).not.toContain(status);
  });

  test.each(HERD_ROUTES.flatMap((route) => (["keeper", "helper", "vet"] as const).map((role) => ({ ...route, role }))))(
    "[HU-44] $method $path, for $audience: $role is let through only where it is for him",
    async ({ method, path, audience, role }) => {
      const body = method === "POST" ? { exchange: 1, entries: [] } : undefined;
      const { status } = await asked(method, path, { token: tokens.get(role), body });
      const may = { keeper: ["keeper", "member", "visit"], helper: ["member", "visit"], vet: ["visit"] }[role];
      expect(status === 403).toBe(!may.includes(audience));
      expect(status).not.toBe(401);
    },
  );

  test("[HU-44] the list of herds is for this computer alone", async () => {
    for (const token of [undefined, tokens.get("keeper"), tokens.get("vet"), tokens.get("guest's link")])
      expect([401, 403]).toContain((await asked("GET", "/api/herds", { token })).status);
    expect((await asked("GET", "/api/herds", { at: "http://localhost" })).status).toBe(200);
  });
});

describe("what this computer is", () => {
  test.each([
    ["through a proxy on this computer", { at: REACH, peer: "this-computer" }],
    ["with a header that a proxy adds", { at: "http://localhost", headers: { "x-forwarded-for": "10.0.0.9" } }],
    ["from elsewhere under a local name", { at: "http://localhost", peer: "elsewhere" }],
  ] as const)("[HU-45] %s nobody is at home", async (_, asking) => {
    expect((await asked("GET", "/api/herds/oak/devices", asking)).status).toBe(401);
  });

  test("[HU-45] another name than the two it has is no name of the hub's", async () => {
    expect((await asked("GET", "/api/health", { at: "https://goats.example.evil.example" })).status).toBe(421);
    expect((await asked("GET", "/api/health")).status).toBe(200);
  });

  test("[HU-45] the app's own pages may ask under either name, other pages under none", async () => {
    const from = (origin: string) => asked("GET", "/api/health", { headers: { origin } });
    expect((await from(REACH)).status).toBe(200);
    expect((await from("https://elsewhere.example")).status).toBe(403);
  });
});

describe("what a helper may", () => {
  test("[HU-46] records are kept; what strikes or sets is refused by itself, with its reason", async () => {
    const herd = "oak" as HerdId;
    const note = anEntry("note", { text: "limps" }, { herd });
    const setting = anEntry("setting", { key: "herd-name", value: "Mine" }, { herd });
    const strike = aStrike(note.id, { herd });
    const replaced = aReplacement(
      setting.id,
      { kind: "setting", on: setting.on, body: { key: "herd-name", value: "Mine" } },
      [],
      { herd },
    );
    const push = async (who: string) => {
      const body = { exchange: 1, entries: [strike, note, setting, replaced] };
      const response = await asked("POST", "/api/herds/oak/entries", { token: tokens.get(who), body });
      const { verdicts } = (await response.json()) as {
        readonly verdicts: readonly { readonly verdict: string; readonly reason?: unknown }[];
      };
      return verdicts;
    };
    const refused = (kind: string) => ({ verdict: "refused", reason: { code: "not-yours-to-write", kind } });
    expect(await push("helper")).toEqual([
      refused("strike"),
      { verdict: "accepted" },
      refused("setting"),
      refused("replace"),
    ]);
    expect((await push("keeper")).map(({ verdict }) => verdict)).toEqual(["accepted", "known", "accepted", "accepted"]);
  });

  test("[HU-91] a helper strikes what the same device wrote, of this push or an earlier one, and undoes that; never another's", async () => {
    const herd = "oak" as HerdId;
    const note = () => anEntry("note", { text: "limps" }, { herd });
    const strike = (id: string) => aStrike(id, { herd });
    const push = async (token: string | undefined, ...entries: readonly unknown[]) => {
      const response = await asked("POST", "/api/herds/oak/entries", { token, body: { exchange: 1, entries } });
      const { verdicts } = (await response.json()) as { readonly verdicts: readonly { readonly verdict: string }[] };
      return verdicts.map(({ verdict }) => verdict);
    };
    const [milo, other] = [await letIn("oak", "helper"), await letIn("oak", "helper")];
    const [own, undone, theirs, keepers, house] = [note(), note(), note(), note(), note()];
    await push(other.token, theirs);
    await push(tokens.get("keeper"), keepers);
    await asked("POST", "/api/herds/oak/entries", { at: "http://localhost", body: { exchange: 1, entries: [house] } });
    expect(await push(milo.token, own)).toEqual(["accepted"]);
    const first = strike(own.id);
    expect(await push(milo.token, first, strike(first.id))).toEqual(["accepted", "accepted"]);
    expect(await push(milo.token, undone, strike(undone.id))).toEqual(["accepted", "accepted"]);
    // What another brought is not made one's own by bringing it again, nor what nobody has by naming it.
    for (const not of [theirs, keepers, house])
      expect(await push(milo.token, not, strike(not.id))).toEqual(["known", "refused"]);
    expect(await push(milo.token, strike(note().id), strike("__proto__"))).toEqual(["refused", "refused"]);
    const setting = anEntry("setting", { key: "herd-name", value: "Mine" }, { herd });
    expect(await push(milo.token, setting, strike(setting.id))).toEqual(["refused", "refused"]);
    const later = { ...strike(own.id), v: 9 };
    expect(await push(milo.token, later)).toEqual(["refused"]);
    const ofKeeper = strike(own.id);
    expect(await push(tokens.get("keeper"), ofKeeper)).toEqual(["accepted"]);
    expect(await push(milo.token, strike(ofKeeper.id))).toEqual(["refused"]);
  });

  test("[HU-46] lets nobody in and sees no list of devices", async () => {
    const token = tokens.get("helper");
    const invite = await asked("POST", "/api/herds/oak/invites", { token, body: { role: "keeper" } });
    expect([invite.status, await invite.json()]).toEqual([403, { code: "not-for-you", detail: {} }]);
    expect((await asked("GET", "/api/herds/oak/devices", { token })).status).toBe(403);
  });
});

describe("joining", () => {
  test.each([
    [{ code: "123", name: "a phone" }],
    [{ code: "123456789012", name: "  " }],
    [{ code: "12345678901x", name: "a phone" }],
    [{ code: 123_456_789_012, name: "a phone" }],
    [{ code: "123456789012", name: "a\u0000b" }],
    [null],
    [[]],
  ])("[HU-40] %j is no code with a name", async (body) => {
    const response = await asked("POST", "/api/join", { body });
    expect([response.status, await response.json()]).toEqual([400, { code: "not-a-code", detail: {} }]);
  });

  test("[HU-40] a name with markup in it is kept and given back as it is, as data", async () => {
    const invite = await asked("POST", "/api/herds/oak/invites", {
      token: tokens.get("keeper"),
      body: { role: "helper" },
    });
    const { code } = (await invite.json()) as { readonly code: string };
    const spaced = code.replace(/(\d{4})(?=\d)/g, "$1 ");
    const name = "<script>alert(1)</script>";
    expect((await asked("POST", "/api/join", { body: { code: spaced, name } })).status).toBe(200);
    const list = await asked("GET", "/api/herds/oak/devices", { token: tokens.get("keeper") });
    expect(list.headers.get("content-type")).toContain("application/json");
    const { devices, reach } = (await list.json()) as {
      readonly devices: readonly { readonly name: string }[];
      reach: string;
    };
    expect(devices.some((device) => device.name === name)).toBe(true);
    expect(reach).toBe(REACH);
  });

  test("[HU-102] the token that a phone had ends when it joins anew; what it brought stays its own, and no list of oddities is taken amiss", async () => {
    const herd = "oak" as HerdId;
    const first = await letIn("oak", "helper");
    const note = anEntry("note", { text: "limps" }, { herd });
    const push = async (token: string, ...entries: readonly unknown[]) => {
      const response = await asked("POST", "/api/herds/oak/entries", { token, body: { exchange: 1, entries } });
      return { status: response.status, text: await response.text() };
    };
    await push(first.token, note);
    for (const had of [
      [first.token],
      "text",
      { length: 1 },
      [null, 1, ["a".repeat(43)], "short", "x".repeat(5000)],
      Array.from({ length: 3000 }, () => "a".repeat(43)),
    ]) {
      const body = { role: "helper" };
      const invite = await asked("POST", "/api/herds/oak/invites", { token: tokens.get("keeper"), body });
      const { code } = (await invite.json()) as { readonly code: string };
      const joined = await asked("POST", "/api/join", { body: { code, name: "a phone", had } });
      expect(joined.status).toBe(200);
      const { token, device } = (await joined.json()) as { readonly token: string; readonly device: string };
      if (device !== first.device) continue;
      expect((await push(first.token)).status).toBe(401);
      expect((await push(token, aStrike(note.id, { herd }))).text).toContain("accepted");
    }
    expect((await push(first.token)).status).toBe(401);
  });

  test("[HU-42] a phone that is let in no longer is told so, not taken for a stranger", async () => {
    const { token, device } = await letIn("oak", "helper");
    const path = "/api/herds/oak/entries";
    expect((await asked("GET", path, { token })).status).toBe(200);
    await asked("DELETE", `/api/herds/oak/devices/${device}`, { token: tokens.get("keeper") });
    const after = await asked("GET", path, { token });
    expect([after.status, await after.json()]).toEqual([401, { code: "no-longer-let-in", detail: {} }]);
    const again = (who: string) =>
      asked("PUT", `/api/herds/oak/devices/${device}`, { token: tokens.get(who) }).then(({ status }) => status);
    expect([await again("helper"), await again("other herd's keeper")]).toEqual([403, 403]);
    expect((await asked("GET", path, { token })).status).toBe(401);
    expect([await again("keeper"), await again("keeper")]).toEqual([200, 404]);
    expect((await asked("GET", path, { token })).status).toBe(200);
    const stranger = await asked("GET", path);
    expect(present((await stranger.json()) as { readonly code: string }, "a refusal").code).toBe("not-let-in");
  });
});
