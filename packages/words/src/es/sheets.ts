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
import type { Day } from "@pollard/base";
import type { CareTaskCode } from "@pollard/husbandry";
import type { SheetContext } from "../en/sheets.ts";
import type { WeightWords } from "../weights.ts";
import { sayAnimal, sayGenotype } from "./animals.ts";
import { CARE, care } from "./care.ts";
import { CAUTIONS } from "./cautions.ts";
import { sayCounted } from "./chances.ts";
import { sayDays, sayShortDay, sayTableDay } from "./days.ts";
import { signWords } from "./screens-capture.ts";
import { weights } from "./weights.ts";

const SEX: Readonly<Record<string, string>> = {
  doe: "hembra",
  buck: "macho",
  wether: "castrado",
  intersex: "intersexual",
  unsure: "no se sabe",
};

/** A sheet of this herd, as of today, upright and for the table unless said otherwise. */
export const sheetOf = (
  { herdName, today, paper }: SheetContext,
  part: Pick<SheetDocument, "title" | "blocks"> & Partial<Pick<SheetDocument, "turned" | "print">>,
): SheetDocument => ({
  language: "es",
  herd: herdName ?? "",
  asOf: `al ${sayTableDay(today)}`,
  paper,
  turned: "upright",
  print: "table",
  page: { page: "Página", of: "de", sheet: "Hoja" },
  ...part,
});

/** Name, sex and dam; tag or mark below. */
function kidSaid({ kid, dam }: VetListLine): string {
  const below = [kid.name === undefined ? undefined : kid.tag, kid.mark].filter((part) => part !== undefined);
  const of = dam === undefined || kid.damName === undefined || kid.name === undefined ? "" : `, de ${sayAnimal(dam)}`;
  const first = `${sayAnimal(kid)}, ${SEX[kid.sex] ?? ""}${of}`;
  return below.length === 0 ? first : `${first}\n${below.join(", ")}`;
}

function ageSaid({ born, ageOnDay, daysFromDueOnDay: due }: VetListLine): string {
  const early =
    due === undefined || due === ageOnDay
      ? ""
      : `\n${due < 0 ? `prevista en ${sayDays(-due)}` : `${sayDays(due)} desde la prevista`}`;
  return `${sayDays(ageOnDay)}\nnacida ${sayShortDay(born)}${early}`;
}

function weightSaid({ weight, expectedKg, growth }: VetListLine, forVet: WeightWords["forVet"]): string {
  if (weight === undefined) return "nunca pesada";
  const how = weight.how === "guessed" ? " estimado" : "";
  const losing = growth === "losing" || growth === "slow" ? `\n${care.growth(growth)}` : "";
  const expected = expectedKg === undefined ? "" : `\nese día ${forVet.between(expectedKg)}`;
  return `${forVet.said(weight.kg)}${how} (${sayShortDay(weight.on)})${expected}${losing}`;
}

function headSaid({ belief, end }: VetListLine): string {
  const until = `\nfin del plazo ${sayShortDay(end)}`;
  if (belief === undefined) return `sin leer${until}`;
  const by = belief.readers.length === 0 ? "" : `\nleída por ${belief.readers.join(", ")}`;
  return `${sayCounted(belief.counted)} con cuernos${by}${until}`;
}

function coverSaid({ tetanus, colostrum }: VetListLine): string {
  const dam = tetanus.damBooster === undefined ? "madre: no consta" : `madre: ${sayShortDay(tetanus.damBooster)}`;
  const kid = tetanus.kid === undefined ? "" : `\ncría: ${sayShortDay(tetanus.kid)}`;
  return `${dam}${kid}\ncalostro: ${colostrum === "given" ? "sí" : "no consta"}`;
}

/** En qué se pesó, para marcar: una cifra sin su unidad podría dañar. */
const UNIT_BOXES = "□\u00a0kg\n□\u00a0lb";

