import { readdirSync, readFileSync } from "node:fs";
import { parseDay, present } from "@pollard/base";
import { openLedger, parseEntry, type PullReply, type PushReply } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ROUTES } from "../hub.ts";
import { ATTACKERS, type Attack, attackedHub, tried } from "../testing/attacked-hub.ts";
import { HOSTILE_PARTS, HOSTILE_TEXTS, hostileBody, hostileHeaders } from "./hostile.ts";

let under: Awaited<ReturnType<typeof attackedHub>>;
beforeAll(async () => {
  under = await attackedHub();
});
afterAll(() => under.close());

const PROTOTYPES = [Object.prototype, Array.prototype, Function.prototype].map((each) => ({
  each,
  names: Object.getOwnPropertyNames(each).join(),
}));

/** What every answer has to be, whatever was asked: ours, whole, guarded, and telling nothing of the inside. */
async function expectSound(attack: Attack, response: Response): Promise<void> {
  const about = `${attack.who} ${attack.method} ${attack.path.slice(0, 200)}`;
  expect([about, response.status < 500]).toEqual([about, true]);
  const type = response.headers.get("content-type") ?? "";
  if (type.startsWith("text/event-stream")) return response.body?.cancel();
  const text = await response.text();
  if (response.status >= 400 && attack.method !== "HEAD" && type.includes("json"))
    expect(JSON.parse(text)).toEqual({
      code: expect.stringMatching(/^[a-z-]+$/) as string,
      detail: expect.any(Object) as object,
    });
  expect(text).not.toMatch(/node_modules|\.ts:\d|SQLITE|\bat \w+ \(|pollard-attacked/);
  expect(text).not.toContain("not yours");
  expect(response.headers.get("content-security-policy")).toMatch(/default-src '(?:self|none)'/);
  expect(response.headers.get("x-content-type-options")).toBe("nosniff");
  for (const [name] of response.headers) expect(name).not.toMatch(/^(?:x-injected|set-cookie|access-control-)/);
  for (const { each, names } of PROTOTYPES) expect(Object.getOwnPropertyNames(each).join()).toBe(names);
}

const METHODS = ["GET", "HEAD", "POST", "PUT", "DELETE", "PATCH", "OPTIONS"];
const hasBody = (method: string) => method !== "GET" && method !== "HEAD";

describe("whatever is asked", () => {
  test("[HU-80] hostile addresses at every route, by everybody: nothing breaks, nothing is told", async () => {
    let count = 0;
    for (const { path } of ROUTES)
      for (const part of HOSTILE_PARTS)
        for (const who of ["house", "keeper", "nobody"] as const) {
          const at = path.replaceAll(/:\w+|\*/g, part);
          const method = METHODS[count % METHODS.length] ?? "GET";
          const body = hasBody(method) ? { body: "{}", headers: { "content-type": "application/json" } } : {};
          const attack = {
            who,
            method,
            path: `${at}?after=${part.slice(0, 500)}&limit=${part.slice(0, 500)}`,
            ...body,
          };
          await expectSound(attack, await under.send(attack));
          count++;
        }
    expect(under.problems).toEqual([]);
    expect(count).toBeGreaterThan(2000);
    tried("hostile addresses", count);
  });

  test("[HU-80] hostile bodies and headers at every route, by everybody: nothing breaks, nothing is told", async () => {
    let count = 0;
    const called = fc.constantFrom("oak", "elm", "nowhere", "__proto__");
    const named = fc.constantFrom("2026-03-01", "01890a5d-ac96-774b-bcce-b302099a8057", ...HOSTILE_PARTS.slice(0, 30));
    const attacks = fc.record({
      route: fc.constantFrom(...ROUTES),
      who: fc.constantFrom(...ATTACKERS),
      odd: fc.constantFrom(...METHODS),
      isOdd: fc.nat(7),
      herd: called,
      part: named,
      headers: hostileHeaders,
      type: fc.constantFrom(
        "application/json",
        "application/json",
        "application/json; charset=utf-16",
        "text/plain",
        "image/png",
      ),
      body: hostileBody,
    });
    await fc.assert(
      fc.asyncProperty(attacks, async ({ route, who, odd, isOdd, herd, part, headers, type, body }) => {
        const known = Object.keys(route.methods);
        const method = isOdd === 0 ? odd : (known[isOdd % known.length] ?? "GET");
        const path = route.path.replace(":herd", herd).replaceAll(/:\w+|\*/g, part);
        const sent = hasBody(method) ? { body, headers: { ...headers, "content-type": type } } : { headers };
        const attack = { who, method, path, ...sent };
        await expectSound(attack, await under.send(attack));
        count++;
      }),
      { numRuns: 2000 },
    );
    expect(under.problems).toEqual([]);
    tried("hostile bodies and headers", count);
  }, 60_000);

  test("[HU-80] too large by one byte, and too deep, is refused at every address that reads a body", async () => {
    let count = 0;
    for (const { path, methods } of ROUTES)
      for (const method of Object.keys(methods).filter(hasBody))
        for (const body of [" ".repeat(4 * 1024 * 1024 + 1), "[".repeat(1_000_000), '{"a":'.repeat(300_000)]) {
          const at = path.replace(":herd", "oak").replaceAll(/:\w+/g, "2026-03-01");
          const headers = { "content-type": "application/json" };
          const response = await under.send({ who: "keeper", method, path: at, headers, body });
          expect([at, [400, 403, 404, 413, 415].includes(response.status)]).toEqual([at, true]);
          count++;
        }
    expect(under.problems).toEqual([]);
    tried("oversized and deeply nested bodies", count);
  });
});

/** Every line of the ledgers that this version writes, as entries. */
function ledgerLines(): readonly Record<string, unknown>[] {
  const folder = new URL("../../../../fixtures/ledgers/v1/", import.meta.url);
  const files = readdirSync(folder).filter((name) => /kind|corrections|photos/.test(name));
  return files.flatMap((name) =>
    readFileSync(new URL(name, folder), "utf8")
      .split("\n")
      .filter((line) => line.includes('"kind"'))
      .map((line) => JSON.parse(line) as Record<string, unknown>),
  );
}

/** The same value with one of its parts, however deep, put in another's place; each such value once. */
function* bent(value: unknown, by: unknown): Generator<unknown> {
  yield by;
  if (Array.isArray(value))
    for (const [at, part] of value.entries()) for (const other of bent(part, by)) yield value.with(at, other);
  else if (typeof value === "object" && value !== null)
    for (const [name, part] of Object.entries(value))
      for (const other of bent(part, by)) yield { ...value, [name]: other };
}

describe("hostile entries", () => {
  const BENT_BY: readonly unknown[] = [
    ...HOSTILE_TEXTS.filter((text) => text.length < 3000),
    null,
    1e308,
    -1,
    [],
    {},
    [[]],
  ];

  test("[HU-81] each part of each kind of entry in another's place: one verdict each, and the herd can still be told", async () => {
    const entries: unknown[] = [];
    for (const line of ledgerLines())
      for (const by of BENT_BY) for (const other of bent({ ...line, herd: "oak" }, by)) entries.push(other);
    const verdicts: string[] = [];
    for (let at = 0; at < entries.length; at += 500) {
      const body = JSON.stringify({ exchange: 1, entries: entries.slice(at, at + 500) });
      const response = await under.send({
        who: "keeper",
        method: "POST",
        path: "/api/herds/oak/entries",
        headers: { "content-type": "application/json" },
        body,
      });
      expect(response.status).toBe(200);
      const reply = (await response.json()) as PushReply;
      verdicts.push(...reply.verdicts.map(({ verdict }) => verdict));
    }
    expect(verdicts.length).toBe(entries.length);
    expect(new Set(verdicts)).toEqual(new Set(["accepted", "known", "refused"]));
    const ledger = openLedger(present(parseDay("2026-07-01"), "a day"));
    for (let after = 0, more = "yes"; more === "yes"; ) {
      const path = `/api/herds/oak/entries?after=${after}`;
      const page = (await (await under.send({ who: "helper", method: "GET", path })).json()) as PullReply;
      const read = page.entries.map((entry) => parseEntry(entry));
      expect(read.filter((entry) => !entry.ok)).toEqual([]);
      ledger.add(read.flatMap((entry) => (entry.ok ? [entry.value] : [])));
      [after, more] = [page.next, page.more];
    }
    expect(ledger.folded().herd.animals.size).toBeGreaterThan(0);
    expect(under.problems).toEqual([]);
    tried("bent entries", entries.length);
  }, 60_000);

  test("[HU-81] a key of every object's prototype is a key like any other, and changes no object", async () => {
    const note = JSON.stringify(anEntry("note", { text: "rain" }, { herd: "oak" }));
    const keys = ["__proto__", "constructor", "prototype", "toString", "valueOf", "hasOwnProperty", "toJSON"];
    const values = ['{"polluted":"yes"}', '"polluted"', "null", '{"prototype":{"polluted":"yes"}}'];
    let count = 0;
    for (const key of keys)
      for (const value of values)
        for (const text of [
          `{"${key}":${value},"exchange":1,"entries":[${note}]}`,
          `{"exchange":1,"entries":[${note.replace("{", `{"${key}":${value},`)}]}`,
          `{"exchange":1,"entries":[${note.replace('"body":{', `"body":{"${key}":${value},`)}]}`,
        ]) {
          const headers = { "content-type": "application/json" };
          const attack = {
            who: "keeper",
            method: "POST",
            path: "/api/herds/oak/entries",
            headers,
            body: text,
          } as const;
          await expectSound(attack, await under.send(attack));
          expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
          count++;
        }
    expect(under.problems).toEqual([]);
    tried("prototype keys", count);
  });
});
