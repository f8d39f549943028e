import type { AnimalRef } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { backupName } from "../../house/backup-name.ts";
import { clockSaid, fileProblemSaid, isAtRisk, refusalSaid, refusedPhotosSaid, sizeSaid, whyRefused } from "./model.ts";

describe("keeping the herd safe", () => {
  test("[UI-15] a backup is named by herd and day, with no sign that a phone stumbles over", () => {
    const today = day("2026-03-18");
    expect(backupName("Sallowbank / Ínes & co.", today)).toBe("pollard-sallowbank-i-nes-co-2026-03-18.jsonl");
    expect(backupName("…", today)).toBe("pollard-herd-2026-03-18.jsonl");
  });

  test("[UI-15] what is wrong with a file is one sentence, and a whole file says nothing", () => {
    const bad = { code: "line-unreadable", line: 3, reason: { code: "not-json" } } as const;
    expect(
      fileProblemSaid(screens, [
        bad,
        { code: "damaged", line: 9, sealed: { entries: 3, crc32: "" }, found: { entries: 2, crc32: "" } },
      ]),
    ).toBe("1 line of the file could not be read. The others are in.");
    expect(fileProblemSaid(screens, [{ code: "cut-short", line: 9 }])).toContain("cut short");
    expect(fileProblemSaid(screens, [])).toBe(undefined);
    expect(refusalSaid(screens, [{ code: "not-a-herd-file", looks: "csv" }])).toContain("a table");
    expect(refusalSaid(screens, [{ code: "not-a-herd-file", looks: "json" }])).toContain("not a Pollard backup");
  });

  test("[UI-15] sizes are said in the unit that a person would use", () => {
    expect([sizeSaid(10), sizeSaid(147_000), sizeSaid(5_200_000), sizeSaid(4_900_000_000)]).toEqual([
      "1 kB",
      "147 kB",
      "5 MB",
      "5 GB",
    ]);
  });
});

test("[UI-177] why the hub would not take an entry is one of a few sentences, also for a reason of a later hub", () => {
  expect(whyRefused("not-yours-to-write")).toBe("notYours");
  expect(whyRefused("other-herd")).toBe("otherHerd");
  expect(whyRefused("not-a-day")).toBe("unfit");
  expect(whyRefused("a-reason-of-tomorrow")).toBe("unfit");
});

test("[UI-134] how far a clock is off is said in minutes, hours or days, and which way", () => {
  expect(clockSaid(screens, 301)).toBe("This device's clock is 5 minutes ahead of the hub's. Check both.");
  expect(clockSaid(screens, -3 * 3600)).toContain("3 hours behind");
  expect(clockSaid(screens, -9190.4 * 86_400)).toContain("9190 days behind");
});

test("[UI-245] at risk is what has been nowhere but here for five days or more, and nothing else", () => {
  const alone = { entries: 1, photos: 0 };
  expect([4, 5, 60].map((aloneDays) => isAtRisk({ alone, aloneDays }))).toEqual([false, true, true]);
  expect(isAtRisk({ alone: { entries: 0, photos: 3 }, aloneDays: 60 })).toBe(false);
});

test("[UI-246] each picture that the hub would not take is said once, with its goat, under how many and why", () => {
  const moth = { id: animalId("moth"), name: "Moth", sex: "doe" } as AnimalRef;
  const of = (reason: string, goat?: AnimalRef) => ({ goat, reason });
  expect(refusedPhotosSaid(screens, [])).toEqual([]);
  expect(refusedPhotosSaid(screens, [of("no-room-for-photos", moth), of("no-room-for-photos")])).toEqual([
    {
      said: "The hub has no room for pictures. 2 pictures stay on this device.",
      each: [
        { which: "Photo of Moth", why: undefined },
        { which: "A photo", why: undefined },
      ],
    },
  ]);
  const [some, others] = refusedPhotosSaid(screens, [
    of("too-large"),
    of("no-room-for-photos"),
    of("not-a-picture"),
    of("a-reason-of-tomorrow"),
  ]);
  expect(some?.each.length).toBe(1);
  expect(others?.said).toBe("The hub would not take 3 pictures.");
  expect(others?.each.map(({ why }) => why)).toEqual([
    "It is too large for the hub. It stays on this device.",
    "The hub does not know it as a picture. It stays on this device.",
    "It is not what its entry names. Take it again if you can.",
  ]);
});
