import { err, ok, type Result } from "@pollard/base";
import {
  BATCH_LIMIT,
  type EntryStore,
  entryFor,
  entryJson,
  EXCHANGE_VERSION,
  type ExchangeRefusal,
  type HerdId,
  type PullReply,
  type PushReply,
  type StoredEntry,
  type StoreFailure,
} from "@pollard/records";
import type { Ledgers } from "./ledgers.ts";

/** Most text in one answer to a pull, characters; one entry is always given, and none is longer than 64,000. */
const PULL_TEXT_LIMIT = 1_000_000;

/** The ledger of one herd here, and how to name the copy it is in (`Ledgers.copyFor`). */
export interface KeptLedger {
  readonly herd: HerdId;
  readonly store: EntryStore;
  readonly copyFor: Ledgers["copyFor"];
}

/** A request that is refused whole, or a ledger that cannot be reached. */
export type ExchangeFailure = ExchangeRefusal | StoreFailure;

/**
 * Keeps the entries of a push and says what became of each.
 *
 * A bad entry is refused with its reason and never stops the others. Nothing is answered before it is on disk.
 */
export async function takePush(ledger: KeptLedger, json: unknown): Promise<Result<PushReply, ExchangeFailure>> {
  const request = json as { readonly exchange?: unknown; readonly entries?: unknown } | null;
  if (typeof request !== "object" || request === null) return err({ code: "not-a-push", detail: {} });
  const { exchange, entries } = request;
  if (typeof exchange !== "number" || !Array.isArray(entries)) return err({ code: "not-a-push", detail: {} });
  if (exchange > EXCHANGE_VERSION)
    return err({ code: "later-exchange", detail: { asked: exchange, spoken: EXCHANGE_VERSION } });
  if (entries.length > BATCH_LIMIT)
    return err({ code: "too-many", detail: { entries: entries.length, limit: BATCH_LIMIT } });

  const copy = await ledger.copyFor(0);
  if (!copy.ok) return copy;
  const read = entries.map((entry: unknown) => entryFor(ledger.herd, entry));
  const kept = await ledger.store.append(read.flatMap((entry) => (entry.ok ? [entry.value] : [])));
  if (!kept.ok) return kept;
  const added = new Set(kept.value.added);
  const verdicts = read.map((entry) => {
    if (!entry.ok) return { verdict: "refused", reason: entry.error } as const;
    // The second of two with one id was not the one that was kept.
    return added.delete(entry.value.id) ? ({ verdict: "accepted" } as const) : ({ verdict: "known" } as const);
  });
  return ok({ exchange: EXCHANGE_VERSION, copy: copy.value, verdicts });
}

/** What came after a place of the ledger, a piece at a time. */
export async function givePull(
  ledger: KeptLedger,
  asked: { readonly after: string | null; readonly limit: string | null },
): Promise<Result<PullReply, ExchangeFailure>> {
  const after = wholeNumber(asked.after ?? "0");
  const limit = wholeNumber(asked.limit ?? String(BATCH_LIMIT));
  if (after === undefined) return err({ code: "not-a-place", detail: { after: asked.after ?? "" } });
  if (limit === undefined || limit < 1) return err({ code: "not-a-place", detail: { limit: asked.limit ?? "" } });
  const most = Math.min(limit, BATCH_LIMIT);
  const copy = await ledger.copyFor(after);
  if (!copy.ok) return copy;
  const found = await ledger.store.read(after, most + 1);
  if (!found.ok) return found;
  const given = firstOf(found.value.slice(0, most));
  return ok({
    exchange: EXCHANGE_VERSION,
    copy: copy.value,
    entries: given.map(({ entry }) => entryJson(entry)),
    next: given.at(-1)?.seq ?? after,
    more: found.value.length > given.length ? "yes" : "no",
  });
}

/** The entries at the front whose text fits into one answer; at least one. */
function firstOf(page: readonly StoredEntry[]): readonly StoredEntry[] {
  let size = 0;
  const tooMany = page.findIndex(({ entry }, at) => {
    size += JSON.stringify(entryJson(entry)).length;
    return size > PULL_TEXT_LIMIT && at > 0;
  });
  return tooMany < 0 ? page : page.slice(0, tooMany);
}

function wholeNumber(text: string): number | undefined {
  const n = /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;
  return Number.isSafeInteger(n) ? n : undefined;
}
