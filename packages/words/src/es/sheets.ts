import { reviewSheetIn, sheetsIn } from "../sheets/sheets.ts";
import { sheetWords } from "./sheet-words.ts";

/* Marked as pure, so that a program which prints nothing leaves the sheets out. */
/** Todas las hojas en español, por aquello de que se hacen. */
export const sheets = /* @__PURE__ */ sheetsIn(sheetWords);

/** El repaso de la temporada en español. */
export const reviewSheet = /* @__PURE__ */ reviewSheetIn(sheetWords);
