import type { Catalogue } from "../catalogue.ts";
import { AFTER_LOSS, CARE, care, VISITORS } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { notAHerd, sayFileProblem } from "./files.ts";
import { forecasts } from "./forecast.ts";
import { helpPages, sourceNames, terms } from "./help.ts";
import { loci } from "./loci.ts";
import { pairings } from "./pairings.ts";
import { reviews } from "./review.ts";
import { screens } from "./screens.ts";
import { season } from "./season.ts";
import { reviewSheet, sheets } from "./sheets.ts";
import { spanish } from "./spanish.ts";
import { weights } from "./weights.ts";

/** Todo en español: neutro, de usted, con las palabras del oficio (docs/GLOSSARY.md). */
export const spanishCatalogue: Catalogue = {
  language: "es",
  words: spanish,
  weights,
  screens,
  season,
  pairings,
  care,
  careTexts: { tasks: CARE, visitors: VISITORS, afterLoss: AFTER_LOSS, cautions: CAUTIONS },
  sheets,
  reviewSheet,
  forecasts,
  reviews,
  loci,
  files: { notAHerd, problem: sayFileProblem },
  help: { pages: helpPages, terms, sourceNames },
};
