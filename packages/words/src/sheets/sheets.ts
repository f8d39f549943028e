import type {
  BarnCardModel,
  KidPaperModel,
  ReviewModel,
  SheetDocument,
  VetListModel,
  VisitorsModel,
} from "@pollard/advice";
import type { Day } from "@pollard/base";
import { barnCardSheet } from "./barn-card.ts";
import { gateSheet } from "./gate.ts";
import { kidPaperSheet } from "./kid-paper.ts";
import { seasonReviewSheet } from "./season-review.ts";
import type { SheetContext, SheetWords } from "./sheet.ts";
import { vetListSheet } from "./vet-list.ts";

/** Every sheet of one language, by what it is made of; the season's is `reviewSheetIn`. */
export const sheetsIn = (words: SheetWords) => ({
  vetList: (model: VetListModel, context: SheetContext, printedOn?: Day): SheetDocument =>
    vetListSheet(model, words, { ...context, printedOn }),
  gate: (model: VisitorsModel, context: SheetContext): SheetDocument => gateSheet(model, words, context),
  barnCard: (model: BarnCardModel, context: SheetContext): SheetDocument => barnCardSheet(model, words, context),
  kid: (model: KidPaperModel, context: SheetContext): SheetDocument => kidPaperSheet(model, words, context),
  /** What each sheet is, where one is chosen. */
  kinds: words.kinds,
});

/** The season's review on paper in one language. */
export const reviewSheetIn =
  (words: SheetWords) =>
  (review: ReviewModel, context: SheetContext): SheetDocument =>
    seasonReviewSheet(review, words, context);
