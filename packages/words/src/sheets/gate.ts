import type { SheetDocument, VisitorsModel } from "@pollard/advice";
import { type SheetContext, sheetOf, type SheetWords } from "./sheet.ts";

/** Those whom kids could harm stand first and framed, whatever else the gate says. */
const FRAMED = ["pregnant-stay-away", "weak-immunity-ask-doctor"] as const satisfies VisitorsModel["cautions"];

/** The sheet for the gate: large, few words. */
export function gateSheet(model: VisitorsModel, words: SheetWords, context: SheetContext): SheetDocument {
  const { said, gate } = words;
  const { from, to, cautions } = model;
  const others = cautions.filter((code) => !FRAMED.some((framed) => framed === code));
  return sheetOf(words, context, {
    title: gate.title,
    print: "wall",
    blocks: [
      ...(from === undefined || to === undefined
        ? []
        : [{ kind: "text", text: gate.span(from, to), weight: "strong" } as const]),
      { kind: "warning", lines: FRAMED.map((code) => said.care.visitors(code)) },
      { kind: "list", mark: "dot", items: others.map((code) => said.care.visitors(code)) },
      { kind: "lines", label: gate.ring, count: 2 },
    ],
  });
}
