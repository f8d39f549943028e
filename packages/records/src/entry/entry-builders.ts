import { parseDay, present } from "@pollard/base";
import type { Entry, Envelope } from "./entry.ts";
import type { BodyOf, Fact, FactKind } from "./entry-kinds.ts";
import type { DeviceId, EntryId, HerdId, Stamp } from "./ids.ts";

/** What a test may choose of an entry beside its kind and body. */
export interface Over {
  readonly id?: string;
  readonly herd?: string;
  readonly on?: string;
  readonly by?: string;
  readonly at?: string;
  readonly device?: string;
}

/** The stamp `ms` milliseconds into New Year's Day 2026 (for whole numbers below 86,400,000); later numbers, later stamps. */
export function stampOf(ms: number, device = "barn"): Stamp {
  const digits = (value: number, length: number) => String(value).padStart(length, "0");
  const clock = [Math.floor(ms / 3_600_000), Math.floor(ms / 60_000) % 60, Math.floor(ms / 1000) % 60];
  const time = clock.map((part) => digits(part, 2)).join(":");
  return `2026-01-01T${time}.${digits(ms % 1000, 3)}Z-0000-${device}` as Stamp;
}

/** How many entries have been built; gives each its own id and a stamp later than those before. */
let built = 0;

function envelope(over: Over): Envelope & { readonly on: string } {
  built += 1;
  const on = over.on ?? "2026-03-01";
  present(parseDay(on.slice(0, 10)), `day of a test entry: ${on}`);
  const device = over.device ?? "barn";
  return {
    v: 1,
    id: (over.id ?? `entry-${String(built).padStart(6, "0")}`) as EntryId,
    herd: (over.herd ?? "herd") as HerdId,
    on,
    by: over.by ?? "Ines",
    at: (over.at ?? stampOf(built, device)) as Stamp,
    device: device as DeviceId,
  };
}

/** An entry for a test; each call gives the next id and a later stamp unless `over` says otherwise. */
export function anEntry<K extends FactKind>(kind: K, body: BodyOf<K>, over: Over = {}): Entry & { readonly kind: K } {
  return { ...envelope(over), kind, body } as unknown as Entry & { readonly kind: K };
}

/** A correction that puts `fact` in the place of the entry named. */
export function aReplacement(entry: string, fact: Fact, settles: readonly string[] = [], over: Over = {}): Entry {
  const body = { entry: entry as EntryId, fact, ...(settles.length > 0 ? { settles: settles as EntryId[] } : {}) };
  return { ...envelope(over), kind: "replace", body };
}

/** A correction that withdraws the entry named. */
export function aStrike(entry: string, over: Over = {}): Entry {
  return { ...envelope(over), kind: "strike", body: { entry: entry as EntryId } };
}
