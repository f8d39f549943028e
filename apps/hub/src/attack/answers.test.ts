import type { PullReply, PushReply } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ROUTES } from "../hub.ts";
import { ATTACKERS, type Attack, type Attacker, attackedHub, REACH, tried } from "../testing/attacked-hub.ts";

let now = new Date("2026-03-01T06:00:00Z");
let under: Awaited<ReturnType<typeof attackedHub>>;
beforeAll(async () => {
  under = await attackedHub(() => now);
});
afterAll(() => under.close());

const json = { "content-type": "application/json" };
const EVERY_CALL = ROUTES.flatMap(({ path, methods }) =>
  [...Object.keys(methods), "HEAD", "PATCH"].flatMap((method) =>
    ATTACKERS.map((who) => ({ method, path, who, at: path.replace(":herd", "oak").replaceAll(/:\w+|\*/g, "today") })),
  ),
);
const withBody = (method: string) => (["GET", "HEAD"].includes(method) ? {} : { body: "{}", headers: json });

describe("every address, every method, everybody", () => {
  // What each header has to say: OWASP ASVS 5.0.0, 3.4.1 to 3.4.6 and 14.3.2; RFC 6797 for the first.
  test("[HU-86] each answer carries the whole set of headers, and what is not the app's own files is kept nowhere", async () => {
    for (const { method, at, path, who } of EVERY_CALL) {
      const response = await under.send({ who, method, path: at, ...withBody(method) });
      const policy = response.headers.get("content-security-policy") ?? "";
      const named = [method, path, who, response.status];
      expect([...named, response.headers.get("strict-transport-security")]).toEqual([
        ...named,
        who === "house" ? null : "max-age=31536000",
      ]);
      for (const part of ["base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'"])
        expect(policy).toContain(part);
      expect(policy).toMatch(/object-src 'none'|default-src 'none'/);
      expect(policy.replace("'wasm-unsafe-eval'", "")).not.toMatch(/unsafe|https?:|\*/);
      expect(response.headers.get("x-content-type-options")).toBe("nosniff");
      expect(response.headers.get("referrer-policy")).toBe("no-referrer");
      expect(response.headers.get("cross-origin-opener-policy")).toBe("same-origin");
      expect(response.headers.get("cross-origin-resource-policy")).toBe("same-origin");
      if (response.body !== null) expect([...named, response.headers.get("content-type")]).not.toContain(null);
      const isFile = path === "/*" && response.ok;
      expect([...named, response.headers.get("cache-control")]).toEqual([...named, isFile ? "no-cache" : "no-store"]);
      await response.body?.cancel();
    }
    tried("answers whose headers were looked at", EVERY_CALL.length);
  });

  test("[HU-86] no other page may read or ask: not from another site, not as null, not by a name pointed here", async () => {
    const foreign = [
      "https://evil.example",
      "null",
      "https://goats.example.evil.example",
      "http://goats.example",
      "https://goats.example:444",
    ];
    let count = 0;
    for (const { method, at, who } of EVERY_CALL.filter(({ method }) => method !== "PATCH"))
      for (const origin of foreign) {
        const { headers = {}, ...rest } = withBody(method);
        const response = await under.send({ who, method, path: at, headers: { ...headers, origin }, ...rest });
        count++;
        expect([method, at, who, origin, response.status]).toEqual([method, at, who, origin, 403]);
        expect([...response.headers.keys()].filter((name) => name.startsWith("access-control"))).toEqual([]);
      }
    const hosts = [
      "evil.example",
      "goats.example.",
      "goats.example:80",
      "localhost.evil.example",
      "127.0.0.1.nip.example",
      "[::ffff:7f00:1]",
      "0.0.0.0",
      "2130706433",
    ];
    for (const host of hosts) {
      const request = new Request("http://localhost/api/herds", { headers: { host } });
      expect([host, (await under.hub(request, "this-computer")).status]).toEqual([host, 421]);
    }
    tried("foreign pages and names", count + hosts.length);
  });
});

const ask = async <T>(who: Attacker, method: string, path: string, body?: unknown): Promise<T> => {
  const attack: Attack = {
    who,
    method,
    path,
    ...(body === undefined ? {} : { headers: json, body: JSON.stringify(body) }),
  };
  return (await (await under.send(attack)).json()) as T;
};