/** What the vet did, to be ticked. */
const DONE_BOXES = "□\u00a0izq. □\u00a0der.\n□\u00a0no hecho";

/** The vet's list of a day. `printedOn`: the day of a list printed before; who came since is marked as new. */
function sheetOfVetList(model: VetListModel, context: SheetContext, printedOn?: Day): SheetDocument {
  const spoken = weights(context.units);
  const weighedThen = context.units === "kg" ? "" : UNIT_BOXES;
  const row = (line: VetListLine): readonly string[] => [
    `${printedOn !== undefined && line.since > printedOn ? "NUEVA " : ""}${kidSaid(line)}`,
    ageSaid(line),
    weightSaid(line, spoken.forVet),
    headSaid(line),
    coverSaid(line),
    line.notes.join("\n"),
    weighedThen,
    DONE_BOXES,
  ];
  const columns = [
    { title: "Cría", mm: 50 },
    { title: "Edad ese día", mm: 22 },
    { title: "Peso", mm: 42 },
    { title: "Cabeza", mm: 42 },
    { title: "Tétanos, calostro", mm: 36 },
    { title: "Salud, notas" },
    context.units === "kg" ? { title: "kg hoy", mm: 15 } : { title: "Peso hoy", mm: 20 },
    { title: "Hecho", mm: 26 },
  ];
  const added = [0, 1].map(() => [...columns.slice(2).map(() => ""), weighedThen, DONE_BOXES]);
  const looks = model.lookFirst.map(
    (line) => `${sayAnimal(line.kid)}: ${line.why === "unread" ? "aún sin leer" : "sin decidir"}`,
  );
  return sheetOf(context, {
    title: `Lista del veterinario, ${sayTableDay(model.day)}`,
    turned: "sideways",
    print: "close",
    blocks: [
      ...(model.vet === undefined ? [] : [{ kind: "text", text: model.vet, weight: "strong" } as const]),
      ...(model.list.length === 0
        ? [{ kind: "text", text: "Aún no hay nadie en la lista.", weight: "plain" } as const]
        : []),
      { kind: "table", columns, rows: [...model.list.map(row), ...added], empty: 0, tall: "writing" },
      ...(looks.length === 0
        ? []
        : [
            { kind: "heading", text: "Mire estas cabezas antes de que se vaya el veterinario" } as const,
            { kind: "list", items: looks, mark: "box", columns: 2 } as const,
          ]),
      { kind: "list", items: model.cautions.map((code) => CAUTIONS[code]), mark: "dot", columns: 2 },
      { kind: "lines", label: "Lo que dijo el veterinario; tiempo de retiro de leche y carne", count: 2 },
    ],
  });
}

/** The sheet for the gate: large, few words. */
function sheetOfGate(model: VisitorsModel, context: SheetContext): SheetDocument {
  const { from, to } = model;
  const span = from === undefined || to === undefined ? "" : `${sayTableDay(from)} a ${sayTableDay(to)}`;
  return sheetOf(context, {
    title: "Están naciendo crías",
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
      { kind: "lines", label: "Llámenos antes de entrar", count: 2 },
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
      { title: "Madre", mm: 36 },
      { title: "Día, hora", mm: 20 },
      { title: "Hembra, macho, no sé", mm: 22 },
      { title: "Viva, muerta", mm: 15 },
      { title: "Arete o marca", mm: 24 },
      { title: context.units, mm: 13 },
      { title: "Ombligo", mm: 13 },
      { title: "Calostro, hora", mm: 19 },
      { title: "Notas" },
    ],
    rows: model.due.map(({ doe, from, to }) => [`${sayAnimal(doe)}\n${sayShortDay(from)} a ${sayShortDay(to)}`]),
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
      { title: "Cría", mm: 26 },
      { title: "Día", mm: 13 },
      { title: signWords.feel.name, mm: 34 },
      { title: signWords.skin.name, mm: 33 },
      { title: signWords.whorls.name, mm: 30 },
      { title: signWords.crown.name, mm: 34 },
      { title: "Por" },
    ],
    rows: Array.from({ length: HEAD_ROWS }, (_, i) => {
      const kid = model.heads[i];
      return [kid === undefined ? "" : sayAnimal(kid), ...head.slice(1)];
    }),
  };
  return sheetOf(context, {
    title: "Tarjeta de establo",
    blocks: [
      { kind: "text", text: "Escriba aquí, páselo luego. Una línea por cría.", weight: "plain" },
      born,
      { kind: "heading", text: "Cabezas: desde el día 2 un machito, desde el 3 una hembrita" },
      { kind: "text", text: "Marque lo que nota y ve. Deje abierto lo que no miró.", weight: "plain" },
      heads,
      { kind: "lines", label: "Notas", count: 1 },
    ],
  });
}

