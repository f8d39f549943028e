import { addDays, Bug, type Day, day, daysFrom } from "@pollard/base";

/** One entry of a calendar: whole days, first and last included. */
export interface CalendarEntry {
  /** Names the same thing in every export, so that a calendar puts the new in the place of the old. */
  readonly key: string;
  readonly from: Day;
  readonly to: Day;
  readonly title: string;
  readonly note: string;
  /** `cancelled`: no longer so; a calendar takes it out. */
  readonly state: "stands" | "cancelled";
}

/** What the file as a whole needs to know. */
export interface CalendarFile {
  readonly name: string;
  /** The herd's id: keys are unique within it. */
  readonly herd: string;
  /** The moment of the export in UTC, `YYYY-MM-DDTHH:MM:SSZ`. */
  readonly at: string;
}

const MOMENT = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2}):(\d{2})Z$/;
/** Longest line in octets, without its break. */
const LINE_OCTETS = 75;
/** Day from which the numbers of later versions count; any will do that lies before the first export. */
const FIRST_DAY = "2020-01-01";

/**
 * The entries as a calendar file that every calendar program reads.
 *
 * Whole days (`VALUE=DATE`), with the end one day later as the format has it; lines of at most 75 octets, folded between
 * characters; the same `UID` for the same key, and a `SEQUENCE` that rises with the moment of the export, so that importing
 * again updates.
 *
 * Errors:  Bug where `at` is no moment, or an entry ends before it starts.
 * Source:  [rfc5545] 3.1 lines, 3.3.11 text, 3.6.1 events, 3.8.7 changes; rules AD-42 to AD-44.
 */
export function calendarText(entries: readonly CalendarEntry[], { name, herd, at }: CalendarFile): string {
  const moment = MOMENT.exec(at);
  if (moment === null) throw new Bug(`calendar: not a moment: ${at}`);
  const [, date = "", hours, minutes] = moment;
  const sequence = daysFrom(day(FIRST_DAY), day(date)) * 1440 + Number(hours) * 60 + Number(minutes);
  const stamp = at.replaceAll(/[-:]/g, "");
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Pollard//Season//EN",
    "CALSCALE:GREGORIAN",
    "METHOD:PUBLISH",
    `X-WR-CALNAME:${escaped(name)}`,
    ...entries.flatMap((entry) => eventLines(entry, { herd, stamp, sequence })),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

function eventLines(
  { key, from, to, title, note, state }: CalendarEntry,
  { herd, stamp, sequence }: { readonly herd: string; readonly stamp: string; readonly sequence: number },
): readonly string[] {
  if (to < from) throw new Bug(`calendar: ${key} ends before it starts`);
  return [
    "BEGIN:VEVENT",
    `UID:${escaped(`${key}@${herd}.pollard`)}`,
    `DTSTAMP:${stamp}`,
    `LAST-MODIFIED:${stamp}`,
    `SEQUENCE:${sequence}`,
    `DTSTART;VALUE=DATE:${from.replaceAll("-", "")}`,
    `DTEND;VALUE=DATE:${addDays(to, 1).replaceAll("-", "")}`,
    `SUMMARY:${escaped(title)}`,
    ...(note === "" ? [] : [`DESCRIPTION:${escaped(note)}`]),
    `STATUS:${state === "cancelled" ? "CANCELLED" : "CONFIRMED"}`,
    "TRANSP:TRANSPARENT",
    "END:VEVENT",
  ];
}

/** A text as a value: what has a meaning of its own is escaped, what no calendar can hold is left out. */
function escaped(text: string): string {
  return Array.from(text.replaceAll(/\r\n?/g, "\n"))
    .map((character) => {
      if (character === "\n") return "\\n";
      if (character === "\\" || character === ";" || character === ",") return `\\${character}`;
      const code = character.codePointAt(0) ?? 0;
      if ((code < 0x20 && character !== "\t") || code === 0x7f) return "";
      return code >= 0xd800 && code <= 0xdfff ? "\ufffd" : character; // half a character
    })
    .join("");
}

/** How many octets a character takes in UTF-8. */
function octetsOf(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

/** A line in pieces of at most 75 octets, each further one after a break and a blank; never cut inside a character. */
function folded(line: string): string {
  let out = "";
  let octets = 0;
  for (const character of line) {
    const more = octetsOf(character);
    if (octets + more > LINE_OCTETS) {
      out += "\r\n ";
      octets = 1;
    }
    out += character;
    octets += more;
  }
  return out;
}
