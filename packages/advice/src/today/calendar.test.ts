import { day } from "@pollard/base";
import type { Entry } from "@pollard/records";
import { anEntry, aStrike } from "@pollard/records/testing";
import fc from "fast-check";
import ICAL from "ical.js";
import nodeIcal from "node-ical";
import { describe, expect, test } from "vitest";
import { type CalendarEntry, calendarText } from "./calendar-text.ts";
import { calendarItems } from "./calendar.ts";
import { goat, kidding, reading, service, situation, HORNED_SIGNS } from "../testing.ts";

const FILE = { name: "Goats of Sallowbank", herd: "h1", at: "2026-03-18T06:30:00Z" };
const entry = (part: Partial<CalendarEntry> = {}): CalendarEntry => ({
  key: "due-ash-2025",
  from: day("2026-03-01"),
  to: day("2026-03-09"),
  title: "Ash is due to kid",
  note: "",
  state: "stands",
  ...part,
});

interface ReadEvent {
  readonly uid: string;
  readonly from: string;
  readonly to: string;
  readonly title: string;
  readonly note: string;
  readonly status: string;
}

/** The file as one program reads it; the end as written, the day after the last. */
function byIcalJs(text: string): readonly ReadEvent[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component);
    return {
      uid: event.uid,
      from: event.startDate.toString(),
      to: event.endDate.toString(),
      title: event.summary,
      note: event.description ?? "",
      status: String(component.getFirstPropertyValue("status")),
    };
  });
}

