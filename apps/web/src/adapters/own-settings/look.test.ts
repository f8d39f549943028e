import { describe, expect, test } from "vitest";
import { day } from "@pollard/base";
import { localMinute, timeOfDay, today } from "../clock.ts";
import { FIRST_LOOK, readLook, writeLook } from "./look.ts";

function shelf(): Pick<Storage, "getItem" | "setItem"> {
  const kept = new Map<string, string>();
  return { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) };
}

describe("this phone", () => {
  test("[UI-10] light until somebody chooses; the choice comes back; a damaged note is no choice", () => {
    const storage = shelf();
    expect(readLook(storage)).toEqual(FIRST_LOOK);
    expect(FIRST_LOOK.light).toBe("day");
    writeLook(storage, { light: "barn", hands: "gloves", side: "left" });
    expect(readLook(storage)).toEqual({ light: "barn", hands: "gloves", side: "left" });
    storage.setItem("pollard-look", "purple claws");
    expect(readLook(storage)).toEqual(FIRST_LOOK);
  });

  test("[UI-8] the day is the one on the farm's calendar, a minute before midnight as a minute after", () => {
    const before = new Date(2026, 2, 1, 23, 59);
    const after = new Date(2026, 2, 2, 0, 1);
    expect([today(before), timeOfDay(before)]).toEqual([day("2026-03-01"), "23:59"]);
    expect([today(after), localMinute(after)]).toEqual([day("2026-03-02"), "2026-03-02T00:01"]);
  });
});
