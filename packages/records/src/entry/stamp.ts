import { addDays, Bug, daysFrom, err, ok, parseDay, type Result } from "@pollard/base";
import type { DeviceId, Stamp } from "./ids.ts";

/** How far another device's clock may be ahead before it is left out of ours, seconds. Our own choice: five minutes. */
export const DRIFT_LIMIT_SECONDS = 300;

/** Another device's clock is too far ahead of ours: one of the two is wrong. Both times are shown, UTC. */
export interface ClockDrift {
  readonly code: "clock-drift";
  readonly ours: string;
  readonly theirs: string;
  readonly aheadSeconds: number;
}

const MS_A_DAY = 86_400_000;
const LAST_COUNT = 0xffff;
const TIME_SHAPE = /^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z$/;
const TIME_LENGTH = "2026-03-01T22:50:12.345Z".length;

/**
 * The stamp of the next thing that this device writes down: later than every stamp it gave or received before.
 *
 * A hybrid logical clock. Where the device's own clock stands still or went back, the counter goes on instead; where the
 * counter is full, the time goes on by a millisecond.
 *
 * Units:  `nowUtc` is `2026-03-01T22:50:12.345Z`; `last` is the latest stamp given or received, `undefined` at the very start.
 * Errors: Bug if `nowUtc` is no such time.
 * Source: [kulkarni-2014] the idea; shape and overflow rule are ours.
 *
 * @example
 * nextStamp(undefined, "2026-03-01T22:50:12.345Z", "barn" as DeviceId); // "2026-03-01T22:50:12.345Z-0000-barn"
 */
export function nextStamp(last: Stamp | undefined, nowUtc: string, device: DeviceId): Stamp {
  const now = checkedTime(nowUtc);
  if (last === undefined || now > timeOf(last)) return stamp(now, 0, device);
  const counted = Number.parseInt(last.slice(TIME_LENGTH + 1, TIME_LENGTH + 5), 16) + 1;
  return counted > LAST_COUNT ? stamp(msLater(timeOf(last)), 0, device) : stamp(timeOf(last), counted, device);
}

/**
 * The latest stamp this device knows of, after it saw one from elsewhere; keep it as the next `last`.
 *
 * Errors: `clock-drift` where the other stamp is ahead of our clock by more than `DRIFT_LIMIT_SECONDS`: keep the old `last`,
 *         so that one wrong clock does not carry all others along. The entry itself is kept like any other.
 */
export function receiveStamp(last: Stamp | undefined, theirs: Stamp, nowUtc: string): Result<Stamp, ClockDrift> {
  const now = checkedTime(nowUtc);
  const aheadSeconds = Math.floor(msBetween(now, timeOf(theirs)) / 1000);
  if (aheadSeconds > DRIFT_LIMIT_SECONDS)
    return err({ code: "clock-drift", ours: now, theirs: timeOf(theirs), aheadSeconds });
  return ok(last === undefined || theirs > last ? theirs : last);
}

/** The wall time in a stamp, UTC, as the device that wrote it had it. */
export const timeOf = (of: Stamp): string => of.slice(0, TIME_LENGTH);

const stamp = (time: string, counter: number, device: DeviceId): Stamp =>
  `${time}-${counter.toString(16).padStart(4, "0")}-${device}` as Stamp;

function checkedTime(text: string): string {
  if (!TIME_SHAPE.test(text) || !parseDay(text.slice(0, 10))) throw new Bug(`not a time in UTC: ${text}`);
  return text;
}

/** Milliseconds since midnight. */
const msOfDay = (time: string): number =>
  Number(time.slice(11, 13)) * 3_600_000 +
  Number(time.slice(14, 16)) * 60_000 +
  Number(time.slice(17, 19)) * 1000 +
  Number(time.slice(20, 23));

/** The day in a time that has been checked, by `checkedTime` or where entries are read. */
function dayOf(time: string) {
  const day = parseDay(time.slice(0, 10));
  if (day === undefined) throw new Bug(`no day in a stamp: ${time}`);
  return day;
}

const msBetween = (from: string, to: string): number =>
  daysFrom(dayOf(from), dayOf(to)) * MS_A_DAY + msOfDay(to) - msOfDay(from);

function msLater(time: string): string {
  const ms = (msOfDay(time) + 1) % MS_A_DAY;
  const day = ms === 0 ? addDays(dayOf(time), 1) : dayOf(time);
  const two = (value: number) => String(value).padStart(2, "0");
  const clock = [Math.floor(ms / 3_600_000), Math.floor(ms / 60_000) % 60, Math.floor(ms / 1000) % 60].map(two);
  return `${day}T${clock.join(":")}.${String(ms % 1000).padStart(3, "0")}Z`;
}
