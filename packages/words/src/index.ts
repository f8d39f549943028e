// One wording for every answer
export { care } from "./en/care.ts";
export { english } from "./en/english.ts";
export { notAHerd, sayFileProblem } from "./en/files.ts";
export * from "./en/help.ts";
export { forecasts } from "./en/forecast.ts";
export * from "./en/loci.ts";
export { pairings } from "./en/pairings.ts";
export { reviews } from "./en/review.ts";
export { sheetOfReview } from "./en/review-sheet.ts";
export { screens } from "./en/screens.ts";
export { season } from "./en/season.ts";
export { type SheetContext, sheets } from "./en/sheets.ts";
export type { AdviceSaid, ProblemSaid, TaskSaid, Words } from "./words.ts";
