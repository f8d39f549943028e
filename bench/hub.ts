import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { HerdId } from "@pollard/records";
import { createHub } from "../apps/hub/src/hub.ts";
import { ledgersIn } from "../apps/hub/src/store/ledger-store.ts";
import { openLibsql } from "../apps/hub/src/store/libsql.ts";

/** What the hub costs: entries a second kept for good, one by one and in batches, and handed out again. */
const ONE_BY_ONE = 500;
const BATCHES = 20;
const BATCH = 500;

const note = (n: number) => ({
  v: 1,
  id: `note-${n}`,
  herd: "herd",
  kind: "note",
  on: "2026-03-01",
  by: "Ines",
  at: "2026-03-01T06:00:00.000Z-0000-barn",
  device: "barn",
  body: { text: "rain on the roof, does all in" },
});

export async function bench() {
  const folder = mkdtempSync(join(tmpdir(), "pollard-bench-"));
  const database = await openLibsql(join(folder, "ledger.db"));
  const ledgers = ledgersIn(database);
  const hub = createHub({ ledgers, webRoot: folder, log: () => undefined });
  const address = "http://localhost/api/herds/herd/entries";
  const headers = { "content-type": "application/json" };
  const push = async (entries: readonly unknown[]) => {
    const body = JSON.stringify({ exchange: 1, entries });
    const response = await hub(new Request(address, { method: "POST", headers, body }));
    if (response.status !== 200) throw new Error(await response.text());
  };
  const seconds = async (work: () => Promise<void>) => {
    const from = performance.now();
    await work();
    return (performance.now() - from) / 1000;
  };
  let n = 0;
  const single = await seconds(async () => {
    for (let i = 0; i < ONE_BY_ONE; i++) await push([note(n++)]);
  });
  const batched = await seconds(async () => {
    for (let i = 0; i < BATCHES; i++) await push(Array.from({ length: BATCH }, () => note(n++)));
  });
  const pulled = await seconds(async () => {
    for (let after = 0, more = "yes"; more === "yes"; ) {
      const page = (await (await hub(new Request(`${address}?after=${after}`))).json()) as {
        next: number;
        more: string;
      };
      [after, more] = [page.next, page.more];
    }
  });
  const again = await seconds(async () => {
    await push(Array.from({ length: BATCH }, (_, i) => note(i)));
  });
  const found = await ledgers.of("herd" as HerdId).store.read(0, n + 1);
  if (!found.ok || found.value.length !== n) throw new Error("entries are missing");
  await database.close();
  rmSync(folder, { recursive: true });
  return [
    {
      what: "hub: keep, one entry a push",
      value: ONE_BY_ONE / single,
      unit: "entries/s",
      note: "each flushed to disk",
    },
    { what: "hub: keep, 500 entries a push", value: (BATCHES * BATCH) / batched, unit: "entries/s" },
    { what: "hub: hand out", value: n / pulled, unit: "entries/s", note: `${n} entries` },
    { what: "hub: the same 500 again", value: again * 1000, unit: "ms", note: "all known" },
  ];
}
