import type { CareGiven, KidPaperModel, PaperParent, SheetBlock, SheetDocument } from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { CareTaskCode } from "@pollard/husbandry";
import { type SheetContext, sheetOf, type SheetWords } from "./sheet.ts";

type Facts = readonly (readonly [string, string])[];

/** A line of facts; none where there is nothing to say. */
const fact = (name: string, value: string | undefined): Facts => (value === undefined ? [] : [[name, value]]);

function parentSaid({ ref, head, genotype }: PaperParent, { said, kid }: SheetWords): string {
  const tag = ref.tag === undefined || ref.name === undefined ? "" : ` (${ref.tag})`;
  return `${kid.parent(`${said.animal(ref)}${tag}`, kid.head[head])} ${said.genotype(genotype)}`;
}

function whoFacts(model: KidPaperModel, words: SheetWords): Facts {
  const { said, sex, kid } = words;
  const { goat, born, bornTogether, breed, dam, sires } = model;
  const names = kid.facts;
  return [
    ...fact(names.name, said.animal(goat)),
    ...fact(names.tag, goat.tag),
    ...fact(names.mark, goat.mark),
    ...fact(names.sex, sex[goat.sex]),
    ...fact(names.born, born && said.tableDay(born)),
    ...fact(names.bornTogether, bornTogether?.toString()),
    ...fact(names.breed, breed),
    ...fact(names.dam, dam && parentSaid(dam, words)),
    ...sires.flatMap((sire) => fact(sires.length === 1 ? names.sire : names.oneSire, parentSaid(sire, words))),
  ];
}

function hornFacts(model: KidPaperModel, { said, growHorns, kid }: SheetWords): Facts {
  const { head, disbudded, grewSeen, belief, genotype, grounds } = model;
  const names = kid.hornFacts;
  return [
    ...fact(names.head, kid.head[head]),
    ...fact(names.disbudded, disbudded && said.tableDay(disbudded)),
    ...fact(names.grewSeen, grewSeen && said.tableDay(grewSeen)),
    ...fact(names.kidsLikeIt, belief && growHorns(said.counted(belief.counted))),
    ...fact(names.genes, genotype === undefined ? kid.unread : said.genotype(genotype)),
    ...fact(names.knownFrom, grounds.map((ground) => kid.grounds[ground]).join("; ")),
  ];
}

function warningLines({ warnings, milkUntil, meatUntil }: KidPaperModel, { said, kid }: SheetWords): readonly string[] {
  const dayOf = (day: Day | undefined) => (day === undefined ? "" : said.tableDay(day));
  const until = { milk: dayOf(milkUntil), meat: dayOf(meatUntil) };
  return warnings.map((warning) => kid.warnings[warning](until));
}

function careSaid({ code, on, means }: CareGiven, { tasks }: SheetWords["said"]): string {
  const title = code in tasks ? tasks[code as CareTaskCode].title : code;
  return `${on}: ${title}${means === undefined ? "" : `, ${means}`}`;
}

/** A heading with its list; neither where there is nothing to list. */
function listed(heading: string, items: readonly string[], columns: 1 | 2): readonly SheetBlock[] {
  if (items.length === 0) return [];
  const list = { kind: "list", items, mark: "dot" } as const;
  return [{ kind: "heading", text: heading }, columns === 1 ? list : { ...list, columns }];
}

/** What a buyer is told of a goat. */
export function kidPaperSheet(model: KidPaperModel, words: SheetWords, context: SheetContext): SheetDocument {
  const { said, kid, guessed } = words;
  const warnings = warningLines(model, words);
  const spoken = said.weights(context.units);
  const weighings = model.weights.map(
    ({ kg, on, how }) => `${on}: ${spoken.said(kg)}${how === "guessed" ? `, ${guessed}` : ""}`,
  );
  return sheetOf(words, context, {
    title: kid.title(said.animal(model.goat)),
    blocks: [
      { kind: "facts", rows: whoFacts(model, words) },
      { kind: "heading", text: kid.horns },
      { kind: "facts", rows: hornFacts(model, words) },
      ...(warnings.length === 0 ? [] : [{ kind: "warning", lines: warnings } as const]),
      { kind: "heading", text: kid.notKnown },
      { kind: "list", items: model.gaps.map((gap) => kid.gaps[gap]), mark: "dot" },
      { kind: "heading", text: kid.care },
      model.care.length === 0
        ? { kind: "text", text: kid.noCare, weight: "plain" }
        : { kind: "list", items: model.care.map((given) => careSaid(given, said)), mark: "dot", columns: 2 },
      ...listed(kid.weights, weighings, 2),
      ...listed(
        kid.notes,
        model.notes.map(({ on, text }) => `${on}: ${text}`),
        1,
      ),
      { kind: "text", text: kid.chances, weight: "plain" },
      { kind: "lines", label: kid.signed, count: 2 },
    ],
  });
}
