import { AFTER_LOSS, CARE, care, VISITORS } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { english } from "./english.ts";
import { notAHerd, sayFileProblem } from "./files.ts";
import { forecasts } from "./forecast.ts";
import { helpPages, sourceNames, terms } from "./help.ts";
import { loci } from "./loci.ts";
import { pairings } from "./pairings.ts";
import { reviews } from "./review.ts";
import { sheetOfReview } from "./review-sheet.ts";
import { screens } from "./screens.ts";
import { season } from "./season.ts";
import { sheets } from "./sheets.ts";

/** Everything in English: the measure for every other language. */
export const englishCatalogue = {
  language: "en",
  words: english,
  screens,
  season,
  pairings,
  care,
  /** Texts of care that a test goes through by code. */
  careTexts: { tasks: CARE, visitors: VISITORS, afterLoss: AFTER_LOSS, cautions: CAUTIONS },
  sheets: { ...sheets, review: sheetOfReview },
  forecasts,
  reviews,
  loci,
  files: { notAHerd, problem: sayFileProblem },
  help: { pages: helpPages, terms, sourceNames },
} as const;
