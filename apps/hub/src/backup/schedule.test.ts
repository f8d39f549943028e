import { describe, expect, test } from "vitest";
import { type ScheduleParts, scheduleBackups } from "./schedule.ts";

const HOUR_MS = 3_600_000;

function aSchedule(over: Partial<ScheduleParts> = {}) {
  let now = Date.UTC(2026, 2, 1);
  const made: string[] = [];
  const told: string[] = [];
  const ends: string[] = [];
  const schedule = scheduleBackups({
    everyMs: 24 * HOUR_MS,
    last: undefined,
    clock: () => new Date(now),
    make: (at) => Promise.resolve(made.push(at.toISOString().slice(5, 13))).then(() => "made"),
    journal: { said: (text) => void told.push(text), problem: (text) => void told.push(text) },
    onEnd: (end) => ends.push(end),
    ...over,
  });
  const after = async (hours: number) => {
    now += hours * HOUR_MS;
    await schedule.look();
  };
  return { after, made, told, ends, stop: schedule.stop };
}

describe("backups on a schedule", () => {
  test("[HU-18] the first is made at once, the next when the time has passed, not before", async () => {
    const { after, made, stop } = aSchedule();
    await after(0);
    await after(23);
    expect(made).toEqual(["03-01T00"]);
    await after(1);
    await after(1);
    expect(made).toEqual(["03-01T00", "03-02T00"]);
    stop();
  });

  test("[HU-18] started again soon after, a hub does not make another; long after, it does", async () => {
    const soon = aSchedule({ last: new Date(Date.UTC(2026, 2, 1) - HOUR_MS) });
    await soon.after(22);
    expect(soon.made).toEqual([]);
    await soon.after(1);
    expect(soon.made).toEqual(["03-01T23"]);
    soon.stop();
  });

  test("[HU-18] one that fails is told without what its message quotes, and tried again within the hour", async () => {
    let tries = 0;
    const make = () => (++tries === 1 ? Promise.reject(new Error("no room: /media/Ines")) : Promise.resolve("made"));
    const { after, told, ends, stop } = aSchedule({ make });
    await after(0);
    await after(0.9);
    expect(told.map((line) => line.split(" | ")[0])).toEqual(["the backup failed: Error: no room"]);
    await after(0.1);
    expect([told.at(-1), ends]).toEqual(["made", ["failed", "done"]]);
    stop();
  });

  test("[HU-18] while one is being made, no other is begun", async () => {
    let finish = () => undefined as void;
    let begun = 0;
    const make = () => {
      begun++;
      return new Promise<string>((resolve) => (finish = () => resolve("made")));
    };
    const { after, stop } = aSchedule({ make });
    await after(48);
    await after(48);
    expect(begun).toBe(1);
    finish();
    stop();
  });
});
