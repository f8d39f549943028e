import { type CalendarItem, type SheetDocument, sheetHtml } from "@pollard/advice";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readPaper, writePaper } from "../../adapters/own-settings/paper.ts";
import { calendarFile, sheetAsked, sheetDocument, sheetFile, sheetParts, sheetWidth } from "./model.ts";

const today = day("2026-03-14");
const of = { herdName: "Sallow & bank", today, paper: "A4", printed: undefined } as const;
const barn: SheetDocument = sheetDocument(
  { kind: "barn", model: { today, herdName: "Sallow & bank", due: [], heads: [] } },
  of,
);
const visit: CalendarItem = {
  key: "vet-1",
  from: today,
  to: today,
  matter: { kind: "vet", vet: "Dr Quillan" },
  state: "stands",
};

describe("sheets and the calendar file", () => {
  test("[UI-70] an address that names no sheet asks for none; notes stay private unless ticked", () => {
    expect(sheetAsked("barn", undefined, "keep-private")).toEqual({ kind: "barn" });
    expect(sheetAsked("vet", "2026-03-16", "keep-private")).toEqual({ kind: "vet", day: "2026-03-16" });
    expect(sheetAsked("kid", "pip", "keep-private")).toEqual({
      kind: "kid",
      id: animalId("pip"),
      notes: "keep-private",
    });
    expect([
      sheetAsked("vet", "tomorrow", "show"),
      sheetAsked("kid", undefined, "show"),
      sheetAsked("milk", undefined, "show"),
    ]).toEqual([undefined, undefined, undefined]);
  });

  test("[UI-70] a sheet kept as a file is the very page that prints, under a name any computer takes", () => {
    const file = sheetFile({ ...barn, title: "Paper of Öde/7" }, today);
    expect(file.name).toBe("pollard-paper-of-o-de-7-2026-03-14.html");
    expect(file.text).toBe(sheetHtml({ ...barn, title: "Paper of Öde/7" }));
    expect(file.text).toContain("Sallow &amp; bank");
  });

  test("[UI-70] a sheet taken apart keeps its rules and widths, whatever it says", () => {
    const { rules, html } = sheetParts(sheetHtml({ ...barn, title: '<style>x</style> style="y"' }));
    expect(rules).toContain("@page");
    expect(html).not.toContain("<style");
    expect(html).not.toContain(' style="');
    expect(html).toContain('<col data-css="width:33mm">');
    expect(html).toContain("&lt;style&gt;x&lt;/style&gt; style=&quot;y&quot;");
  });

  test("[UI-70] the preview is as wide as the paper: 210 mm is 794 px, Letter sideways 1056 px", () => {
    expect(sheetWidth({ paper: "A4", turned: "upright" })).toBe(794);
    expect(sheetWidth({ paper: "Letter", turned: "sideways" })).toBe(1056);
  });

  test("[UI-70] the house's paper is remembered; a damaged note is A4", () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    };
    expect(readPaper(storage)).toBe("A4");
    writePaper(storage, "Letter");
    expect(readPaper(storage)).toBe("Letter");
    kept.set("pollard-paper", "parchment");
    expect(readPaper(storage)).toBe("A4");
  });

  test("[UI-71] the calendar file has one event for each thing, the same name for it in every export", () => {
    const give = (now: string) => calendarFile([visit], { herd: "h-1", herdName: "Sallowbank", today, now });
    const [first, again] = [give("2026-03-14T08:00:00.123Z"), give("2026-03-15T08:00:00.999Z")];
    expect(first.name).toBe("pollard-sallowbank-2026-03-14.ics");
    const uid = (text: string) => /\r\nUID:([^\r]+)/.exec(text)?.[1];
    expect(uid(first.text)).toBeDefined();
    expect(uid(first.text)).toBe(uid(again.text));
    expect(first.text).toContain("DTSTART;VALUE=DATE:20260314");
    expect(first.text).toContain("The vet comes: Dr Quillan");
    expect(first.text.match(/BEGIN:VEVENT/g)).toHaveLength(1);
  });

  describe("laws", () => {
    test("[UI-70] whatever a herd or a goat is called, the file's name holds letters, digits and dashes only", () => {
      fc.assert(
        fc.property(fc.string({ unit: "grapheme" }), (title) => {
          expect(sheetFile({ ...barn, title }, today).name).toMatch(/^pollard-[\p{L}\p{N}-]+-2026-03-14\.html$/u);
        }),
      );
    });
  });
});
