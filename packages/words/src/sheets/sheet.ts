import type { SheetDocument } from "@pollard/advice";
import type { Day, WeightUnit } from "@pollard/base";
import type { sheetWords } from "../en/sheet-words.ts";
import type { AnyWording } from "../wording.ts";

/** What a sheet is printed for. */
export interface SheetContext {
  readonly herdName: string | undefined;
  readonly today: Day;
  readonly paper: SheetDocument["paper"];
  /** In what weights are said; the vet is told kilograms as well. */
  readonly units: WeightUnit;
}

/** Every word on the sheets in one language: the same places as in English. */
export type SheetWords = AnyWording<typeof sheetWords>;

/** A sheet of this herd, as of today, upright and for the table unless said otherwise. */
export const sheetOf = (
  { language, asOf, page }: SheetWords,
  { herdName, today, paper }: SheetContext,
  part: Pick<SheetDocument, "title" | "blocks"> & Partial<Pick<SheetDocument, "turned" | "print">>,
): SheetDocument => ({
  language,
  herd: herdName ?? "",
  asOf: asOf(today),
  paper,
  turned: "upright",
  print: "table",
  page,
  ...part,
});
