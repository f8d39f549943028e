import type { ReviewModel, SheetBlock, SheetDocument } from "@pollard/advice";
import type { SheetContext } from "../en/sheets.ts";
import { sayAnimal } from "./animals.ts";
import { al, del, sayDay } from "./days.ts";
import { decimal, opening } from "./numbers.ts";
import { sayLearnt, saySeason, saySeen, saySurprise } from "./review.ts";
import { sheetOf } from "./sheets.ts";

/** Líneas de una lista como máximo, para que la temporada quepa en una cara. */
const MOST = 8;

const section = (heading: string, items: readonly string[]): readonly SheetBlock[] => {
  if (items.length === 0) return [];
  const more = items.length - MOST;
  const shown = more > 0 ? [...items.slice(0, MOST), `Y ${more} más.`] : items;
  return [
    { kind: "heading", text: heading },
    { kind: "list", items: shown, mark: "dot" },
  ];
};

/** Una temporada en una cara de papel. */
export function sheetOfReview(review: ReviewModel, context: SheetContext): SheetDocument {
  const lines = saySeason(review).map((text): SheetBlock => ({ kind: "text", text, weight: "plain" }));
  if (review.kind === "no-season") return sheetOf(context, { title: "La temporada", blocks: lines });
  const { today } = context;
  const { scores, kids } = review.readings;
  const readings =
    scores === undefined
      ? []
      : [
          `${kids} cabezas leídas y conocidas, en todas las temporadas.`,
          `Puntuación de Brier de las lecturas: ${decimal(scores.together.brier, 3)}. Solo por la familia: ${decimal(scores.pedigreeAlone.brier, 3)}.`,
          "Menos es mejor: 0 es no errar nunca, 0,25 es tirar una moneda.",
        ];
  return sheetOf(context, {
    title: `La temporada de ${review.to.slice(0, 4)}`,
    blocks: [
      {
        kind: "text",
        text: `${opening(del(sayDay(review.from, today)))} ${al(sayDay(review.to, today))}.`,
        weight: "plain",
      },
      ...lines,
      ...section("Sorpresas", review.surprises.map(saySurprise)),
      ...section(
        "Por padre",
        review.sires.map(({ buck, horned }) => saySeen(sayAnimal(buck), horned)),
      ),
      ...section("Lo que enseñó", review.learnt.map(sayLearnt)),
      ...section("Lecturas", readings),
      { kind: "lines", label: "Lo que haremos distinto el año próximo", count: 5 },
    ],
  });
}
