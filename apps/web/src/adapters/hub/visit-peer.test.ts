import { type ExchangeMarks, exchangeOnce, type HerdId, NO_MARKS } from "@pollard/records";
import { anEntry, memoryStore } from "@pollard/records/testing";
import { afterEach, describe, expect, test, vi } from "vitest";
import { type VisitOfDay, visitPeer } from "./visit-peer.ts";

const herd = "oak" as HerdId;
const list = (day: string): VisitOfDay => ({
  day,
  herd: "Oak",
  kids: [{ kid: "moth", name: "Moth", lines: [] }],
  cautions: [],
});
const done = (on: string) => anEntry("disbudding", { kid: "moth" as never, done: "both-sides" }, { herd: "oak", on });

/** The hub's answers to a vet's phone, from what is shown there; every request is written down. */
function aHub(shown: readonly string[]) {
  const asked: string[] = [];
  const kept: unknown[] = [];
  vi.stubGlobal("fetch", async (url: URL, init: RequestInit) => {
    asked.push(`${init.method} ${url.pathname} ${new Headers(init.headers).get("authorization")}`);
    if (init.method === "GET") return Response.json({ visits: shown.map(list), copy: "copy-1" });
    const day = url.pathname.split("/").at(-2) ?? "";
    if (!shown.includes(day)) return Response.json({ code: "no-such-visit", detail: {} }, { status: 404 });
    const { entries } = JSON.parse(init.body as string) as { readonly entries: readonly unknown[] };
    kept.push(...entries);
    return Response.json({ exchange: 1, copy: "copy-1", verdicts: entries.map(() => ({ verdict: "accepted" })) });
  });
  return { asked, kept };
}

afterEach(() => vi.unstubAllGlobals());

async function exchanged(written: readonly ReturnType<typeof done>[], marks: ExchangeMarks = NO_MARKS) {
  const store = memoryStore();
  await store.append(written);
  let visits: readonly VisitOfDay[] = [];
  const peer = visitPeer(herd, "https://goats.example/", "the-token", (told) => (visits = told));
  const report = await exchangeOnce({ herd, store, peer }, marks);
  return { report, visits };
}

describe("the hub as a vet's phone knows it", () => {
  test("[UI-175] the lists come, and each thing done goes to the list of its day, once", async () => {
    const { asked, kept } = aHub(["2026-03-02", "2026-03-05"]);
    const written = [done("2026-03-02"), done("2026-03-05"), done("2026-03-02T14:30")];
    const { report, visits } = await exchanged(written);
    expect(visits.map(({ day }) => day)).toEqual(["2026-03-02", "2026-03-05"]);
    expect(report).toMatchObject({ confirmed: 3, refused: [], failure: undefined, received: [] });
    expect(kept).toHaveLength(3);
    expect(asked).toEqual([
      "GET /api/herds/oak/visits Bearer the-token",
      "POST /api/herds/oak/visits/2026-03-02/entries Bearer the-token",
      "POST /api/herds/oak/visits/2026-03-05/entries Bearer the-token",
    ]);
    expect((await exchanged(written, report.marks)).report).toMatchObject({ confirmed: 0, failure: undefined });
    expect(kept).toHaveLength(3);
  });

  test("[UI-175] what belongs to a list that is shown no longer is refused by itself; the other days are taken", async () => {
    const { kept } = aHub(["2026-03-05"]);
    const [late, good] = [done("2026-03-02"), done("2026-03-05")];
    const { report } = await exchanged([late, good]);
    expect(report.refused).toEqual([
      { entry: late.id, by: "peer", reason: { code: "not-yours-to-write", kind: "disbudding" } },
    ]);
    expect(report).toMatchObject({ confirmed: 1, failure: undefined });
    expect(kept).toHaveLength(1);
  });

  test("[UI-175] without a signal nothing is lost: it is handed over the next time", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no network")));
    const written = [done("2026-03-02")];
    const { report } = await exchanged(written);
    expect(report).toMatchObject({ failure: { code: "unreachable" }, marks: NO_MARKS });
    const { kept } = aHub(["2026-03-02"]);
    await exchanged(written, report.marks);
    expect(kept).toHaveLength(1);
  });
});
