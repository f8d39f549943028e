import { err, ok, type Result } from "@pollard/base";
import { type Entry, entryJson, type TooNewEntry } from "../entry/entry.ts";
import type { EntryStore, Landmark, StoreFailure } from "../keeping/entry-store.ts";
import type { EntryId, HerdId } from "../entry/ids.ts";
import { entryFor } from "./entry-for.ts";
import {
  BATCH_LIMIT,
  type CopyName,
  EXCHANGE_VERSION,
  type ExchangeMarks,
  type ExchangePeer,
  type PeerFailure,
  type Refusal,
  type SeenCopy,
} from "./exchange.ts";
import { firstOf } from "./kept-ledger.ts";
import { pullReplyIn, pushReplyIn, type UnusableReply } from "./exchange-replies.ts";

/** Most text in one push, characters; one entry is always sent, and none is longer than 64,000. */
const PUSH_TEXT_LIMIT = 250_000;

/** Why an exchange stopped before its end. What was handed over until then is safe; the next one goes on from there. */
export type ExchangeFailure =
  | PeerFailure
  | UnusableReply
  | { readonly code: "copy-changed" }
  | { readonly code: "store"; readonly failure: StoreFailure };

/** An entry that one side would not take, and why. `entry` is `undefined` where there was no id to read. */
export interface RefusedEntry {
  readonly entry: EntryId | undefined;
  readonly by: "us" | "peer";
  readonly reason: Refusal;
}

/** What one exchange did. */
export interface ExchangeReport {
  /** Keep these for the next exchange; they hold however far this one came. */
  readonly marks: ExchangeMarks;
  /** Entries that were new to us, in the order of arrival: what an open ledger is to be told of. */
  readonly received: readonly (Entry | TooNewEntry)[];
  /** How many of our entries the peer has confirmed, new to it or known. */
  readonly confirmed: number;
  readonly refused: readonly RefusedEntry[];
  /** `undefined` = each side has everything that the other had when it was asked. */
  readonly failure: ExchangeFailure | undefined;
}

/** The two sides of an exchange, and the herd that it is about. */
export interface ExchangeSides {
  readonly herd: HerdId;
  readonly store: EntryStore;
  readonly peer: ExchangePeer;
}

/** An exchange on its way. */
interface Progress {
  marks: ExchangeMarks;
  readonly received: (Entry | TooNewEntry)[];
  /** What the peer gave us just now, and so need not be given. */
  readonly theirs: Set<EntryId>;
  confirmed: number;
  readonly refused: RefusedEntry[];
}

type Step = Result<"done" | "more", ExchangeFailure>;

/**
 * Takes what the peer has and we lack, then hands over what we have and the peer lacks.
 *
 * Safe to stop at any point and to repeat: a mark moves only after the entries behind it are on disk, here or there, and
 * an entry that arrives twice is kept once. One bad entry is left out and reported, and never stops the others. An entry
 * too new for us passes through. If the peer's copy of the ledger is another than last time, everything is compared anew; so it
 * is when the peer finds that its copy no longer has what we saw there.
 *
 * Errors: in the report; never throws unless a store or a peer does.
 */
export async function exchangeOnce(sides: ExchangeSides, marks: ExchangeMarks): Promise<ExchangeReport> {
  const progress: Progress = { marks, received: [], theirs: new Set(), confirmed: 0, refused: [] };
  let step: Step = ok("more");
  while (step.ok && step.value === "more") step = await pullSome(sides, progress);
  if (step.ok) step = ok("more");
  while (step.ok && step.value === "more") step = await pushSome(sides, progress);
  const { received, confirmed, refused } = progress;
  return { marks: progress.marks, received, confirmed, refused, failure: step.ok ? undefined : step.error };
}

async function pullSome({ herd, store, peer }: ExchangeSides, progress: Progress): Promise<Step> {
  const after = progress.marks.pulled;
  const answer = await peer.pull(after, BATCH_LIMIT, knownOf(progress.marks));
  if (!answer.ok) return answer;
  const reply = pullReplyIn(answer.value, after);
  if (!reply.ok) return reply;
  if (startsAnew(progress, reply.value.copy)) {
    if (progress.theirs.size > 0) return err({ code: "copy-changed" });
    if (after > 0) return ok("more");
  }
  const read = reply.value.entries.map((json) => entryFor(herd, json));
  const good = read.flatMap((entry) => (entry.ok ? [entry.value] : []));
  const kept = await store.append(good);
  if (!kept.ok) return err({ code: "store", failure: kept.error });
  for (const [at, entry] of read.entries())
    if (!entry.ok) progress.refused.push({ entry: idIn(reply.value.entries[at]), by: "us", reason: entry.error });
  const added = new Set(kept.value.added);
  for (const entry of good) {
    progress.theirs.add(entry.id);
    if (added.delete(entry.id)) progress.received.push(entry);
  }
  progress.marks = {
    ...progress.marks,
    pulled: reply.value.next,
    seen: further(progress.marks.seen, reply.value.seen),
  };
  return ok(reply.value.more === "yes" ? "more" : "done");
}

async function pushSome({ store, peer }: ExchangeSides, progress: Progress): Promise<Step> {
  const page = await store.read(progress.marks.pushed, BATCH_LIMIT);
  if (!page.ok) return err({ code: "store", failure: page.error });
  const batch = firstOf(page.value, PUSH_TEXT_LIMIT);
  const last = batch.at(-1);
  if (!last) return ok("done");
  const ours = batch.map(({ entry }) => entry).filter(({ id }) => !progress.theirs.has(id));
  if (ours.length > 0) {
    const known = knownOf(progress.marks);
    const request = { exchange: EXCHANGE_VERSION, entries: ours.map(entryJson), ...(known && { known }) };
    const answer = await peer.push(request);
    if (!answer.ok) return answer;
    const reply = pushReplyIn(answer.value, ours.length);
    if (!reply.ok) return reply;
    if (startsAnew(progress, reply.value.copy)) return err({ code: "copy-changed" });
    for (const [at, verdict] of reply.value.verdicts.entries()) {
      if (verdict.verdict === "refused")
        progress.refused.push({ entry: ours[at]?.id, by: "peer", reason: verdict.reason });
      else progress.confirmed += 1;
    }
    progress.marks = { ...progress.marks, seen: further(progress.marks.seen, reply.value.seen) };
  }
  progress.marks = { ...progress.marks, pushed: last.seq };
  return ok("more");
}

/** What is to be told of the peer's copy, where anything of it was seen. */
const knownOf = ({ copy, seen }: ExchangeMarks): SeenCopy | undefined =>
  copy === undefined || seen === undefined ? undefined : { copy, seen };

/** The further of two places of one copy. */
const further = (one: Landmark | undefined, other: Landmark | undefined): Landmark | undefined =>
  one === undefined || (other !== undefined && other.place > one.place) ? other : one;

/** Is the peer's copy another than our marks speak of? Then they are put back to the beginning. */
function startsAnew(progress: Progress, copy: CopyName): boolean {
  if (progress.marks.copy === copy) return false;
  progress.marks = { copy, pushed: 0, pulled: 0 };
  return true;
}

/** The id in an entry that was refused, where there is one to read. */
function idIn(json: unknown): EntryId | undefined {
  const id = typeof json === "object" && json !== null && "id" in json ? json.id : undefined;
  return typeof id === "string" ? (id as EntryId) : undefined;
}
