import { AFTER_LOSS, CARE, VISITORS } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { notAHerd, sayFileProblem } from "./files.ts";
import { forecasts } from "./forecast.ts";
import { helpPages, sourceNames, terms } from "./help.ts";
import { pairings } from "./pairings.ts";
import { reviews } from "./review.ts";
import { season } from "./season.ts";
import { reviewSheet, sheets } from "./sheets.ts";

/** What is said in English besides `englishFirst`: on paper, at the desk, of the breeding and in the help. */
export const englishLater = {
  season,
  pairings,
  /** Texts of care that a test goes through by code. */
  careTexts: { tasks: CARE, visitors: VISITORS, afterLoss: AFTER_LOSS, cautions: CAUTIONS },
  sheets,
  reviewSheet,
  forecasts,
  reviews,
  files: { notAHerd, problem: sayFileProblem },
  help: { pages: helpPages, terms, sourceNames },
} as const;
