import { createHash } from "node:crypto";
import type { HerdId } from "@pollard/records";
import { anEntry, aReplacement } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createHub } from "../hub.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { onEachEngine } from "../testing/engines.ts";
import { accessIn, type Role } from "./access.ts";
import { paperHtml } from "./paper-page.ts";
import { papersIn } from "./papers.ts";
import { paperIn, visitIn } from "./shown.ts";

const DAY = 86_400_000;
const EVIL = `<script>alert("1")</script><img src=x onerror='x'>`;
const sheet = (name: string) => ({
  language: "en",
  title: `Paper of ${name}`,
  herd: "Oak Hollow",
  asOf: "As of 1 March",
  paper: "A4",
  blocks: [
    { kind: "heading", text: `Who ${name} is` },
    { kind: "text", text: "Born in the barn.", weight: "plain" },
    { kind: "warning", lines: ["Ask your vet."] },
    { kind: "facts", rows: [["Dam", "Hazel"]] },
    { kind: "table", columns: [{ title: "Day", mm: 20 }], rows: [["1 March"]], tall: "print" },
    { kind: "list", items: ["Smooth head"], mark: "dot" },
    { kind: "lines", label: "Notes", count: 3 },
  ],
});
const visit = {
  herd: "Oak Hollow",
  kids: [{ kid: "moth", name: "Moth", lines: ["4 days old"] }],
  cautions: ["Warm and fed."],
};

