import { addDays, day } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DeviceId, Stamp } from "./ids.ts";
import { nextStamp, receiveStamp } from "./stamp.ts";

const barn = "barn" as DeviceId;
const house = "house" as DeviceId;
const NOON = "2026-03-01T12:00:00.000Z";
const stamp = (text: string) => text as Stamp;

/** The time so many milliseconds after the beginning of 2020. */
function timeAt(ms: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  const clock = [Math.floor(ms / 3_600_000) % 24, Math.floor(ms / 60_000) % 60, Math.floor(ms / 1000) % 60].map(two);
  const inSecond = String(ms % 1000).padStart(3, "0");
  return `${addDays(day("2020-01-01"), Math.floor(ms / 86_400_000))}T${clock.join(":")}.${inSecond}Z`;
}

const anyMs = fc.oneof(
  fc.nat(15 * 365 * 86_400_000),
  fc.nat(5000).map((days) => days * 86_400_000 - 1 + 86_400_000),
);
const anyTime = anyMs.map(timeAt);

describe("stamps", () => {
  test("[RE-31] the first stamp is the device's own time", () => {
    expect(nextStamp(undefined, NOON, barn)).toBe("2026-03-01T12:00:00.000Z-0000-barn");
  });

  test("[RE-31] when the clock stands still or goes back, the counter goes on", () => {
    const last = stamp("2026-03-01T12:00:00.000Z-00ff-house");
    expect(nextStamp(last, NOON, barn)).toBe("2026-03-01T12:00:00.000Z-0100-barn");
    expect(nextStamp(last, "2001-01-01T00:00:00.000Z", barn)).toBe("2026-03-01T12:00:00.000Z-0100-barn");
    expect(nextStamp(last, "2026-03-01T12:00:00.001Z", barn)).toBe("2026-03-01T12:00:00.001Z-0000-barn");
  });

  test("[RE-31] a full counter moves the time on by a millisecond, over the end of the year if need be", () => {
    const last = stamp("2027-12-31T23:59:59.999Z-ffff-barn");
    expect(nextStamp(last, NOON, barn)).toBe("2028-01-01T00:00:00.000Z-0000-barn");
    const early = stamp("2026-03-01T09:59:59.999Z-ffff-barn");
    expect(nextStamp(early, "2026-03-01T09:00:00.000Z", barn)).toBe("2026-03-01T10:00:00.000Z-0000-barn");
  });

  test("[RE-31] what is no time in UTC is our own mistake", () => {
    for (const text of [
      "",
      "noon",
      "2026-02-30T12:00:00.000Z",
      "2026-03-01T12:00:00Z",
      "2026-03-01T12:00:00.000+01:00",
    ])
      expect(() => nextStamp(undefined, text, barn)).toThrow("not a time in UTC");
  });

  test("[RE-32] a clock five minutes ahead is taken along, one further ahead is not, and both times are said", () => {
    const near = stamp("2026-03-01T12:05:00.999Z-0000-house");
    expect(receiveStamp(undefined, near, NOON)).toEqual({ ok: true, value: near });
    expect(receiveStamp(undefined, stamp("2026-03-01T12:05:01.000Z-0000-house"), NOON)).toEqual({
      ok: false,
      error: { code: "clock-drift", ours: NOON, theirs: "2026-03-01T12:05:01.000Z", aheadSeconds: 301 },
    });
  });

  test("[RE-32] an old stamp changes nothing", () => {
    const last = stamp("2026-03-01T11:59:00.000Z-0003-barn");
    expect(receiveStamp(last, stamp("2025-01-01T00:00:00.000Z-0000-house"), NOON)).toEqual({ ok: true, value: last });
  });

  describe("laws", () => {
    test("[RE-31] whatever the clock does, each stamp is later than the one before", () => {
      fc.assert(
        fc.property(fc.array(anyTime, { minLength: 2, maxLength: 30 }), (times) => {
          let last: Stamp | undefined;
          for (const now of times) {
            const next = nextStamp(last, now, barn);
            if (last !== undefined) expect(next > last).toBe(true);
            last = next;
          }
        }),
      );
    });

    test("[RE-31] an answer is later than what it answers, whichever device's clock is ahead within the limit", () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 10_000_000, max: 99_000_000 }),
          fc.integer({ min: -9_000_000, max: 300_000 }),
          (ms, aheadMs) => {
            const now = timeAt(ms);
            const theirs = nextStamp(undefined, timeAt(ms + aheadMs), house);
            const received = receiveStamp(undefined, theirs, now);
            expect(received.ok && nextStamp(received.value, now, barn) > theirs).toBe(true);
          },
        ),
      );
    });

    test("[RE-31] a full counter goes on to the very next millisecond", () => {
      fc.assert(
        fc.property(anyMs, (ms) => {
          const next = nextStamp(stamp(`${timeAt(ms)}-ffff-house`), timeAt(ms), barn);
          expect(next).toBe(`${timeAt(ms + 1)}-0000-barn`);
        }),
      );
    });
  });
});
