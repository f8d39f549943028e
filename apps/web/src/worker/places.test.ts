import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { type EntryId, fold, NO_MARKS, type StoredEntry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { expect, test } from "vitest";
import { type Places, placesOf, type Whereabouts } from "./places.ts";

const [hazel, flint] = [animalId("hazel"), animalId("flint")];
const entries = [
  anEntry("animal", { animal: hazel, name: "Hazel", sex: "doe" }, { on: "2026-03-01" }),
  anEntry("animal", { animal: flint, name: "Flint", sex: "buck" }, { on: "2026-03-01" }),
  anEntry("photo", { animal: hazel, photo: "one", what: "head" }, { on: "2026-03-02" }),
  anEntry("weight", { animal: hazel, kg: 50, how: "weighed" }, { on: "2026-03-03" }),
];
const stored: readonly StoredEntry[] = entries.map((entry, at) => ({ seq: at + 1, entry }));
const herd = fold(entries, day("2026-03-20")).herd;
const atMs = (entry: number): number => Date.parse(entries[entry]?.at.slice(0, 24) ?? "");

/** Where things are, after what is said of the hub and of the backup. */
const after = (more: Partial<Whereabouts>): Places =>
  placesOf({
    stored,
    herd,
    hub: { marks: NO_MARKS, refused: [] },
    backup: undefined,
    photos: ["one"],
    photosOnHub: [],
    refusedPhotos: [],
    now: atMs(0) + 6 * 86_400_000,
    ...more,
  });
const goats = ({ aloneOf }: Places) => aloneOf.map(({ goat, entries: n, photos }) => [goat?.name, n, photos]);
const pushed = (n: number, refused: readonly EntryId[] = []): Pick<Whereabouts, "hub"> => ({
  hub: { marks: { ...NO_MARKS, pushed: n }, refused: refused.map((entry) => ({ entry, code: "unfit" })) },
});

test("[UI-245] with neither hub nor backup all of it is here alone, by goat, and for how many days", () => {
  const places = after({});
  expect(places.alone).toEqual({ entries: 4, photos: 1 });
  expect(goats(places)).toEqual([
    ["Hazel", 3, 1],
    ["Flint", 1, 0],
  ]);
  expect(places.aloneDays).toBe(6);
});

test("[UI-245] what the hub took, or the backup held, is not here alone; what the hub refused is", () => {
  expect(goats(after(pushed(3)))).toEqual([["Hazel", 1, 1]]);
  expect(goats(after({ ...pushed(3), photosOnHub: ["one"] }))).toEqual([["Hazel", 1, 0]]);
  const refused = after(pushed(4, [entries[1]?.id as EntryId]));
  expect([refused.onHub.entries, refused.alone.entries]).toEqual([3, 1]);
  expect(goats(refused)).toEqual([
    ["Flint", 1, 0],
    ["Hazel", 0, 1],
  ]);
  const backup = { on: day("2026-03-05"), time: "07:12", entries: 4, photos: ["one"] };
  expect(after({ backup }).alone).toEqual({ entries: 0, photos: 0 });
  expect(after({ backup }).aloneDays).toBe(0);
  expect(after({ backup: { on: backup.on, time: backup.time, entries: 3 } }).alone).toEqual({ entries: 1, photos: 1 });
});

test("[UI-246] a picture that the hub would not take is told with its goat and the reason", () => {
  const { refusedPhotos } = after({ refusedPhotos: [{ photo: "one", code: "too-large" }] });
  expect(refusedPhotos.map(({ goat, reason }) => [goat?.name, reason])).toEqual([["Hazel", "too-large"]]);
});
