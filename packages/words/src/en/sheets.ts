import { reviewSheetIn, sheetsIn } from "../sheets/sheets.ts";
import { sheetWords } from "./sheet-words.ts";

/* Marked as pure, so that a program which prints nothing leaves the sheets out. */
/** Every sheet in English, by what it is made of. */
export const sheets = /* @__PURE__ */ sheetsIn(sheetWords);

/** The season's review in English. */
export const reviewSheet = /* @__PURE__ */ reviewSheetIn(sheetWords);