describe("what was true once", () => {
  const path = "/api/herds/oak/entries";

  test("[HU-87] the same push a hundred times, at once and one by one, is kept once", async () => {
    const entries = Array.from({ length: 5 }, () => anEntry("note", { text: "rain" }, { herd: "oak" }));
    const again = () => ask<PushReply>("keeper", "POST", path, { exchange: 1, entries });
    const replies = await Promise.all(Array.from({ length: 50 }, again));
    for (let n = 0; n < 50; n++) replies.push(await again());
    const said = replies.flatMap(({ verdicts }) => verdicts.map(({ verdict }) => verdict));
    expect(said.filter((verdict) => verdict === "accepted").length).toBe(5);
    expect(said.filter((verdict) => verdict === "known").length).toBe(495);
    expect((await ask<PullReply>("keeper", "GET", path)).entries.length).toBe(5);
    tried("replays", replies.length);
  });

  test("[HU-87] a place in one herd's ledger opens nothing in another's", async () => {
    const { next } = await ask<PullReply>("keeper", "GET", path);
    for (const after of [next, 0, 1, 999_999]) {
      expect(await ask("other keeper", "GET", `${path}?after=${after}`)).toMatchObject({ code: "not-for-you" });
      expect((await ask<PullReply>("other keeper", "GET", `/api/herds/elm/entries?after=${after}`)).entries).toEqual(
        [],
      );
    }
  });

  test("[HU-87] an entry of another herd, or one whose id is taken there, never gets in or out", async () => {
    const elm = anEntry("note", { text: "elm's own" }, { herd: "elm" });
    await ask("other keeper", "POST", "/api/herds/elm/entries", { exchange: 1, entries: [elm] });
    const stolen = { ...anEntry("note", { text: "stolen" }, { herd: "oak" }), id: elm.id };
    const { verdicts } = await ask<PushReply>("keeper", "POST", path, { exchange: 1, entries: [elm, stolen] });
    expect(verdicts[0]?.verdict).toBe("refused");
    expect((await ask<PullReply>("other keeper", "GET", "/api/herds/elm/entries")).entries).toEqual([elm]);
    expect(JSON.stringify(await ask("keeper", "GET", path))).not.toContain("elm's own");
  });

  test("[HU-87] with the clock a year behind or ahead: entries are kept, and a code or link is no longer good than said", async () => {
    const [day, year] = [86_400_000, 365 * 86_400_000];
    const start = now;
    const { code } = await ask<{ readonly code: string }>("keeper", "POST", "/api/herds/oak/invites", {
      role: "keeper",
    });
    for (const shift of [-year, year]) {
      now = new Date(start.getTime() + shift);
      const entry = anEntry("note", { text: "odd clock" }, { herd: "oak" });
      const { verdicts } = await ask<PushReply>("keeper", "POST", path, { exchange: 1, entries: [entry] });
      expect(verdicts).toEqual([{ verdict: "accepted" }]);
    }
    expect(await ask("nobody", "POST", "/api/join", { code, name: "a phone" })).toMatchObject({ code: "no-such-code" });
    now = new Date(start.getTime() + day);
  });

  test("[HU-87] five hundred guesses: after 232 nobody is answered, and no answer says how near a guess was", async () => {
    const said = new Map<string, number>();
    for (let n = 0; n < 500; n++) {
      const { code } = await ask<{ readonly code: string }>("nobody", "POST", "/api/join", {
        code: String(n).padStart(12, "0"),
        name: "x",
      });
      said.set(code, (said.get(code) ?? 0) + 1);
    }
    expect(said.get("no-such-code")).toBeLessThanOrEqual(232);
    expect((said.get("no-such-code") ?? 0) + (said.get("too-many-guesses") ?? 0)).toBe(500);
    const token = under.tokens.keeper ?? "";
    for (let cut = 1; cut < token.length; cut++) {
      const guess = token.slice(0, -cut) + "A".repeat(cut);
      if (guess === token) continue;
      const headers = { authorization: `Bearer ${guess}` };
      const response = await under.hub(new Request(`${REACH}/api/herds/oak/entries`, { headers }), "elsewhere");
      expect([response.status, await response.text()]).toEqual([401, '{"code":"no-longer-let-in","detail":{}}']);
    }
    tried("guesses", 500 + token.length);
  });
});