/** The same as another program reads it. */
function byNodeIcal(text: string): readonly ReadEvent[] {
  const two = (n: number) => String(n).padStart(2, "0");
  const said = (value: unknown): string =>
    typeof value === "string"
      ? value
      : typeof value === "object" && value !== null && "val" in value
        ? said(value.val)
        : "";
  const dayText = (date: Date) => `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return Object.values(nodeIcal.sync.parseICS(text)).flatMap((event) => {
    if (event?.type !== "VEVENT") return [];
    const { uid, start, end, summary, description, status } = event;
    expect(event.datetype).toBe("date");
    return [
      {
        uid,
        from: dayText(start),
        to: end === undefined ? "" : dayText(end),
        title: said(summary),
        note: said(description),
        status: said(status),
      },
    ];
  });
}

/** Octets in UTF-8, counted by another way than the code's. */
const octets = (line: string) => encodeURIComponent(line).replaceAll(/%[0-9A-F]{2}/g, "x").length;

describe("the calendar file", () => {
  test("[AD-42] two programs read it alike: whole days, the end one day later", () => {
    const text = calendarText([entry()], FILE);
    const expected = {
      uid: "due-ash-2025@h1.pollard",
      from: "2026-03-01",
      to: "2026-03-10",
      title: "Ash is due to kid",
      note: "",
      status: "CONFIRMED",
    };
    expect(byIcalJs(text)).toEqual([expected]);
    expect(byNodeIcal(text)).toEqual([expected]);
  });

  test("[AD-42] nothing to say is still a calendar", () => {
    expect(byIcalJs(calendarText([], FILE))).toEqual([]);
  });

  test("[AD-44] exported again the keys stay, the numbers rise, what is settled is cancelled", () => {
    const first = calendarText([entry()], FILE);
    const second = calendarText([entry({ to: day("2026-03-11"), state: "cancelled" })], {
      ...FILE,
      at: "2026-03-18T06:31:00Z",
    });
    const number = (text: string) => Number(/SEQUENCE:(\d+)/.exec(text)?.[1]);
    expect(byIcalJs(second)[0]).toMatchObject({ uid: byIcalJs(first)[0]?.uid, to: "2026-03-12", status: "CANCELLED" });
    expect(number(second)).toBe(number(first) + 1);
    expect(number(calendarText([], { ...FILE }))).toBeNaN();
  });

  test("[AD-42] a moment that is none, and an end before its start, are our own mistakes", () => {
    expect(() => calendarText([], { ...FILE, at: "today" })).toThrow(/not a moment/);
    expect(() => calendarText([entry({ to: day("2026-02-01") })], FILE)).toThrow(/ends before/);
  });

  describe("laws", () => {
    const someText = fc.oneof(
      fc.string({ unit: "grapheme", maxLength: 120 }),
      fc.constantFrom("Ash; Elm, Oak\\", "zwei\nZeilen", "Ziege 🐐 ".repeat(12), "é".repeat(80), "\u0007bell"),
    );

    test("[AD-42] any text comes back; every line ends in CR LF and has at most 75 octets", () => {
      fc.assert(
        fc.property(someText, someText, (title, note) => {
          const text = calendarText([entry({ title, note })], FILE);
          const lines = text.split("\r\n");
          expect(lines.at(-1)).toBe("");
          for (const line of lines) {
            expect(octets(line)).toBeLessThanOrEqual(75);
            expect(line).not.toMatch(/[\r\n]/);
          }
          const [read] = byIcalJs(text);
          const kept = (s: string) =>
            Array.from(s.replaceAll(/\r\n?/g, "\n"))
              .filter((c) => c === "\n" || c === "\t" || (c >= " " && c !== "\u007f"))
              .join("");
          expect(read?.title).toBe(kept(title));
          if (kept(note) !== "") expect(read?.note).toBe(kept(note));
        }),
        { numRuns: 100 },
      );
    });
  });

  describe("published", () => {
    test("[AD-42] a folded line unfolds to what it was, as RFC 5545 3.1 has it", () => {
      const title = "This is a long description that exists on a long line, and then goes on and on and on.";
      const text = calendarText([entry({ title })], FILE);
      expect(text).toMatch(/SUMMARY:[^\r]*\r\n [^\r]*/);
      expect(text.replaceAll("\r\n ", "")).toContain(`SUMMARY:${title.replaceAll(",", "\\,")}`);
    });

    test("[AD-42] text is escaped as in RFC 5545 3.3.11", () => {
      // The standard's own example: "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
      const note = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
      const text = calendarText([entry({ note })], FILE).replaceAll("\r\n ", "");
      expect(text).toContain("DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");
    });
  });
});

describe("what stands in the calendar", () => {
  const herd = [goat("Ash", "doe"), goat("Rook", "buck"), service("Ash", ["Rook"], "2025-10-05")];
  const visit = anEntry("vet-day", { vet: "Dr Okafor" }, { on: "2026-03-12" });
  const items = (today: string, ...more: readonly Entry[]) =>
    calendarItems(situation([...herd, ...more], today)).map((i) => `${i.matter.kind} ${i.key} ${i.from} ${i.state}`);

  test("[AD-43] a doe's days, the vet's day, care in its time", () => {
    const found = items("2026-01-20", visit);
    expect(found).toContain("due due-Ash-2025 2026-02-28 stands");
    expect(found.some((i) => i.startsWith("vet ") && i.endsWith("2026-03-12 stands"))).toBe(true);
    expect(found.some((i) => i.includes("care-dam-booster-Ash-2026"))).toBe(true);
  });

  test("[AD-44] once she has kidded her days are cancelled, and the kid's head is to be looked at", () => {
    const born = kidding("Ash", "2026-03-04", { Moss: "doe" }, ["Rook"]);
    const found = items("2026-03-05", born);
    expect(found).toContain("due due-Ash-2025 2026-03-04 cancelled");
    expect(found.some((i) => i.startsWith("look look-Moss") && i.endsWith("stands"))).toBe(true);
    const read = reading("Moss", "2026-03-09", HORNED_SIGNS);
    expect(items("2026-03-09", born, read).some((i) => i.startsWith("look look-Moss") && i.endsWith("cancelled"))).toBe(
      true,
    );
  });

  test("[AD-44] a visit that was called off is cancelled under its key", () => {
    const found = items("2026-03-01", visit, aStrike(visit.id));
    expect(found).toContain(`vet vet-${visit.id} 2026-03-12 cancelled`);
  });
});
