import { err, ok, type Result } from "@pollard/base";
import type { EntryStore } from "../keeping/entry-store.ts";
import type { HerdId } from "../entry/ids.ts";
import type { CopyName, ExchangePeer, PeerFailure } from "./exchange.ts";
import { type AskedFailure, givePull, type KeptLedger, takePush } from "./kept-ledger.ts";

/**
 * The other side of an exchange, kept in a store: for tests, and for two stores on one device.
 *
 * Everything passes through JSON text, as it would over a wire.
 */
export function storePeer(herd: HerdId, store: EntryStore, copy: CopyName): ExchangePeer {
  const ledger: KeptLedger = { herd, store, copyFor: () => Promise.resolve(ok(copy)) };
  const wired = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
  const sent = (answer: Result<unknown, AskedFailure>): Result<unknown, PeerFailure> =>
    answer.ok ? ok(wired(answer.value)) : err({ code: "peer-refused", status: 503, reason: answer.error.code });
  return {
    push: async (request) => sent(await takePush(ledger, wired(request))),
    pull: async (after, limit, known) => sent(await givePull(ledger, after, limit, known)),
  };
}
