import { addDays, type Day, day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Entry, TooNewEntry } from "./entry.ts";
import { anEntry, aReplacement, aStrike } from "./entry-builders.ts";
import { BODIES } from "./entry-kinds.ts";
import type { EntryId } from "./ids.ts";
import { movedDays } from "./moved-days.ts";

const hazel = animalId("hazel");
const rook = animalId("rook");

/** Moves one entry and shows it. */
const moved = (entry: Entry, days: number): Entry | TooNewEntry | undefined => movedDays([entry], days)[0];

describe("movedDays", () => {
  test("[RE-40] the day of a fact and the day of writing move, the time of day stays", () => {
    const entry = anEntry(
      "note",
      { text: "rain" },
      { on: "2026-02-27T06:15", at: "2026-02-27T18:00:00.000Z-0000-barn" },
    );
    expect(moved(entry, 2)).toEqual({ ...entry, on: "2026-03-01T06:15", at: "2026-03-01T18:00:00.000Z-0000-barn" });
  });

  test("[RE-40] days inside a body move: birth, end of a pen period, day of a visit", () => {
    const born = anEntry("animal", { animal: hazel, sex: "doe", born: day("2020-02-28") });
    const pen = anEntry("service", { doe: hazel, bucks: [rook], way: "pen", until: day("2026-03-20") });
    const look = anEntry("choice", { kid: hazel, choice: "look-again", day: day("2026-03-05") });
    expect(moved(born, 1)).toMatchObject({ body: { born: "2020-02-29" } });
    expect(moved(pen, -20)).toMatchObject({ body: { until: "2026-02-28" } });
    expect(moved(look, 365)).toMatchObject({ body: { day: "2027-03-05" } });
  });

  test("[RE-40] a correction and the fact it puts in place move together; a withdrawal moves", () => {
    const replaced = aReplacement("e1", {
      kind: "animal",
      on: "2026-01-01",
      body: { animal: hazel, sex: "doe", born: day("2020-01-01") },
    });
    expect(moved(replaced, 31)).toMatchObject({
      on: "2026-04-01",
      body: { entry: "e1", fact: { on: "2026-02-01", body: { born: "2020-02-01" } } },
    });
    expect(moved(aStrike("e1"), 31)).toMatchObject({ on: "2026-04-01", body: { entry: "e1" } });
  });

  test("[RE-40] a tag or a note that looks like a day is left alone", () => {
    const tagged = anEntry("animal", { animal: hazel, sex: "doe", tag: "2020-01-01", name: "2020-01-02" });
    expect(moved(tagged, 9)).toMatchObject({ body: { tag: "2020-01-01", name: "2020-01-02" } });
    expect(moved(anEntry("note", { text: "2020-01-01" }), 9)).toMatchObject({ body: { text: "2020-01-01" } });
  });

  test("[RE-40] an entry too new to be understood is passed on as it came", () => {
    const tooNew: TooNewEntry = { id: "n1" as EntryId, tooNew: { v: 9, on: "2026-01-01" } };
    expect(movedDays([tooNew], 5)).toEqual([tooNew]);
  });

  test("[RE-40] every field that the schemas call a day is moved", () => {
    let seen = 0;
    for (const [kind, schema] of Object.entries(BODIES)) {
      const fields = Object.entries(schema.entries)
        .filter(([, field]) => isDay(field))
        .map(([name]) => name);
      const body = Object.fromEntries(fields.map((name) => [name, "2026-01-01"]));
      const entry = { ...anEntry("note", { text: "x" }), kind, body } as unknown as Entry;
      const after = Object.fromEntries(fields.map((name) => [name, "2026-01-02"]));
      expect(moved(entry, 1)).toMatchObject({ kind, body: after });
      seen += fields.length;
    }
    expect(seen).toBeGreaterThanOrEqual(3);
  });

  describe("laws", () => {
    const someDay = fc.integer({ min: -20_000, max: 20_000 }).map((n): Day => addDays(day("2026-03-01"), n));
    const someEntry = fc
      .tuple(someDay, someDay, someDay, fc.constantFrom("animal", "service", "replace", "strike"))
      .map(([on, written, inside, kind]): Entry => {
        const over = { on, at: `${written}T08:00:00.000Z-0000-barn` };
        const animal = { animal: hazel, sex: "doe", born: inside } as const;
        if (kind === "strike") return aStrike("e1", over);
        if (kind === "replace") return aReplacement("e1", { kind: "animal", on: inside, body: animal }, [], over);
        if (kind === "animal") return anEntry("animal", animal, over);
        return anEntry("service", { doe: hazel, bucks: [rook], way: "pen", until: inside }, over);
      });

    test("[RE-40] there and back again is where we began", () =>
      fc.assert(
        fc.property(fc.array(someEntry), fc.integer({ min: -9999, max: 9999 }), (entries, days) => {
          expect(movedDays(movedDays(entries, days), -days)).toEqual(entries);
        }),
      ));

    test("[RE-40] two moves are one move of their sum", () =>
      fc.assert(
        fc.property(fc.array(someEntry), fc.nat(5000), fc.nat(5000), (entries, a, b) => {
          expect(movedDays(movedDays(entries, a), b)).toEqual(movedDays(entries, a + b));
        }),
      ));
  });
});

/** Whether a field's schema is that of a day, bare or optional. */
function isDay(field: unknown): boolean {
  const { wrapped, pipe } = field as {
    readonly wrapped?: unknown;
    readonly pipe?: readonly { requirement?: unknown }[];
  };
  if (wrapped !== undefined) return isDay(wrapped);
  return (pipe ?? []).some(
    ({ requirement }) => requirement instanceof RegExp && requirement.source === "^\\d{4}-\\d{2}-\\d{2}$",
  );
}
