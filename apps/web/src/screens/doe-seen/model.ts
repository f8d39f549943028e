import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, Fact } from "@pollard/records";

type Check = BodyOf<"pregnancy-check">;

/** What can have been seen of a doe that was served. */
export const SEEN_KINDS = ["heat", "pregnancy-check", "abortion"] as const;
export type SeenKind = (typeof SEEN_KINDS)[number];

/** How many kids a check counted; none where it did not count. */
export const KID_COUNTS = ["0", "1", "2", "3", "4", "5"] as const;
export type KidCount = (typeof KID_COUNTS)[number];

export interface SeenAnswers {
  readonly kind?: SeenKind;
  readonly on?: Day;
  readonly way?: Check["way"];
  readonly found?: Check["found"];
  readonly kids: KidCount;
}

/** What is still to be said before it can be stored; nothing where all is there. */
export function seenMissing({ kind, on, way, found }: SeenAnswers): "kind" | "check" | "day" | undefined {
  if (kind === undefined) return "kind";
  if (kind === "pregnancy-check" && (way === undefined || found === undefined)) return "check";
  return on === undefined ? "day" : undefined;
}

/** The fact, once its questions are answered. Kids are counted only where she was found in kid. */
export function seenFact({ kind, on, way, found, kids }: SeenAnswers, doe: AnimalId): Fact | undefined {
  if (kind === undefined || on === undefined) return undefined;
  if (kind !== "pregnancy-check") return { kind, on, body: { doe } };
  if (way === undefined || found === undefined) return undefined;
  const counted = found === "pregnant" && kids !== "0" ? { kids: Number(kids) } : {};
  return { kind, on, body: { doe, way, found, ...counted } };
}
