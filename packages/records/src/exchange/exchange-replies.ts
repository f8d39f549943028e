import { err, ok, type Result } from "@pollard/base";
import * as v from "valibot";
import {
  BATCH_LIMIT,
  EXCHANGE_VERSION,
  type PullReply,
  type PushReply,
  type Refusal,
  type SeenCopy,
} from "./exchange.ts";

/** An answer that cannot be used: not one at all, or one of a later exchange than ours. */
export type UnusableReply =
  | { readonly code: "not-understood"; readonly where: "push" | "pull" }
  | { readonly code: "later-exchange"; readonly spoken: number };

/** Longest notch of a place, characters. */
const NOTCH_LIMIT = 200;

const place = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const copy = v.pipe(v.string(), v.minLength(1), v.maxLength(200));
/** A reason is shown by its code, so a code that only a later peer knows still comes through. */
const reason = v.looseObject({ code: v.string() }) as unknown as v.GenericSchema<unknown, Refusal>;

const verdict = v.variant("verdict", [
  v.object({ verdict: v.literal("accepted") }),
  v.object({ verdict: v.literal("known") }),
  v.object({ verdict: v.literal("refused"), reason }),
]);

const exchange = v.literal(EXCHANGE_VERSION);
/** A place told in a way that is not ours is none: the exchange goes on as with a peer that tells nothing. */
const seen = v.fallback(
  v.optional(v.object({ place, notch: v.pipe(v.string(), v.minLength(1), v.maxLength(NOTCH_LIMIT)) })),
  undefined,
);
const pushReply = v.object({ exchange, copy, verdicts: v.pipe(v.array(verdict), v.maxLength(BATCH_LIMIT)), seen });
const pullReply = v.object({
  exchange,
  copy,
  entries: v.pipe(v.array(v.unknown()), v.maxLength(BATCH_LIMIT)),
  next: place,
  more: v.picklist(["yes", "no"]),
  seen,
});
const laterReply = v.object({ exchange: v.pipe(v.number(), v.safeInteger(), v.minValue(EXCHANGE_VERSION + 1)) });

const seenCopy = v.object({ copy, seen: v.object({ place, notch: v.pipe(v.string(), v.maxLength(NOTCH_LIMIT)) }) });

/** What somebody says that he knows of a copy; nothing where it is not said in our way. */
export function seenCopyIn(json: unknown): SeenCopy | undefined {
  const read = v.safeParse(seenCopy, json);
  return read.success ? read.output : undefined;
}

/** The answer to a push of so many entries. */
export function pushReplyIn(json: unknown, entries: number): Result<PushReply, UnusableReply> {
  const read = v.safeParse(pushReply, json);
  if (read.success && read.output.verdicts.length === entries) return ok(read.output);
  return unusable(json, "push");
}

/** The answer to a pull. It must lead on from the place that was asked for, or nobody would ever come to the end. */
export function pullReplyIn(json: unknown, after: number): Result<PullReply, UnusableReply> {
  const read = v.safeParse(pullReply, json);
  if (!read.success) return unusable(json, "pull");
  const { next, more, entries } = read.output;
  const leadsOn = entries.length > 0 || more === "yes" ? next > after : next >= after;
  return leadsOn ? ok(read.output) : unusable(json, "pull");
}

function unusable(json: unknown, where: "push" | "pull"): Result<never, UnusableReply> {
  const later = v.safeParse(laterReply, json);
  return err(
    later.success ? { code: "later-exchange", spoken: later.output.exchange } : { code: "not-understood", where },
  );
}
