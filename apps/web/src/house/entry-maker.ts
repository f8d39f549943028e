import {
  type Correction,
  type DeviceId,
  type Entry,
  type EntryId,
  type Fact,
  type HerdId,
  nextStamp,
  type Stamp,
} from "@pollard/records";
import { nowUtc } from "../adapters/clock.ts";

/** What was entered, ready to be kept: the fact, and the id that it will have however often it is kept. */
export interface ToRecord {
  readonly id: EntryId;
  readonly fact: Fact | Correction;
}

/** Turns facts into entries of one herd, each with a stamp later than all that this phone has seen. */
export interface EntryMaker {
  /** `after` is the stamp that it has to come after even where a clock was ahead. */
  make(id: EntryId, fact: ToRecord["fact"], who: string, after?: Stamp): Entry;
  /** Another device's entries came in: ours come after them. */
  sawStamp(stamp: Stamp | undefined): void;
}

export function entryMaker(of: {
  readonly herd: HerdId;
  readonly device: DeviceId;
  readonly after: Stamp | undefined;
}): EntryMaker {
  let last = of.after;
  /** The last stamp given after a clock that was ahead; it does not carry `last` along. */
  let ahead: Stamp | undefined;
  return {
    make(id, fact, who, after) {
      let at = nextStamp(last, nowUtc(), of.device);
      if (after === undefined || at > after) last = at;
      else ahead = at = nextStamp(ahead !== undefined && ahead > after ? ahead : after, nowUtc(), of.device);
      return { v: 1, id, herd: of.herd, by: who, at, device: of.device, ...fact };
    },
    sawStamp(stamp) {
      if (stamp !== undefined && (last === undefined || stamp > last)) last = stamp;
    },
  };
}
