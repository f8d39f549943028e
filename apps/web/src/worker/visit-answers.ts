import { ok, type Result } from "@pollard/base";
import {
  type BodyOf,
  type Entry,
  isTooNew,
  type StoredEntry,
  type StoreFailure,
  type TooNewEntry,
} from "@pollard/records";
import type { HerdDatabase } from "../adapters/database/herd-database.ts";
import { idbMarks } from "../adapters/database/idb-marks.ts";
import type { VisitOfDay } from "../adapters/hub/visit-peer.ts";

/** What was done for one kid at a visit. */
export interface VisitDone {
  readonly kid: string;
  readonly on: string;
  readonly done: BodyOf<"disbudding">["done"];
}

/** What a vet's phone holds of one herd: the lists it was shown, what was written on it, and how much of it waits. */
export interface VisitsModel {
  readonly visits: readonly VisitOfDay[];
  readonly done: readonly VisitDone[];
  readonly waiting: number;
  /** How many of them the hub would not take. */
  readonly refused: number;
}

/** What stands in a vet's own copy, from what was shown last and what is stored there. */
export async function visitsIn(
  db: HerdDatabase,
  stored: readonly StoredEntry[],
): Promise<Result<VisitsModel, StoreFailure>> {
  const marks = idbMarks(db);
  const [visits, hub] = [await marks.visits(), await marks.hub()];
  if (!visits.ok) return visits;
  if (!hub.ok) return hub;
  return ok({
    visits: visits.value,
    done: stored.flatMap(({ entry }) => doneIn(entry) ?? []),
    waiting: stored.filter(({ seq }) => seq > hub.value.marks.pushed).length,
    refused: hub.value.refused.length,
  });
}

/** What an entry says was done for a kid; nothing where it says something else. */
function doneIn(entry: Entry | TooNewEntry): VisitDone | undefined {
  if (isTooNew(entry) || entry.kind !== "disbudding") return undefined;
  return { kid: entry.body.kid, on: entry.on.slice(0, "2026-01-31".length), done: entry.body.done };
}
