import { AFTER_LOSS, CARE, care, VISITORS } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { english } from "./english.ts";
import { notAHerd, sayFileProblem } from "./files.ts";
import { forecasts } from "./forecast.ts";
import { helpPages, sourceNames, terms } from "./help.ts";
import { loci } from "./loci.ts";
import { pairings } from "./pairings.ts";
import { reviews } from "./review.ts";
import { screens } from "./screens.ts";
import { season } from "./season.ts";
import { reviewSheet, sheets } from "./sheets.ts";
import { weights } from "./weights.ts";

/*
 * The measure for every other language. Here and in `first.ts` and `later.ts` nothing is read or spread, only named, so
 * that a program which says only part of it leaves the rest out.
 */
/** Everything in English. */
export const englishCatalogue = {
  language: "en",
  words: english,
  weights,
  screens,
  care,
  loci,
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
