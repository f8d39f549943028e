import { type DeviceId, type Entry, type EntryId, type HerdId, nextStamp, type Stamp } from "@pollard/records";
import { nowUtc } from "../adapters/clock.ts";
import type { ToRecord } from "./house.ts";

/** Turns facts into entries of one herd, each with a stamp later than all that this phone has seen. */
export interface EntryMaker {
  make(id: EntryId, fact: ToRecord["fact"], who: string): Entry;
  /** Another device's entries came in: ours come after them. */
  sawStamp(stamp: Stamp | undefined): void;
}

export function entryMaker(of: {
  readonly herd: HerdId;
  readonly device: DeviceId;
  readonly after: Stamp | undefined;
}): EntryMaker {
  let last = of.after;
  return {
    make(id, fact, who) {
      last = nextStamp(last, nowUtc(), of.device);
      return { v: 1, id, herd: of.herd, by: who, at: last, device: of.device, ...fact };
    },
    sawStamp(stamp) {
      if (stamp !== undefined && (last === undefined || stamp > last)) last = stamp;
    },
  };
}
