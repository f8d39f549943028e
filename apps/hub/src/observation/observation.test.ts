import { err } from "@pollard/base";
import { anEntry, memoryStore } from "@pollard/records/testing";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Access } from "../access/access.ts";
import { createHub, ROUTES } from "../hub.ts";
import type { HubParts } from "../hub-parts.ts";
import { jsonJournal } from "./journal.ts";
import { newMetrics } from "./metrics.ts";
import { plainError } from "./plain-error.ts";

const SECRETS = { herd: "Oak Hollow", goat: "Hazel", person: "Ines Marta", token: "s3cr3t-token" };

function aHub(over: Partial<HubParts> = {}, token?: string) {
  const lines: string[] = [];
  const metrics = newMetrics();
  const journal = jsonJournal(
    (line) => lines.push(line),
    () => new Date(Date.UTC(2026, 2, 1, 6)),
  );
  const gauges = () => Promise.resolve([{ name: "pollard_herds", help: "Herds kept here.", value: 3 }]);
  const store = memoryStore();
  const hub = createHub({
    ledgers: {
      of: (herd) => ({ herd, store, copyFor: () => Promise.resolve({ ok: true, value: "copy" }) }),
      bringers: () => Promise.resolve({ ok: true, value: new Map() }),
      herds: () => Promise.resolve(err({ code: "unavailable", cause: new Error("no file") })),
    },
    webRoot: "/nowhere",
    log: journal.problem,
    observation: { journal, metrics, gauges, token },
    ...over,
  });
  const ask = (path: string, init: RequestInit = {}) => hub(new Request(`http://localhost:4180${path}`, init));
  const asked = () => lines.map((line) => JSON.parse(line) as Record<string, unknown>);
  return { ask, asked, lines, metrics };
}

const HERD = encodeURIComponent(SECRETS.herd);
const push = (entries: readonly unknown[]): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify({ exchange: 1, entries }),
});

describe("what a hub writes down", () => {
  test("[HU-16] one line a request: when, what sort, how it ended, how long, how much", async () => {
    const { ask, asked } = aHub();
    const reply = await ask(`/api/herds/${HERD}/entries?after=0`);
    const bytes = (await reply.text()).length;
    await ask("/api/nothing");
    expect(asked()).toEqual([
      {
        time: "2026-03-01T06:00:00.000Z",
        level: "info",
        what: "request",
        method: "GET",
        route: "/api/herds/:herd/entries",
        status: 200,
        ms: expect.any(Number) as number,
        bytes,
      },
      expect.objectContaining({ route: "none", status: 404 }),
    ]);
  });

  test("[HU-16] no herd, goat, person, device, token or address stands in it, whatever happens", async () => {
    const broken = {
      append: () => Promise.reject(new Error(`gone: ${SECRETS.goat}`)),
      read: () => Promise.reject(new TypeError(`no "${SECRETS.goat}"`)),
    };
    const hubs = [
      aHub(),
      aHub({
        ledgers: {
          of: (herd) => ({ herd, store: broken, copyFor: () => Promise.resolve({ ok: true, value: "c" }) }),
          bringers: () => Promise.reject(new Error("x")),
          herds: () => Promise.reject(new Error("x")),
        },
      }),
    ];
    const entry = anEntry("note", { text: SECRETS.goat }, { herd: SECRETS.herd, by: SECRETS.person });
    for (const { ask, lines } of hubs) {
      for (const path of [`/api/herds/${HERD}/entries`, `/${HERD}`, `/api/herds`, `/x?token=${SECRETS.token}`])
        for (const init of [
          {},
          push([entry, { ...entry, on: SECRETS.goat }]),
          { headers: { authorization: `Bearer ${SECRETS.token}`, "x-forwarded-for": "203.0.113.9" } },
        ])
          await ask(path, init);
      expect(lines.length).toBeGreaterThan(11);
      for (const secret of [...Object.values(SECRETS), HERD, entry.id, entry.device, "203.0.113.9"])
        expect(lines.join("\n")).not.toContain(secret);
    }
  });

  test("[HU-16] an error is told by its sort, its code, its first words and its place in the program", () => {
    const error = Object.assign(new TypeError(`no goat "${SECRETS.goat}" in 'herd: ${SECRETS.herd}'`), {
      code: "E_GOAT",
    });
    expect(plainError(error)).toMatch(/^TypeError E_GOAT: no goat … in … \| at .*observation\.test\.ts/);
    expect(plainError(new Error(`insert failed: ${SECRETS.goat}`))).toMatch(/^Error: insert failed \|/);
    expect(plainError(SECRETS.goat)).toBe("string");
    try {
      JSON.parse(`${SECRETS.goat}{`);
    } catch (broken) {
      expect(plainError(broken)).not.toContain(SECRETS.goat.slice(1));
    }
  });
});

