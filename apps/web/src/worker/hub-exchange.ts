import { exchangeOnce, NO_MARKS, type RefusedEntry } from "@pollard/records";
import { localMinute } from "../adapters/clock.ts";
import type { HerdDatabase } from "../adapters/database/herd-database.ts";
import { hubPeer } from "../adapters/hub/hub-peer.ts";
import { idbEntries } from "../adapters/database/idb-entries.ts";
import { idbMarks, type RefusedMark } from "../adapters/database/idb-marks.ts";
import { type VisitOfDay, visitPeer } from "../adapters/hub/visit-peer.ts";
import type { PhotoRound } from "./photo-round.ts";

/**
 * How an exchange ended: with everything on both sides, without a hub, with one that is newer than this app, or with one that lets
 * this phone in no longer, or never did.
 */
export interface ExchangeOutcome {
  readonly state: "done" | "away" | "later" | "not-kept" | "turned-away" | "not-let-in";
  /** How many entries came in. */
  readonly received: number;
  /** Whether pictures wait that could go at once. */
  readonly more?: PhotoRound["more"];
}

/** What the hub knows this phone by, and lets it do there. */
export interface HubPass {
  readonly token?: string;
  readonly role?: string;
}

/** How an exchange ended that the hub refused, by its code. */
const REFUSED: Readonly<Record<string, ExchangeOutcome["state"]>> = {
  "later-exchange": "later",
  "no-longer-let-in": "turned-away",
  "not-let-in": "not-let-in",
  "not-for-you": "turned-away",
};

/** How many refused entries are remembered: more than anybody reads. */
const MOST_REFUSED = 200;

/** What is remembered of an entry of this phone that the hub would not take. */
function refusedHere({ entry, by, reason }: RefusedEntry): readonly RefusedMark[] {
  if (by === "us" || entry === undefined) return [];
  return [{ entry, code: reason.code, ...("kind" in reason ? { kind: reason.kind } : {}) }];
}

/** Hands over and takes in what is missing on either side, and notes how far that came. `base` is where the hub is. */
export async function exchangeWithHub(
  db: HerdDatabase,
  base: string,
  { token, role }: HubPass,
): Promise<ExchangeOutcome> {
  const marks = idbMarks(db);
  const before = await marks.hub();
  if (!before.ok) return { state: "not-kept", received: 0 };
  let visits: readonly VisitOfDay[] | undefined;
  let { aheadSeconds } = before.value;
  const peer =
    role === "vet"
      ? visitPeer(db.herd, base, token, (shown) => (visits = shown))
      : hubPeer(db.herd, base, token, (ahead) => (aheadSeconds = ahead));
  // Under another token the hub may take what it would not take before.
  const isAsBefore = before.value.token === token;
  const from = isAsBefore ? before.value.marks : NO_MARKS;
  const report = await exchangeOnce({ herd: db.herd, store: idbEntries(db), peer }, from);
  if (visits !== undefined) await marks.setVisits(visits);
  const { failure } = report;
  const kept = await marks.setHub({
    marks: report.marks,
    answered: failure === undefined ? localMinute() : before.value.answered,
    refused: [...(isAsBefore ? before.value.refused : []), ...report.refused.flatMap(refusedHere)].slice(-MOST_REFUSED),
    aheadSeconds,
    token,
  });
  const received = report.received.length;
  if (!kept.ok || failure?.code === "store") return { state: "not-kept", received };
  if (failure === undefined) return { state: "done", received };
  return { state: failure.code === "peer-refused" ? (REFUSED[failure.reason] ?? "away") : "away", received };
}
