import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { backupName, backupTime, outdatedBackups } from "./kept-backups.ts";

const HOUR_MS = 3_600_000;
const at = (text: string) => backupName(new Date(text));
const everyHours = (hours: number, count: number) =>
  Array.from({ length: count }, (_, n) => backupName(new Date(Date.UTC(2026, 2, 1) + n * hours * HOUR_MS)));

describe("which backups are kept", () => {
  test("[HU-19] a name says when, and only a name of ours is a backup", () => {
    expect(at("2026-03-01T05:06:07.890Z")).toBe("pollard-20260301T050607Z");
    expect(backupTime("pollard-20260301T050607Z")).toEqual(new Date("2026-03-01T05:06:07Z"));
    for (const name of ["pollard-20260231T050607Z", "pollard-20260301T050607Z.part", "photos", "pollard-2026", ""])
      expect(backupTime(name)).toBeUndefined();
  });

  test("[HU-19] the first week of daily backups is kept whole, and of one day the newest", () => {
    expect(outdatedBackups(everyHours(24, 7))).toEqual([]);
    const day = [at("2026-03-01T03:00:00Z"), at("2026-03-01T09:00:00Z"), at("2026-03-01T21:00:00Z")];
    expect(outdatedBackups(day)).toEqual([day[1], day[0]]);
  });

  test("[HU-19] after a year of daily ones: seven days, four Sundays, six ends of month, and no more", () => {
    const names = everyHours(24, 365); // 1 March 2026, a Sunday, to 28 February 2027, a Sunday
    const gone = new Set(outdatedBackups(names));
    expect(names.filter((name) => !gone.has(name)).map((name) => name.slice(8, 16))).toEqual(
      [
        "20260930 20261031 20261130 20261231 20270131",
        "20270207 20270214 20270221",
        "20270222 20270223 20270224 20270225 20270226 20270227 20270228",
      ].flatMap((line) => line.split(" ")),
    );
  });

  test("[HU-19] after a year in which the computer was off, the old ones are still there", () => {
    const names = [at("2025-01-01T00:00:00Z"), at("2025-01-02T00:00:00Z"), at("2026-03-01T00:00:00Z")];
    expect(outdatedBackups(names)).toEqual([]);
  });

  describe("laws", () => {
    const someNames = fc
      .array(fc.integer({ min: 0, max: 24 * 400 }), { maxLength: 60 })
      .map((hours) => [...new Set(hours)].map((hour) => backupName(new Date(Date.UTC(2026, 0, 1) + hour * HOUR_MS))));

    /** The slow way: a backup stays if no newer one shares its span, and fewer than so many spans are newer. */
    function staysSlowly(name: string, names: readonly string[]): boolean {
      const time = (of: string) => backupTime(of)?.getTime() ?? 0;
      const monday = (of: string) => {
        const day = new Date(time(of));
        while (day.getUTCDay() !== 1) day.setUTCDate(day.getUTCDate() - 1);
        return day.toISOString().slice(0, 10);
      };
      const spans: readonly [number, (of: string) => string][] = [
        [7, (of) => of.slice(8, 16)],
        [4, monday],
        [6, (of) => of.slice(8, 14)],
      ];
      return spans.some(([kept, span]) => {
        const newer = names.filter((other) => time(other) > time(name)).map(span);
        return !newer.includes(span(name)) && new Set(newer).size < kept;
      });
    }

    test("[HU-19] kept is what the slow way keeps: the newest always, seventeen at most", () => {
      fc.assert(
        fc.property(someNames, (names) => {
          const gone = new Set(outdatedBackups([...names, "photos", "pollard-x"]));
          const kept = names.filter((name) => !gone.has(name));
          expect([...kept].sort()).toEqual(names.filter((name) => staysSlowly(name, names)).sort());
          expect(kept.length).toBeLessThanOrEqual(17);
          const newest = [...names].sort().at(-1);
          if (newest !== undefined) expect(kept).toContain(newest);
        }),
      );
    });

    test("[HU-19] made one after the other, with each removal at its time, a year keeps what spans a year", () => {
      let names: readonly string[] = [];
      for (const name of everyHours(24, 365)) {
        const gone = new Set(outdatedBackups([...names, name]));
        names = [...names, name].filter((kept) => !gone.has(kept));
      }
      expect(names).toEqual(everyHours(24, 365).filter((name) => !outdatedBackups(everyHours(24, 365)).includes(name)));
    });
  });
});