describe("what a hub counts", () => {
  test("[HU-17] requests by route, method and status; entries by what became of them; and figures of the moment", async () => {
    const { ask } = aHub();
    const entry = anEntry("note", { text: "x" }, { herd: SECRETS.herd });
    await ask(`/api/herds/${HERD}/entries`, push([entry, entry, 7]));
    await ask(`/api/herds/${HERD}/entries`);
    const reply = await ask("/metrics");
    expect(reply.headers.get("content-type")).toBe("application/openmetrics-text; version=1.0.0; charset=utf-8");
    const text = await reply.text();
    expect(text).toContain('pollard_requests_total{method="POST",route="/api/herds/:herd/entries",status="200"} 1\n');
    expect(text).toContain('pollard_entries_total{verdict="accepted"} 1\n');
    expect(text).toContain('pollard_entries_total{verdict="known"} 1\n');
    expect(text).toContain('pollard_entries_total{verdict="refused"} 1\n');
    expect(text).toContain("# TYPE pollard_herds gauge\n# HELP pollard_herds Herds kept here.\npollard_herds 3\n");
  });

  test("[HU-17] with a token, whoever shows it is answered and nobody else; without one, this computer is", async () => {
    const withToken = aHub({}, SECRETS.token);
    const status = async (authorization?: string) =>
      (await withToken.ask("/metrics", authorization === undefined ? {} : { headers: { authorization } })).status;
    expect([await status(), await status("Bearer other"), await status(`Basic ${SECRETS.token}`)]).toEqual([
      401, 401, 401,
    ]);
    expect(await status(`Bearer ${SECRETS.token}`)).toBe(200);
    expect((await aHub().ask("/metrics")).status).toBe(200);
  });

  test("[HU-17] the counts can be fetched with the token while the database that knows all others is away", async () => {
    const holder = () => Promise.reject(new Error("away"));
    const { ask } = aHub({ access: { holder } as unknown as Access }, SECRETS.token.padEnd(24, "x"));
    const authorization = `Bearer ${SECRETS.token.padEnd(24, "x")}`;
    expect((await ask("/metrics", { headers: { authorization } })).status).toBe(200);
    expect((await ask("/api/herds", { headers: { authorization } })).status).toBe(500);
  });

  test("[HU-17] health is 200 while the database answers and 503 while it does not", async () => {
    expect((await aHub({ isUp: () => Promise.resolve(true) }).ask("/api/health")).status).toBe(200);
    expect((await aHub({ isUp: () => Promise.resolve(false) }).ask("/api/health")).status).toBe(503);
  });

  describe("laws", () => {
    const aLine = fc.record({
      method: fc.constantFrom("GET", "POST"),
      route: fc.constantFrom(...ROUTES.map(({ path }) => path), 'odd "\\\n'),
      status: fc.constantFrom(200, 404, 503),
      ms: fc.double({ min: 0, max: 20_000, noNaN: true }),
      bytes: fc.constant(undefined),
    });

    test("[HU-17] every request is in the total of its sort and in each class at or above its time", () => {
      fc.assert(
        fc.property(fc.array(aLine), (lines) => {
          const metrics = newMetrics();
          lines.forEach(metrics.request);
          const samples = samplesOf(metrics.text([]));
          for (const route of new Set(lines.map((line) => line.route))) {
            const own = lines.filter((line) => line.route === route);
            const at = (name: string, le?: string) =>
              samples
                .filter((s) => s.name === name && s.labels["route"] === route && s.labels["le"] === le)
                .map((s) => s.value);
            expect(
              samples
                .filter((s) => s.name === "pollard_requests_total" && s.labels["route"] === route)
                .reduce((sum, s) => sum + s.value, 0),
            ).toBe(own.length);
            expect(at("pollard_request_seconds_count")).toEqual([own.length]);
            expect(at("pollard_request_seconds_bucket", "+Inf")).toEqual([own.length]);
            for (const le of ["0.005", "0.02", "0.1", "0.5", "2.0", "10.0"])
              expect(at("pollard_request_seconds_bucket", le)).toEqual([
                own.filter(({ ms }) => ms / 1000 <= Number(le)).length,
              ]);
          }
        }),
      );
    });
  });
});

describe("published", () => {
  // The grammar of OpenMetrics 1.0.0, section "ABNF", as far as this text uses it.
  const NAME = "[a-zA-Z_:][a-zA-Z0-9_:]*";
  const LABEL = '[a-zA-Z_][a-zA-Z0-9_]*="(?:[^"\\\\\\n]|\\\\[n"\\\\])*"';
  const SAMPLE = new RegExp(
    `^${NAME}(?:\\{${LABEL}(?:,${LABEL})*\\})? -?(?:\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d+)?|\\+Inf|NaN)$`,
  );
  const DESCRIPTOR = new RegExp(`^# (?:TYPE ${NAME} (?:counter|gauge|histogram)|HELP ${NAME} [^\\n]*)$`);

  test("[HU-17] the text follows the grammar of the open format and ends as it must", async () => {
    const { ask, metrics } = aHub();
    metrics.count("pollard_backups", 'a "quoted\\ one\n', 2);
    await ask("/api/health");
    const text = await (await ask("/metrics")).text();
    expect(text.endsWith("\n# EOF\n")).toBe(true);
    const lines = text.split("\n").slice(0, -2);
    expect(lines.filter((line) => !SAMPLE.test(line) && !DESCRIPTOR.test(line))).toEqual([]);
    expect(lines.length).toBeGreaterThan(12);
  });
});

/** The samples of a text of metrics, read line by line. */
function samplesOf(text: string) {
  return text
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"))
    .map((line) => {
      const [, name = "", inner = "", value = ""] = /^(\w+)(?:\{(.*)\})? (\S+)$/.exec(line) ?? [];
      const pairs = [...inner.matchAll(/(\w+)="((?:[^"\\]|\\.)*)"/g)];
      const plain = (written: string) => written.replace(/\\(.)/g, (_, c: string) => (c === "n" ? "\n" : c));
      return {
        name,
        labels: Object.fromEntries(pairs.map(([, key, written]) => [key, plain(written ?? "")])),
        value: Number(value),
      };
    });
}