onEachEngine("what is shown outside", ({ newPlace }) => {
  const aHub = async () => {
    const database = await (await newPlace()).open();
    let at = Date.parse("2026-03-01T08:00:00Z");
    const now = () => new Date(at);
    const access = accessIn(database, now);
    const hub = createHub({
      ledgers: ledgersIn(database),
      webRoot: "/nowhere",
      log: () => undefined,
      access,
      papers: papersIn(database, now),
      reach: "https://goats.example",
    });
    const ask = (method: string, path: string, { token, body }: { token?: string; body?: unknown } = {}) =>
      hub(
        new Request(`https://goats.example${path}`, {
          method,
          headers: {
            ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
            ...(body === undefined ? {} : { "content-type": "application/json" }),
          },
          ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        }),
        "elsewhere",
      );
    const letIn = async (herd: string, role: Role): Promise<string> => {
      const invite = await access.invite(herd as HerdId, role);
      const joined = invite.ok ? await access.join(invite.value.code, role) : invite;
      if (!joined.ok || typeof joined.value === "string") throw new Error("not let in");
      return joined.value.token;
    };
    return { database, ask, letIn, pass: (ms: number) => (at += ms) };
  };
  const published = async (hub: Awaited<ReturnType<typeof aHub>>, keeper: string, name = "Moth", days = 2) => {
    const body = { kid: "moth", days, paper: sheet(name) };
    const made = await hub.ask("POST", "/api/herds/oak/papers", { token: keeper, body });
    expect(made.status).toBe(200);
    return (await made.json()) as { readonly id: string; readonly path: string; readonly expires: string };
  };

  test("[HU-47] whoever has the link sees the paper, until its days are over", async () => {
    const hub = await aHub();
    const keeper = await hub.letIn("oak", "keeper");
    const { path, expires } = await published(hub, keeper);
    expect(expires).toBe("2026-03-03T08:00:00.000Z");
    const page = await hub.ask("GET", path);
    const text = await page.text();
    for (const said of ["Paper of Moth", "Who Moth is", "Born in the barn.", "Ask your vet.", "Hazel", "1 March"])
      expect(text).toContain(said);
    expect(page.headers.get("cache-control")).toBe("no-store");
    hub.pass(2 * DAY);
    const over = await hub.ask("GET", path);
    const never = await hub.ask("GET", "/paper/not-a-link-that-was-given");
    expect([over.status, await over.text()]).toEqual([never.status, await never.text()]);
    expect(over.status).toBe(404);
  });

  test("[HU-47] a link that was taken back is over at once; another herd's keeper cannot do so", async () => {
    const hub = await aHub();
    const [keeper, other] = [await hub.letIn("oak", "keeper"), await hub.letIn("elm", "keeper")];
    const { path, id } = await published(hub, keeper);
    expect((await hub.ask("DELETE", `/api/herds/elm/papers/${id}`, { token: other })).status).toBe(404);
    expect((await hub.ask("GET", path)).status).toBe(200);
    expect((await hub.ask("DELETE", `/api/herds/oak/papers/${id}`, { token: keeper })).status).toBe(200);
    expect((await hub.ask("GET", path)).status).toBe(404);
    const list = (await (await hub.ask("GET", "/api/herds/oak/papers", { token: keeper })).json()) as {
      readonly links: readonly object[];
    };
    expect(list.links).toMatchObject([
      { id, kid: "moth", title: "Paper of Moth", revoked: "2026-03-01T08:00:00.000Z" },
    ]);
    expect(JSON.stringify(list)).not.toContain(path.slice("/paper/".length));
  });

  test("[HU-47] neither the link nor its secret stands in the database", async () => {
    const hub = await aHub();
    const { path } = await published(hub, await hub.letIn("oak", "keeper"));
    const rows = JSON.stringify(await hub.database.db.selectFrom("paper").selectAll().execute());
    expect(rows).toContain("Paper of Moth");
    expect(rows).not.toContain(path.slice("/paper/".length));
  });

  test("[HU-48] markup in a name is text on the page, and the page may run and fetch nothing", async () => {
    const hub = await aHub();
    const { path } = await published(hub, await hub.letIn("oak", "keeper"), EVIL);
    const page = await hub.ask("GET", path);
    const policy = page.headers.get("content-security-policy") ?? "";
    expect(policy.split("; ")).toEqual(expect.arrayContaining(["default-src 'none'", "sandbox", "form-action 'none'"]));
    expect(policy).not.toMatch(/unsafe|script-src|https?:|\*/);
    const text = await page.text();
    expect(text).toContain("&lt;script&gt;");
    expect(text).not.toMatch(/<script|<img|onerror='/);
    // What the standard says a browser compares: the digest of the style's own text (CSP level 3, 6.7.3.3).
    const [, style = ""] = /<style>([\s\S]*?)<\/style>/.exec(text) ?? [];
    expect(policy).toContain(`'sha256-${createHash("sha256").update(style).digest("base64")}'`);
  });

  test.each([
    ["no days", { kid: "moth", paper: sheet("Moth") }],
    ["days without end", { kid: "moth", days: 91, paper: sheet("Moth") }],
    ["half a day", { kid: "moth", days: 0.5, paper: sheet("Moth") }],
    ["no kid", { days: 2, paper: sheet("Moth") }],
    ["no paper", { kid: "moth", days: 2 }],
    ["a piece that nobody knows", { kid: "moth", days: 2, paper: { ...sheet("Moth"), blocks: [{ kind: "frame" }] } }],
    ["a language that is markup", { kid: "moth", days: 2, paper: { ...sheet("Moth"), language: `"><script>` } }],
    ["nothing", null],
  ])("[HU-47] %s is no paper to be shown", async (_, body) => {
    const hub = await aHub();
    const token = await hub.letIn("oak", "keeper");
    const refused = await hub.ask("POST", "/api/herds/oak/papers", { token, body });
    expect([refused.status, await refused.json()]).toEqual([400, { code: "not-a-paper", detail: {} }]);
  });

  test("[HU-49] a vet sees the lists of the days, and writes what was done for the kids on them, nothing else", async () => {
    const hub = await aHub();
    const [keeper, vet] = [await hub.letIn("oak", "keeper"), await hub.letIn("oak", "vet")];
    const seen = async () => (await hub.ask("GET", "/api/herds/oak/visits", { token: vet })).json();
    const copy: unknown = expect.any(String);
    expect(await seen()).toEqual({ visits: [], copy });
    const put = (day: string, body: unknown, token = keeper) =>
      hub.ask("PUT", `/api/herds/oak/visits/${day}`, { token, body }).then(({ status }) => status);
    expect([await put("2026-03-02", visit), await put("2026-02-30", visit), await put("2026-03-02", {})]).toEqual([
      200, 400, 400,
    ]);
    expect(await put("2026-03-02", visit, vet)).toBe(403);
    expect(await seen()).toEqual({ visits: [{ day: "2026-03-02", ...visit }], copy });

    const over = { herd: "oak", on: "2026-03-02" };
    const done = anEntry("disbudding", { kid: "moth" as never, done: "both-sides" }, over);
    const others = [
      anEntry("disbudding", { kid: "pip" as never, done: "both-sides" }, over),
      anEntry("disbudding", { kid: "moth" as never, done: "left" }, { herd: "oak", on: "2026-03-01" }),
      anEntry("note", { text: "seen" }, over),
      anEntry("setting", { key: "herd-name", value: "Mine" }, over),
      aReplacement(
        done.id,
        { kind: "disbudding", on: done.on, body: { kid: "moth" as never, done: "left" } },
        [],
        over,
      ),
    ];
    const push = async (token: string, path = "/api/herds/oak/visits/2026-03-02/entries") => {
      const body = { exchange: 1, entries: [done, ...others] };
      const response = await hub.ask("POST", path, { token, body });
      const { verdicts = [] } = (await response.json()) as { readonly verdicts?: readonly { verdict: string }[] };
      return verdicts.map(({ verdict }) => verdict).join(" ");
    };
    expect(await push(vet)).toBe("accepted refused refused refused refused refused");
    expect(await push(vet)).toBe("known refused refused refused refused refused");
    expect(await push(vet, "/api/herds/oak/entries")).toBe("");
    expect((await hub.ask("GET", "/api/herds/oak/entries", { token: vet })).status).toBe(403);
    const pulled = await hub.ask("GET", "/api/herds/oak/entries", { token: keeper });
    expect((await pulled.json()) as object).toMatchObject({ entries: [{ id: done.id }] });
  });

  test("[HU-49] a list is shown until a week after its day, or until it is taken back", async () => {
    const hub = await aHub();
    const [keeper, vet] = [await hub.letIn("oak", "keeper"), await hub.letIn("oak", "vet")];
    for (const day of ["2026-03-02", "2026-03-05"])
      await hub.ask("PUT", `/api/herds/oak/visits/${day}`, { token: keeper, body: visit });
    const days = async () => {
      const seen = await hub.ask("GET", "/api/herds/oak/visits", { token: vet });
      return ((await seen.json()) as { readonly visits: readonly { readonly day: string }[] }).visits.map((v) => v.day);
    };
    expect(await days()).toEqual(["2026-03-02", "2026-03-05"]);
    hub.pass(9 * DAY);
    expect(await days()).toEqual(["2026-03-05"]);
    const back = await hub.ask("DELETE", "/api/herds/oak/visits/2026-03-05", { token: keeper });
    expect([back.status, await days()]).toEqual([200, []]);
  });
});

describe("laws", () => {
  test("[HU-48] whatever a device hands over, what is taken for a paper becomes a page without a tag of its own", () => {
    const text = fc.oneof(fc.string(), fc.constantFrom(EVIL, "</style>", "'\"><b>", "&lt;"));
    const block = fc.oneof(
      fc.record({ kind: fc.constant("text"), text }),
      fc.record({ kind: fc.constant("facts"), rows: fc.array(fc.tuple(text, text)) }),
      fc.record({ kind: fc.constant("list"), items: fc.array(text) }),
      fc.jsonValue(),
    );
    const document = fc.record({
      language: fc.constantFrom("en", "es"),
      title: text,
      herd: text,
      asOf: text,
      blocks: fc.array(block, { maxLength: 4 }),
    });
    let papers = 0;
    fc.assert(
      fc.property(fc.oneof(document, fc.jsonValue()), (json) => {
        const paper = paperIn(json);
        visitIn(json);
        if (paper === undefined) return;
        papers++;
        const tags = new Set(paperHtml(paper).match(/<\/?[a-z!][^\s>]*/gi));
        const known =
          "!doctype html head meta title style body main h1 h2 p b dl dt dd div ul li table thead tbody tr th td";
        expect([...tags].filter((tag) => !known.split(" ").includes(tag.replace(/^<\/?/, "").toLowerCase()))).toEqual(
          [],
        );
      }),
      { seed: 7, numRuns: 300 },
    );
    expect(papers).toBeGreaterThan(50);
  });
});
