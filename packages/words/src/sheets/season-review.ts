import type { ReviewModel, SheetBlock, SheetDocument } from "@pollard/advice";
import { type SheetContext, sheetOf, type SheetWords } from "./sheet.ts";

/** Most lines of a list, so that the season stays on one side. */
const MOST = 8;

function section(heading: string, items: readonly string[], { more }: SheetWords["season"]): readonly SheetBlock[] {
  if (items.length === 0) return [];
  const hidden = items.length - MOST;
  const shown = hidden > 0 ? [...items.slice(0, MOST), more(hidden)] : items;
  return [
    { kind: "heading", text: heading },
    { kind: "list", items: shown, mark: "dot" },
  ];
}

/** A season on one side of paper: what came, what surprised, what it taught, and room for what to do otherwise. */
export function seasonReviewSheet(review: ReviewModel, words: SheetWords, context: SheetContext): SheetDocument {
  const { said, season } = words;
  const lines = said.season(review).map((text): SheetBlock => ({ kind: "text", text, weight: "plain" }));
  if (review.kind === "no-season") return sheetOf(words, context, { title: season.noSeason, blocks: lines });
  const { from, to, surprises, sires, learnt, readings } = review;
  const { scores, kids } = readings;
  const scored =
    scores === undefined
      ? []
      : [season.headsRead(kids), season.brier(scores.together.brier, scores.pedigreeAlone.brier), season.lowerIsBetter];
  const bySire = sires.map(({ buck, horned }) => said.seen(said.animal(buck), horned));
  return sheetOf(words, context, {
    title: season.title(to.slice(0, 4)),
    blocks: [
      { kind: "text", text: season.span(from, to, context.today), weight: "plain" },
      ...lines,
      ...section(season.surprises, surprises.map(said.surprise), season),
      ...section(season.bySire, bySire, season),
      ...section(season.taught, learnt.map(said.learnt), season),
      ...section(season.readings, scored, season),
      { kind: "lines", label: season.otherwise, count: 5 },
    ],
  });
}
