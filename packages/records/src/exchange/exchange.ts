import type { Result } from "@pollard/base";
import type { Cursor, Landmark } from "../keeping/entry-store.ts";
import type { ParseProblem } from "../entry/parse-problem.ts";

/** The version of the exchange spoken here. A peer that speaks a later one is left alone, and nothing is lost. */
export const EXCHANGE_VERSION = 1;

/** Most entries in one push, and in one answer to a pull. */
export const BATCH_LIMIT = 500;

/**
 * Names one copy of a herd's ledger at a peer. A copy that is made anew, or put back from an older backup, gets another
 * name, so that nobody goes on counting from a place in a copy that is gone.
 */
export type CopyName = string;

/** What somebody knows of a copy: its name, and the furthest place that he has seen filled there. */
export interface SeenCopy {
  readonly copy: CopyName;
  readonly seen: Landmark;
}

/** Entries handed over, each as the JSON it is stored as (`entryJson`); one herd a push. */
export interface PushRequest {
  readonly exchange: number;
  readonly entries: readonly unknown[];
  /** What the asking side knows of the peer's copy, so that one that was put back is noticed. First versions told nothing. */
  readonly known?: SeenCopy;
}

/** Why one entry was not taken. The others of the same push were. */
export type Refusal =
  | ParseProblem
  | { readonly code: "other-herd"; readonly herd: string }
  /** Whoever pushed it may record, but not this. */
  | { readonly code: "not-yours-to-write"; readonly kind: string };

/** What became of one entry: kept now, there already, or not taken. `accepted` and `known` both mean: it is safe there. */
export type Verdict =
  | { readonly verdict: "accepted" }
  | { readonly verdict: "known" }
  | { readonly verdict: "refused"; readonly reason: Refusal };

/** One verdict for each entry of the push, in its order. Sent only after the entries are on disk. */
export interface PushReply {
  readonly exchange: number;
  readonly copy: CopyName;
  readonly verdicts: readonly Verdict[];
  /** The furthest of the entries as it lies there. First versions told nothing. */
  readonly seen?: Landmark | undefined;
}

/** What came after the asked-for place, in the order of arrival there. */
export interface PullReply {
  readonly exchange: number;
  readonly copy: CopyName;
  readonly entries: readonly unknown[];
  /** Ask for what comes after this next time. */
  readonly next: Cursor;
  /** `yes` where more is waiting already. */
  readonly more: "yes" | "no";
  /** The last of the entries as it lies there. First versions told nothing. */
  readonly seen?: Landmark | undefined;
}

/** A request that was refused whole, as it stands on the wire beside a fitting status. */
export interface ExchangeRefusal {
  readonly code: "not-a-push" | "not-a-place" | "too-many" | "later-exchange" | "full" | "unavailable";
  readonly detail: Readonly<Record<string, string | number>>;
}

/** Why a peer gave no answer. The cause is for the log, never for the keeper. */
export type PeerFailure =
  | { readonly code: "unreachable"; readonly cause: unknown }
  | { readonly code: "peer-refused"; readonly status: number; readonly reason: string };

/**
 * The other side, as the asking side sees it. Answers are JSON as they came: `exchangeOnce` checks them.
 *
 * Over HTTP: `POST /api/herds/:herd/entries` with a `PushRequest`; `GET /api/herds/:herd/entries?after=&limit=`,
 * with `&copy=&place=&notch=` for what is known.
 */
export interface ExchangePeer {
  push(request: PushRequest): Promise<Result<unknown, PeerFailure>>;
  pull(after: Cursor, limit: number, known?: SeenCopy): Promise<Result<unknown, PeerFailure>>;
}

/** How far the exchange with one peer has come; kept by the asking side, one per herd and peer. */
export interface ExchangeMarks {
  /** The peer's copy that the two places speak of; `undefined` before the first answer. */
  readonly copy: CopyName | undefined;
  /** Everything of ours up to this place of our own store is safe at the peer. */
  readonly pushed: Cursor;
  /** Everything of the peer's up to this place of its store is safe here. */
  readonly pulled: Cursor;
  /** The furthest place that was seen filled there; told at each request, so that a copy that was put back is noticed. */
  readonly seen?: Landmark | undefined;
}

/** The marks before the first exchange. */
export const NO_MARKS: ExchangeMarks = { copy: undefined, pushed: 0, pulled: 0 };