const HEAD: Readonly<Record<PaperHead, string>> = {
  horned: "con cuernos",
  polled: "mocho de nacimiento, por lo que creció",
  scurred: "con cuernitos",
  disbudded: "desbotonado",
  regrown: "desbotonado, y rebrotó un cuernito",
  "not-seen": "aún sin confirmar",
};

const GROUND: Readonly<Record<PaperGround, string>> = {
  "dna-test": "una prueba de ADN",
  "what-grew": "lo que creció, visto semanas después",
  "vet-found": "lo que halló el veterinario al desbotonar",
  "head-reading": "su cabeza, leída en los primeros días",
  record: "lo anotado con que llegó",
  family: "sus padres y parientes",
};

const GAP: Readonly<Record<PaperGap, string>> = {
  "sire-not-certain": "No es seguro qué macho es el padre.",
  "sire-not-recorded": "El padre no consta.",
  "dam-not-recorded": "La madre no consta.",
  "birth-not-recorded": "El día de nacimiento no consta.",
  "genotype-not-tested": "No se hizo prueba de ADN de los genes de cuernos.",
  "head-not-confirmed": "Aún no se vio qué crece a los tres meses.",
  "intersex-not-ruled-out": "Ni veterinario ni prueba descartaron la intersexualidad.",
  "dam-booster-not-recorded": "No consta refuerzo de la madre antes del parto.",
  "colostrum-not-recorded": "Su calostro no consta.",
  "vaccination-not-recorded": "No consta vacuna.",
  "herd-tests-not-recorded":
    "Aquí no se llevan pruebas del rebaño (CAE, linfadenitis, paratuberculosis). Pida los papeles del laboratorio.",
};

function warningSaid(warning: PaperWarning, { milkUntil, meatUntil }: KidPaperModel): string {
  switch (warning) {
    case "never-two-polled":
      return "Nunca cubra mocho con mocho: algunas crías son intersexuales y estériles.";
    case "not-for-breeding-yet":
      return "No use para cría antes de que veterinario o ADN descarten la intersexualidad.";
    case "watch-for-regrowth":
      return "Desbotonado: busque cuernitos. Aquí son rebrote y no dicen nada de los genes.";
    case "milk-held-back":
      return `La leche se retiene hasta ${milkUntil === undefined ? "" : sayTableDay(milkUntil)}, por palabra del veterinario.`;
    case "meat-held-back":
      return `La carne se retiene hasta ${meatUntil === undefined ? "" : sayTableDay(meatUntil)}, por palabra del veterinario.`;
  }
}

const parentSaid = ({ ref, head, genotype }: PaperParent): string => {
  const tag = ref.tag === undefined || ref.name === undefined ? "" : ` (${ref.tag})`;
  return `${sayAnimal(ref)}${tag}, cabeza: ${HEAD[head]}. ${sayGenotype(genotype)}`;
};

const careSaid = ({ code, on, means }: CareGiven): string => {
  const title = code in CARE ? CARE[code as CareTaskCode].title : code;
  return `${on}: ${title}${means === undefined ? "" : `, ${means}`}`;
};

