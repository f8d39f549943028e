import { type Day, parseDay } from "@pollard/base";

const KEY = "pollard-phone-day";

/** When somebody was last asked about the phone's day, and which last day of the ledger they said to be no reason to ask. */
export interface DayAsked {
  readonly on: Day | undefined;
  readonly rightAfter: Day | undefined;
}

/** What was answered on this phone; nothing before anybody was asked. */
export function readDayAsked(storage: Pick<Storage, "getItem">): DayAsked {
  const [on, rightAfter] = (storage.getItem(KEY) ?? "").split(" ");
  return { on: parseDay(on ?? ""), rightAfter: parseDay(rightAfter ?? "") };
}

export const writeDayAsked = (storage: Pick<Storage, "setItem">, { on, rightAfter }: DayAsked): void =>
  storage.setItem(KEY, `${on ?? ""} ${rightAfter ?? ""}`);
