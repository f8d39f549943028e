import { err, ok, type Result } from "@pollard/base";
import { type Entry, entryJson, type TooNewEntry } from "../entry/entry.ts";
import type { Cursor, EntryStore, StoredEntry, StoreFailure } from "../keeping/entry-store.ts";
import type { HerdId } from "../entry/ids.ts";
import { entryFor } from "./entry-for.ts";
import {
  BATCH_LIMIT,
  type CopyName,
  EXCHANGE_VERSION,
  type ExchangeRefusal,
  type PullReply,
  type PushReply,
  type SeenCopy,
  type Verdict,
} from "./exchange.ts";
import { seenCopyIn } from "./exchange-replies.ts";

/** Most text in one answer to a pull, characters; one entry is always given, and none is longer than 64,000. */
const PULL_TEXT_LIMIT = 1_000_000;

/** The ledger of one herd, as the side that is asked keeps it. */
export interface KeptLedger {
  readonly herd: HerdId;
  readonly store: EntryStore;
  /**
   * The name of the copy, so that nobody goes on counting from a place in another one. If somebody has come to a place
   * beyond any that was given here, or has seen something in this copy that is there no longer, it was put back from an older
   * backup, and takes a new name. What is known of a copy of another name says nothing of this one.
   */
  readonly copyFor: (reached: Cursor, known?: SeenCopy) => Promise<Result<CopyName, StoreFailure>>;
}

/** A request that is refused whole, or a ledger that cannot be reached. */
export type AskedFailure = ExchangeRefusal | StoreFailure;

/**
 * Keeps the entries of a push and says what became of each.
 *
 * A bad entry, or one that its writer may not write, is refused with its reason and never stops the others. Nothing is answered before it is on disk.
 *
 * Errors: what is no push, or too much, is refused whole; the store's failures come through.
 */
export async function takePush(
  ledger: KeptLedger,
  json: unknown,
  mayWrite: (entry: Entry | TooNewEntry) => boolean = () => true,
): Promise<Result<PushReply, AskedFailure>> {
  const request = json as { readonly exchange?: unknown; readonly entries?: unknown; readonly known?: unknown } | null;
  if (typeof request !== "object" || request === null) return err({ code: "not-a-push", detail: {} });
  const { exchange, entries } = request;
  if (typeof exchange !== "number" || !Array.isArray(entries)) return err({ code: "not-a-push", detail: {} });
  if (exchange > EXCHANGE_VERSION)
    return err({ code: "later-exchange", detail: { asked: exchange, spoken: EXCHANGE_VERSION } });
  if (entries.length > BATCH_LIMIT)
    return err({ code: "too-many", detail: { entries: entries.length, limit: BATCH_LIMIT } });

  const read = entries.map((entry: unknown) => entryFor(ledger.herd, entry, mayWrite));
  const kept = await ledger.store.append(read.flatMap((entry) => (entry.ok ? [entry.value] : [])));
  if (!kept.ok) return kept;
  // Afterwards: a copy that is put back before they were kept is seen here, one that is put back later by what is told of them.
  const copy = await ledger.copyFor(0, seenCopyIn(request.known));
  if (!copy.ok) return copy;
  const added = new Set(kept.value.added);
  const verdicts = read.map((entry): Verdict => {
    if (!entry.ok) return { verdict: "refused", reason: entry.error };
    // The second of two with one id was not the one that was kept.
    return { verdict: added.delete(entry.value.id) ? "accepted" : "known" };
  });
  const { furthest } = kept.value;
  return ok({ exchange: EXCHANGE_VERSION, copy: copy.value, verdicts, ...(furthest && { seen: furthest }) });
}

/**
 * What came after a place of the ledger, a piece at a time.
 *
 * Errors: `not-a-place` for a place or limit that is no whole number; the store's failures come through.
 */
export async function givePull(
  ledger: KeptLedger,
  after: Cursor,
  limit: number,
  known?: SeenCopy,
): Promise<Result<PullReply, AskedFailure>> {
  if (!(Number.isSafeInteger(after) && after >= 0))
    return err({ code: "not-a-place", detail: { after: String(after) } });
  if (!(Number.isSafeInteger(limit) && limit > 0))
    return err({ code: "not-a-place", detail: { limit: String(limit) } });
  const most = Math.min(limit, BATCH_LIMIT);
  const found = await ledger.store.read(after, most + 1);
  if (!found.ok) return found;
  const copy = await ledger.copyFor(after, known);
  if (!copy.ok) return copy;
  const given = firstOf(found.value.slice(0, most), PULL_TEXT_LIMIT);
  const last = given.at(-1);
  return ok({
    exchange: EXCHANGE_VERSION,
    copy: copy.value,
    entries: given.map(({ entry }) => entryJson(entry)),
    next: last?.seq ?? after,
    ...(last?.notch === undefined ? {} : { seen: { place: last.seq, notch: last.notch } }),
    more: found.value.length > given.length ? "yes" : "no",
  });
}

/** The entries at the front that fit into so much text; at least one. */
export function firstOf(page: readonly StoredEntry[], limit: number): readonly StoredEntry[] {
  let size = 0;
  const tooMany = page.findIndex(({ entry }, at) => {
    size += JSON.stringify(entryJson(entry)).length;
    return size > limit && at > 0;
  });
  return tooMany === -1 ? page : page.slice(0, tooMany);
}