/** What a buyer is told of a goat. */
function sheetOfKid(model: KidPaperModel, context: SheetContext): SheetDocument {
  const { goat, dam, sires, belief, genotype } = model;
  const facts: readonly (readonly [string, string])[] = [
    ["Nombre", sayAnimal(goat)],
    ...(goat.tag === undefined ? [] : ([["Arete", goat.tag]] as const)),
    ...(goat.mark === undefined ? [] : ([["Marca", goat.mark]] as const)),
    ["Sexo a la vista", SEX[goat.sex] ?? ""],
    ...(model.born === undefined ? [] : ([["Nacido", sayTableDay(model.born)]] as const)),
    ...(model.bornTogether === undefined ? [] : ([["Crías en el parto", `${model.bornTogether}`]] as const)),
    ...(model.breed === undefined ? [] : ([["Raza", model.breed]] as const)),
    ...(dam === undefined ? [] : ([["Madre", parentSaid(dam)]] as const)),
    ...sires.map((sire): readonly [string, string] =>
      sires.length === 1 ? ["Padre", parentSaid(sire)] : ["Padre, uno de", parentSaid(sire)],
    ),
  ];
  const head: readonly (readonly [string, string])[] = [
    ["Cabeza", HEAD[model.head]],
    ...(model.disbudded === undefined ? [] : ([["Desbotonado el", sayTableDay(model.disbudded)]] as const)),
    ...(model.grewSeen === undefined ? [] : ([["Lo que creció, visto el", sayTableDay(model.grewSeen)]] as const)),
    ...(belief === undefined ? [] : ([["Crías así", `${sayCounted(belief.counted)} con cuernos`]] as const)),
    ["Genes de cuernos", genotype === undefined ? "La cabeza aún no se ha leído." : sayGenotype(genotype)],
    ["Se sabe por", model.grounds.map((ground) => GROUND[ground]).join("; ")],
  ];
  const spoken = weights(context.units);
  const weighings = model.weights.map(
    ({ kg, on, how }) => `${on}: ${spoken.said(kg)}${how === "guessed" ? ", estimado" : ""}`,
  );
  return sheetOf(context, {
    title: `Papel de ${sayAnimal(goat)}`,
    blocks: [
      { kind: "facts", rows: facts },
      { kind: "heading", text: "Cuernos: lo que se sabe, y cómo" },
      { kind: "facts", rows: head },
      ...(model.warnings.length === 0
        ? []
        : [{ kind: "warning", lines: model.warnings.map((warning) => warningSaid(warning, model)) } as const]),
      { kind: "heading", text: "Lo que no se sabe" },
      { kind: "list", items: model.gaps.map((gap) => GAP[gap]), mark: "dot" },
      { kind: "heading", text: "Cuidados dados" },
      model.care.length === 0
        ? { kind: "text", text: "No consta ninguno.", weight: "plain" }
        : { kind: "list", items: model.care.map(careSaid), mark: "dot", columns: 2 },
      ...(weighings.length === 0
        ? []
        : [
            { kind: "heading", text: "Pesos" } as const,
            { kind: "list", items: weighings, mark: "dot", columns: 2 } as const,
          ]),
      ...(model.notes.length === 0
        ? []
        : [
            { kind: "heading", text: "Notas" } as const,
            { kind: "list", items: model.notes.map(({ on, text }) => `${on}: ${text}`), mark: "dot" } as const,
          ]),
      {
        kind: "text",
        text: "Las probabilidades son de muchos animales así. Compruebe las reglas de identificación y transporte.",
        weight: "plain",
      },
      { kind: "lines", label: "Vendedor, comprador, fecha", count: 2 },
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
    vet: "la lista del veterinario de un día",
    barn: "una tarjeta en blanco para el establo",
    kid: "el papel de un animal para el comprador",
    gate: "cautelas para visitas",
    season: "el repaso de la temporada",
  },
} as const;
