import type {
  BarnCardModel,
  CareGiven,
  KidPaperModel,
  PaperGap,
  PaperGround,
  PaperHead,
  PaperParent,
  PaperWarning,
  SheetBlock,
  SheetDocument,
  VetListLine,
  VetListModel,
  VisitorsModel,
} from "@pollard/advice";
import type { Day, WeightUnit } from "@pollard/base";
import type { CareTaskCode } from "@pollard/husbandry";
import type { WeightWords } from "../weights.ts";
import { sayAnimal, sayGenotype } from "./animals.ts";
import { CARE, care } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { sayCounted } from "./chances.ts";
import { sayDays } from "./days.ts";
import { signWords } from "./screens-capture.ts";
import { sayTableDay } from "./season.ts";
import { weights } from "./weights.ts";

/** What a sheet is printed for. */
export interface SheetContext {
  readonly herdName: string | undefined;
  readonly today: Day;
  readonly paper: SheetDocument["paper"];
  /** In what weights are said; the vet is told kilograms as well. */
  readonly units: WeightUnit;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** A day in a narrow column: "14 Nov", never broken over two lines. */
const sayShortDay = (day: Day): string => `${Number(day.slice(8))}\u00a0${MONTHS[Number(day.slice(5, 7)) - 1] ?? ""}`;

const SEX: Readonly<Record<string, string>> = {
  doe: "doe",
  buck: "buck",
  wether: "wether",
  intersex: "intersex",
  unsure: "not sure",
};

/** A sheet of this herd, as of today, upright and for the table unless said otherwise. */
export const sheetOf = (
  { herdName, today, paper }: SheetContext,
  part: Pick<SheetDocument, "title" | "blocks"> & Partial<Pick<SheetDocument, "turned" | "print">>,
): SheetDocument => ({
  language: "en",
  herd: herdName ?? "",
  asOf: `as of ${sayTableDay(today)}`,
  paper,
  turned: "upright",
  print: "table",
  page: { page: "Page", of: "of", sheet: "Sheet" },
  ...part,
});

/** Name, sex and dam; tag or mark below. */
function kidSaid({ kid, dam }: VetListLine): string {
  const below = [kid.name === undefined ? undefined : kid.tag, kid.mark].filter((part) => part !== undefined);
  const of = dam === undefined || kid.damName === undefined || kid.name === undefined ? "" : `, of ${sayAnimal(dam)}`;
  const first = `${sayAnimal(kid)}, ${SEX[kid.sex] ?? ""}${of}`;
  return below.length === 0 ? first : `${first}\n${below.join(", ")}`;
}

function ageSaid({ born, ageOnDay, daysFromDueOnDay: due }: VetListLine): string {
  const early =
    due === undefined || due === ageOnDay
      ? ""
      : `\n${due < 0 ? `due in ${sayDays(-due)}` : `${sayDays(due)} from due`}`;
  return `${sayDays(ageOnDay)}\nborn ${sayShortDay(born)}${early}`;
}

function weightSaid({ weight, expectedKg, growth }: VetListLine, forVet: WeightWords["forVet"]): string {
  if (weight === undefined) return "never weighed";
  const how = weight.how === "guessed" ? " guessed" : "";
  const losing = growth === "losing" || growth === "slow" ? `\n${care.growth(growth)}` : "";
  const expected = expectedKg === undefined ? "" : `\non the day ${forVet.between(expectedKg)}`;
  return `${forVet.said(weight.kg)}${how} (${sayShortDay(weight.on)})${expected}${losing}`;
}

function headSaid({ belief, end }: VetListLine): string {
  const until = `\nwindow ends ${sayShortDay(end)}`;
  if (belief === undefined) return `not read${until}`;
  const by = belief.readers.length === 0 ? "" : `\nread by ${belief.readers.join(", ")}`;
  return `${sayCounted(belief.counted)} grow horns${by}${until}`;
}

function coverSaid({ tetanus, colostrum }: VetListLine): string {
  const dam = tetanus.damBooster === undefined ? "dam: not on record" : `dam: ${sayShortDay(tetanus.damBooster)}`;
  const kid = tetanus.kid === undefined ? "" : `\nkid: ${sayShortDay(tetanus.kid)}`;
  return `${dam}${kid}\ncolostrum: ${colostrum === "given" ? "yes" : "not on record"}`;
}

/** In what a weight was read off, to be ticked: a figure without its unit could hurt. */
const UNIT_BOXES = "□\u00a0kg\n□\u00a0lb";

/** What the vet did, to be ticked. */
const DONE_BOXES = "□\u00a0left □\u00a0right\n□\u00a0not done";

/** The vet's list of a day. `printedOn`: the day of a list printed before; who came since is marked as new. */
function sheetOfVetList(model: VetListModel, context: SheetContext, printedOn?: Day): SheetDocument {
  const spoken = weights(context.units);
  const weighedThen = context.units === "kg" ? "" : UNIT_BOXES;
  const row = (line: VetListLine): readonly string[] => [
    `${printedOn !== undefined && line.since > printedOn ? "NEW " : ""}${kidSaid(line)}`,
    ageSaid(line),
    weightSaid(line, spoken.forVet),
    headSaid(line),
    coverSaid(line),
    line.notes.join("\n"),
    weighedThen,
    DONE_BOXES,
  ];
  const columns = [
    { title: "Kid", mm: 50 },
    { title: "Age that day", mm: 22 },
    { title: "Weight", mm: 42 },
    { title: "Head", mm: 42 },
    { title: "Tetanus, colostrum", mm: 36 },
    { title: "Health, remarks" },
    context.units === "kg" ? { title: "kg today", mm: 15 } : { title: "Weight today", mm: 20 },
    { title: "Done", mm: 26 },
  ];
  const added = [0, 1].map(() => [...columns.slice(2).map(() => ""), weighedThen, DONE_BOXES]);
  const looks = model.lookFirst.map(
    (line) => `${sayAnimal(line.kid)}: ${line.why === "unread" ? "not read yet" : "undecided"}`,
  );
  return sheetOf(context, {
    title: `Vet's list, ${sayTableDay(model.day)}`,
    turned: "sideways",
    print: "close",
    blocks: [
      ...(model.vet === undefined ? [] : [{ kind: "text", text: model.vet, weight: "strong" } as const]),
      ...(model.list.length === 0
        ? [{ kind: "text", text: "Nobody is on the list yet.", weight: "plain" } as const]
        : []),
      { kind: "table", columns, rows: [...model.list.map(row), ...added], empty: 0, tall: "writing" },
      ...(looks.length === 0
        ? []
        : [
            { kind: "heading", text: "Look at these heads before the vet goes" } as const,
            { kind: "list", items: looks, mark: "box", columns: 2 } as const,
          ]),
      { kind: "list", items: model.cautions.map((code) => CAUTIONS[code]), mark: "dot", columns: 2 },
      { kind: "lines", label: "What the vet said; days of withdrawal for milk and meat", count: 2 },
    ],
  });
}

/** The sheet for the gate: large, few words. */
function sheetOfGate(model: VisitorsModel, context: SheetContext): SheetDocument {
  const { from, to } = model;
  const span = from === undefined || to === undefined ? "" : `${sayTableDay(from)} to ${sayTableDay(to)}`;
  return sheetOf(context, {
    title: "Kids are being born",
    print: "wall",
    blocks: [
      ...(span === "" ? [] : [{ kind: "text", text: span, weight: "strong" } as const]),
      { kind: "warning", lines: [care.visitors("pregnant-stay-away"), care.visitors("weak-immunity-ask-doctor")] },
      {
        kind: "list",
        mark: "dot",
        items: model.cautions
          .filter((code) => code !== "pregnant-stay-away" && code !== "weak-immunity-ask-doctor")
          .map((code) => care.visitors(code)),
      },
      { kind: "lines", label: "Ring us before you come in", count: 2 },
    ],
  });
}

/** Rows for heads that fit below the kiddings. */
const HEAD_ROWS = 4;

/** The blank card for the barn. */
function sheetOfBarnCard(model: BarnCardModel, context: SheetContext): SheetDocument {
  const boxes = (answers: Readonly<Record<string, string>>) =>
    Object.values(answers)
      .map((answer) => `□ ${answer}`)
      .join("\n");
  const born: SheetBlock = {
    kind: "table",
    tall: "writing",
    columns: [
      { title: "Dam", mm: 36 },
      { title: "Day, time", mm: 20 },
      { title: "Doe, buck, unsure", mm: 22 },
      { title: "Alive, dead", mm: 15 },
      { title: "Tag or mark", mm: 24 },
      { title: context.units, mm: 13 },
      { title: "Navel", mm: 13 },
      { title: "First milk, time", mm: 19 },
      { title: "Remarks" },
    ],
    rows: model.due.map(({ doe, from, to }) => [`${sayAnimal(doe)}\n${sayShortDay(from)} to ${sayShortDay(to)}`]),
    empty: Math.max(2, 8 - model.due.length),
  };
  const head = [
    "",
    "",
    boxes(signWords.feel.answers),
    boxes(signWords.skin.answers),
    boxes(signWords.whorls.answers),
    boxes(signWords.crown.answers),
    "",
  ];
  const heads: SheetBlock = {
    kind: "table",
    tall: "print",
    columns: [
      { title: "Kid", mm: 26 },
      { title: "Day", mm: 13 },
      { title: signWords.feel.name, mm: 34 },
      { title: signWords.skin.name, mm: 33 },
      { title: signWords.whorls.name, mm: 30 },
      { title: signWords.crown.name, mm: 34 },
      { title: "By" },
    ],
    rows: Array.from({ length: HEAD_ROWS }, (_, i) => {
      const kid = model.heads[i];
      return [kid === undefined ? "" : sayAnimal(kid), ...head.slice(1)];
    }),
  };
  return sheetOf(context, {
    title: "Barn card",
    blocks: [
      { kind: "text", text: "Write here, type it in later. A line for each kid.", weight: "plain" },
      born,
      { kind: "heading", text: "Heads: from day 2 a buckling, from day 3 a doeling" },
      { kind: "text", text: "Tick what you feel and see. Leave open what you did not look at.", weight: "plain" },
      heads,
      { kind: "lines", label: "Notes", count: 1 },
    ],
  });
}

const HEAD: Readonly<Record<PaperHead, string>> = {
  horned: "horned",
  polled: "hornless by birth, as it grew",
  scurred: "scurred",
  disbudded: "disbudded",
  regrown: "disbudded, and a scur grew back",
  "not-seen": "not confirmed yet",
};

const GROUND: Readonly<Record<PaperGround, string>> = {
  "dna-test": "a DNA test",
  "what-grew": "what grew, seen weeks later",
  "vet-found": "what the vet found at disbudding",
  "head-reading": "its head, read in its first days",
  record: "the record it came with",
  family: "its parents and relatives",
};

const GAP: Readonly<Record<PaperGap, string>> = {
  "sire-not-certain": "Which buck is the sire is not certain.",
  "sire-not-recorded": "The sire is not on record.",
  "dam-not-recorded": "The dam is not on record.",
  "birth-not-recorded": "The day of birth is not on record.",
  "genotype-not-tested": "No DNA test of its horn genes was made.",
  "head-not-confirmed": "What grows at three months was not seen yet.",
  "intersex-not-ruled-out": "Intersex was not ruled out by a vet or a test.",
  "dam-booster-not-recorded": "No booster of the dam before the birth is on record.",
  "colostrum-not-recorded": "Its first milk is not on record.",
  "vaccination-not-recorded": "No vaccination is on record.",
  "herd-tests-not-recorded": "Herd tests (CAE, CL, Johne's) are not kept here. Ask for the laboratory's papers.",
};

function warningSaid(warning: PaperWarning, { milkUntil, meatUntil }: KidPaperModel): string {
  switch (warning) {
    case "never-two-polled":
      return "Never breed two polled goats together: some of their kids are intersex and sterile.";
    case "not-for-breeding-yet":
      return "Not for breeding before a vet or a DNA test has ruled out intersex.";
    case "watch-for-regrowth":
      return "Disbudded: look for scurs. A scur here is regrowth and says nothing of its genes.";
    case "milk-held-back":
      return `Milk is held back to ${milkUntil === undefined ? "" : sayTableDay(milkUntil)}, by the vet's word.`;
    case "meat-held-back":
      return `Meat is held back to ${meatUntil === undefined ? "" : sayTableDay(meatUntil)}, by the vet's word.`;
  }
}

const parentSaid = ({ ref, head, genotype }: PaperParent): string => {
  const tag = ref.tag === undefined || ref.name === undefined ? "" : ` (${ref.tag})`;
  return `${sayAnimal(ref)}${tag}, head ${HEAD[head]}. ${sayGenotype(genotype)}`;
};

const careSaid = ({ code, on, means }: CareGiven): string => {
  const title = code in CARE ? CARE[code as CareTaskCode].title : code;
  return `${on}: ${title}${means === undefined ? "" : `, ${means}`}`;
};

/** What a buyer is told of a goat. */
function sheetOfKid(model: KidPaperModel, context: SheetContext): SheetDocument {
  const { goat, dam, sires, belief, genotype } = model;
  const facts: readonly (readonly [string, string])[] = [
    ["Name", sayAnimal(goat)],
    ...(goat.tag === undefined ? [] : ([["Tag", goat.tag]] as const)),
    ...(goat.mark === undefined ? [] : ([["Mark", goat.mark]] as const)),
    ["Sex by eye", SEX[goat.sex] ?? ""],
    ...(model.born === undefined ? [] : ([["Born", sayTableDay(model.born)]] as const)),
    ...(model.bornTogether === undefined ? [] : ([["Kids in the litter", `${model.bornTogether}`]] as const)),
    ...(model.breed === undefined ? [] : ([["Breed", model.breed]] as const)),
    ...(dam === undefined ? [] : ([["Dam", parentSaid(dam)]] as const)),
    ...sires.map((sire): readonly [string, string] =>
      sires.length === 1 ? ["Sire", parentSaid(sire)] : ["Sire, one of", parentSaid(sire)],
    ),
  ];
  const head: readonly (readonly [string, string])[] = [
    ["Head", HEAD[model.head]],
    ...(model.disbudded === undefined ? [] : ([["Disbudded on", sayTableDay(model.disbudded)]] as const)),
    ...(model.grewSeen === undefined ? [] : ([["What grew, seen on", sayTableDay(model.grewSeen)]] as const)),
    ...(belief === undefined ? [] : ([["Kids like it", `${sayCounted(belief.counted)} grow horns`]] as const)),
    ["Horn genes", genotype === undefined ? "The head is not read yet." : sayGenotype(genotype)],
    ["Known from", model.grounds.map((ground) => GROUND[ground]).join("; ")],
  ];
  const spoken = weights(context.units);
  const weighings = model.weights.map(
    ({ kg, on, how }) => `${on}: ${spoken.said(kg)}${how === "guessed" ? ", guessed" : ""}`,
  );
  return sheetOf(context, {
    title: `Paper of ${sayAnimal(goat)}`,
    blocks: [
      { kind: "facts", rows: facts },
      { kind: "heading", text: "Horns: what is known, and how" },
      { kind: "facts", rows: head },
      ...(model.warnings.length === 0
        ? []
        : [{ kind: "warning", lines: model.warnings.map((warning) => warningSaid(warning, model)) } as const]),
      { kind: "heading", text: "What is not known" },
      { kind: "list", items: model.gaps.map((gap) => GAP[gap]), mark: "dot" },
      { kind: "heading", text: "Care given" },
      model.care.length === 0
        ? { kind: "text", text: "None is on record.", weight: "plain" }
        : { kind: "list", items: model.care.map(careSaid), mark: "dot", columns: 2 },
      ...(weighings.length === 0
        ? []
        : [
            { kind: "heading", text: "Weights" } as const,
            { kind: "list", items: weighings, mark: "dot", columns: 2 } as const,
          ]),
      ...(model.notes.length === 0
        ? []
        : [
            { kind: "heading", text: "Notes" } as const,
            { kind: "list", items: model.notes.map(({ on, text }) => `${on}: ${text}`), mark: "dot" } as const,
          ]),
      {
        kind: "text",
        text: "Chances are of many goats like this one. Check identification and transport rules where you live.",
        weight: "plain",
      },
      { kind: "lines", label: "Seller, buyer, date", count: 2 },
    ],
  });
}

/** Every sheet, by what it is made of. */
export const sheets = {
  vetList: sheetOfVetList,
  gate: sheetOfGate,
  barnCard: sheetOfBarnCard,
  kid: sheetOfKid,
  kinds: {
    vet: "the vet's list of a day",
    barn: "a blank card for the barn",
    kid: "a goat's paper for the buyer",
    gate: "cautions for visitors",
    season: "the season's review",
  },
} as const;
