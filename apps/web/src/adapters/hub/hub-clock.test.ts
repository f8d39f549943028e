import type { HerdId } from "@pollard/records";
import fc from "fast-check";
import { afterEach, describe, expect, test, vi } from "vitest";
import { aheadOfHub } from "./hub-clock.ts";
import { hubPeer } from "./hub-peer.ts";

afterEach(() => vi.unstubAllGlobals());

// RFC 9110, 5.6.7: the example of a date, which is 784,111,777 s after the epoch (GNU date -d).
const RFC_DATE = "Sun, 06 Nov 1994 08:49:37 GMT";
const RFC_MS = 784_111_777_000;

describe("this phone's clock beside the hub's", () => {
  test("[UI-134] equal, an hour ahead, a day behind, and back in 2001", () => {
    const ahead = (seconds: number) => aheadOfHub(RFC_DATE, RFC_MS + seconds * 1000, RFC_MS + seconds * 1000);
    expect([0, 3600, -86_400].map(ahead)).toEqual([0, 3600, -86_400]);
    const late = new Date("2026-03-01T12:00:00Z").toUTCString();
    const in2001 = Date.parse("2001-01-01T00:00:00Z");
    expect(aheadOfHub(late, in2001, in2001)).toBe(-9190.5 * 86_400); // 25 years, six leap days, 59 days and a half
  });

  test("[UI-134] a hub that does not say, or says no date, is no clock", () => {
    expect([aheadOfHub(null, 0, 0), aheadOfHub("soon", 0, 0)]).toEqual([undefined, undefined]);
  });

  test("[UI-134] every answer of an exchange is looked at, a refusal too", async () => {
    vi.stubGlobal("fetch", () => Promise.resolve(Response.json({}, { status: 503, headers: { date: RFC_DATE } })));
    const told = vi.fn();
    await hubPeer("herd" as HerdId, "http://localhost:4180/", undefined, told).pull(0, 10);
    expect(told).toHaveBeenCalledTimes(1);
    expect(told.mock.calls[0]?.[0]).toBeGreaterThan(900_000_000);
  });

  test("[UI-134] however slow the way, the error is at most half of it and a second", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -10_000_000, max: 10_000_000 }),
        fc.nat(30_000),
        fc.nat(30_000),
        fc.nat(999),
        (truth, there, back, within) => {
          const asked = RFC_MS + within;
          const written = new Date(asked + there - truth * 1000).toUTCString();
          const found = aheadOfHub(written, asked, asked + there + back) ?? Number.NaN;
          expect(Math.abs(found - truth)).toBeLessThanOrEqual((there + back) / 2000 + 1.5);
        },
      ),
    );
  });
});
