import type { ReviewModel, SheetBlock, SheetDocument } from "@pollard/advice";
import { sayAnimal } from "./animals.ts";
import { sayDay } from "./days.ts";
import { sayLearnt, saySeason, saySeen, saySurprise } from "./review.ts";
import { type SheetContext, sheetOf } from "./sheets.ts";

/** Most lines of a list, so that the season stays on one side. */
const MOST = 8;

const section = (heading: string, items: readonly string[]): readonly SheetBlock[] => {
  if (items.length === 0) return [];
  const more = items.length - MOST;
  const shown = more > 0 ? [...items.slice(0, MOST), `And ${more} more.`] : items;
  return [
    { kind: "heading", text: heading },
    { kind: "list", items: shown, mark: "dot" },
  ];
};

/** A season on one side of paper: what came, what surprised, what it taught, and room for what to do otherwise. */
export function sheetOfReview(review: ReviewModel, context: SheetContext): SheetDocument {
  const lines = saySeason(review).map((text): SheetBlock => ({ kind: "text", text, weight: "plain" }));
  if (review.kind === "no-season") return sheetOf(context, { title: "The season", blocks: lines });
  const { today } = context;
  const { scores, kids } = review.readings;
  const readings =
    scores === undefined
      ? []
      : [
          `${kids} heads read and known since, over all seasons.`,
          `Brier score of the readings: ${scores.together.brier.toFixed(3)}. By the pedigree alone: ${scores.pedigreeAlone.brier.toFixed(3)}.`,
          "Lower is better: 0 is never wrong, 0.25 is tossing a coin.",
        ];
  return sheetOf(context, {
    title: `The season of ${review.to.slice(0, 4)}`,
    blocks: [
      { kind: "text", text: `From ${sayDay(review.from, today)} to ${sayDay(review.to, today)}.`, weight: "plain" },
      ...lines,
      ...section("Surprises", review.surprises.map(saySurprise)),
      ...section(
        "By sire",
        review.sires.map(({ buck, horned }) => saySeen(sayAnimal(buck), horned)),
      ),
      ...section("What it taught", review.learnt.map(sayLearnt)),
      ...section("Readings", readings),
      { kind: "lines", label: "What we do otherwise next year", count: 5 },
    ],
  });
}
