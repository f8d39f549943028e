import { err, ok } from "@pollard/base";
import { entryJson } from "../entry.ts";
import type { EntryStore } from "../entry-store.ts";
import type { HerdId } from "../ids.ts";
import { entryFor } from "./entry-for.ts";
import { BATCH_LIMIT, type CopyName, EXCHANGE_VERSION, type ExchangePeer, type Verdict } from "./exchange.ts";

/**
 * The other side of an exchange, kept in a store: for tests, and for two stores on one device.
 *
 * Everything passes through JSON text, as it would over a wire.
 */
export function storePeer(herd: HerdId, store: EntryStore, copy: CopyName): ExchangePeer {
  const wired = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
  const refused = (reason: string) => err({ code: "peer-refused", status: 503, reason } as const);
  return {
    push: async (request) => {
      const read = (wired(request.entries) as readonly unknown[]).map((json) => entryFor(herd, json));
      const kept = await store.append(read.flatMap((entry) => (entry.ok ? [entry.value] : [])));
      if (!kept.ok) return refused(kept.error.code);
      const added = new Set(kept.value.added);
      const verdicts = read.map((entry): Verdict => {
        if (!entry.ok) return { verdict: "refused", reason: entry.error };
        return { verdict: added.has(entry.value.id) ? "accepted" : "known" };
      });
      return ok(wired({ exchange: EXCHANGE_VERSION, copy, verdicts }));
    },
    pull: async (after, limit) => {
      const size = Math.min(limit, BATCH_LIMIT);
      const found = await store.read(after, size + 1);
      if (!found.ok) return refused(found.error.code);
      const given = found.value.slice(0, size);
      const entries = given.map(({ entry }) => entryJson(entry));
      const next = given.at(-1)?.seq ?? after;
      return ok(
        wired({ exchange: EXCHANGE_VERSION, copy, entries, next, more: found.value.length > size ? "yes" : "no" }),
      );
    },
  };
}
