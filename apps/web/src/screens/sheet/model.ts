import { type CalendarItem, calendarText, sheetHtml, type SheetDocument } from "@pollard/advice";
import { type Day, parseDay, unreachable } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { FileToGive } from "../../adapters/files/give-file.ts";
import type { PrintedMark } from "../../adapters/database/idb-marks.ts";
import { weights } from "../../house/wording.ts";
import { season, sheets } from "../../house/wording-later.ts";
import type { SheetAsked, SheetMatter } from "../../worker/season-answers.ts";

export type Paper = SheetDocument["paper"];
export const PAPERS = ["A4", "Letter"] as const satisfies readonly Paper[];

/** What an address asks for; nothing where it names no sheet. */
export function sheetAsked(
  kind: string,
  about: string | undefined,
  notes: "show" | "keep-private",
): SheetAsked | undefined {
  switch (kind) {
    case "barn":
    case "gate":
      return { kind };
    case "vet": {
      const day = about === undefined ? undefined : parseDay(about);
      return day === undefined ? undefined : { kind, day };
    }
    case "kid":
      return about === undefined ? undefined : { kind, id: animalId(about), notes };
    default:
      return undefined;
  }
}

/** What a sheet is printed for. */
export interface SheetFor {
  readonly herdName: string;
  readonly today: Day;
  readonly paper: Paper;
  /** The list that was printed before, if one was. */
  readonly printed: PrintedMark | undefined;
}

/** The sheet, every word of it said. */
export function sheetDocument(matter: SheetMatter, { herdName, today, paper, printed }: SheetFor): SheetDocument {
  const context = { herdName, today, paper, units: weights.unit };
  switch (matter.kind) {
    case "barn":
      return sheets.barnCard(matter.model, context);
    case "gate":
      return sheets.gate(matter.model, context);
    case "kid":
      return sheets.kid(matter.model, context);
    case "vet":
      return sheets.vetList(matter.model, context, printed && parseDay(printed.at.slice(0, 10)));
    default:
      return unreachable(matter, "sheetDocument");
  }
}

/** A text as part of a file's name: no sign that any phone or computer stumbles over. */
function plainName(text: string): string {
  const plain = text
    .normalize("NFKD")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .toLowerCase();
  return plain === "" ? "herd" : plain;
}

/** The sheet as a file that any browser prints. */
export const sheetFile = (sheet: SheetDocument, today: Day): FileToGive => ({
  name: `pollard-${plainName(sheet.title)}-${today}.html`,
  type: "text/html",
  text: sheetHtml(sheet),
});

/** The season as a calendar file; given again, it updates what a calendar took in before. `now` is a moment in UTC. */
export function calendarFile(
  items: readonly CalendarItem[],
  of: { readonly herd: string; readonly herdName: string; readonly today: Day; readonly now: string },
): FileToGive {
  const entries = items.map((item) => ({ ...item, ...season.calendar(item, of.today) }));
  return {
    name: `pollard-${plainName(of.herdName)}-${of.today}.ics`,
    type: "text/calendar",
    text: calendarText(entries, {
      name: season.calendarName(of.herdName),
      herd: of.herd,
      at: `${of.now.slice(0, 19)}Z`,
    }),
  };
}

/** A sheet's page taken apart: its style rules, and the rest with each part's own style set aside as `data-css`. */
export interface SheetParts {
  readonly rules: string;
  readonly html: string;
}

/**
 * The page of a sheet without any style in its text, since the hub's policy lets no page take style from text.
 *
 * Assumes: the page is one of `sheetHtml`, where every text is escaped, so that a tag or a quote is one of its own.
 */
export function sheetParts(html: string): SheetParts {
  const [, rules = ""] = /<style>([\s\S]*?)<\/style>/.exec(html) ?? [];
  return { rules, html: html.replace(/<style>[\s\S]*?<\/style>/, "").replaceAll(' style="', ' data-css="') };
}

/** Millimetres of a sheet's width, by paper and how it is turned. */
const WIDTHS_MM = { A4: { upright: 210, sideways: 297 }, Letter: { upright: 215.9, sideways: 279.4 } } as const;
/** Pixels of a millimetre, as style sheets count. */
const PX_PER_MM = 96 / 25.4;

/** How wide a sheet is, in pixels of a style sheet. */
export const sheetWidth = ({ paper, turned }: Pick<SheetDocument, "paper" | "turned">): number =>
  Math.round(WIDTHS_MM[paper][turned] * PX_PER_MM);
