import type { StoredEntry } from "@pollard/records";
import type { HubMark } from "../adapters/database/idb-marks.ts";

/** Which entries the hub is known to have: those the exchange is past, without what it would not take. */
export function handedOver({ marks, refused }: Pick<HubMark, "marks" | "refused">): (stored: StoredEntry) => boolean {
  const back = new Set(refused.map(({ entry }) => entry));
  return ({ seq, entry }) => seq <= marks.pushed && !back.has(entry.id);
}
