import type {
  ChipProblem,
  Difference,
  GoatList,
  GrownHead,
  ListColumn,
  ListProblem,
  ParentChoice,
  PlannedRow,
  RowProblem,
} from "@pollard/records";
import { SEX } from "./animals.ts";

const COLUMNS: Readonly<Record<ListColumn, string>> = {
  name: "nombre",
  tag: "arete",
  chip: "número del microchip",
  sex: "sexo",
  born: "día de nacimiento",
  breed: "raza",
  dam: "madre",
  sire: "padre",
  head: "cabeza",
  kidded: "si ha parido",
  note: "nota",
  left: "día en que se fue",
  why: "por qué se fue",
  id: "identificador de Pollard",
};

const HEADS: Readonly<Record<GrownHead, string>> = {
  polled: "mocha",
  horned: "con cuernos",
  disbudded: "desbotonada",
  unsure: "no se sabe",
};
/** Lo que en el registro está en inglés. */
const VALUES: Partial<Record<Difference["of"], Readonly<Record<string, string>>>> = {
  sex: SEX,
  head: HEADS,
  kidded: { yes: "sí" },
};

const CHIPS: Readonly<Record<ChipProblem, string>> = {
  "not-digits": "Un microchip solo tiene cifras.",
  "not-15-digits": "Un microchip tiene quince cifras.",
  "no-such-number": "Sus doce últimas cifras pasan de las de cualquier microchip.",
  rounded: "La hoja lo ha redondeado. Ponga la columna como texto y escríbalo de nuevo.",
};

/** Qué falla en una fila y cómo arreglarlo. No culpa a nadie. */
function problem(of: RowProblem): string {
  switch (of.code) {
    case "nameless":
      return "No tiene nombre, arete ni microchip. Escriba uno.";
    case "no-sex":
      return "No dice el sexo. Escriba hembra, macho o castrado.";
    case "not-a-sex":
      return `"${of.got}" no es un sexo conocido. Escriba hembra, macho o castrado.`;
    case "not-a-head":
      return `"${of.got}" no es una cabeza conocida. Escriba mocho, con cuernos o desbotonado.`;
    case "head-open":
      return `"${of.got}" lo deja abierto. Escriba mocho, con cuernos o desbotonado.`;
    case "not-kidded":
      return `"${of.got}" no es sí ni no. Escriba sí, o cuántas veces ha parido.`;
    case "kidded-no-doe":
      return "Ha parido y no es hembra. Corrija uno de los dos.";
    case "kidded-too-young":
      return "Es demasiado joven para haber parido. Corrija uno de los dos.";
    case "not-a-why":
      return `"${of.got}" no es un motivo conocido. Escriba vendido, muerto, sacrificado, prestado u otro.`;
    case "too-long":
      return `Demasiado largo (${COLUMNS[of.column]}): "${of.got}".`;
    case "number-rounded":
      return `La hoja ha redondeado "${of.got}". Ponga la columna como texto y escríbalo de nuevo.`;
    case "not-a-day":
      return `"${of.got}" no es un día. Escríbalo como 2024-03-25.`;
    case "day-either":
      return `"${of.got}" puede ser dos días. Diga arriba qué número es el día.`;
    case "day-is-a-number":
      return `"${of.got}" es un número interno de la hoja. Muestre la columna como fecha.`;
    case "day-is-a-year":
      return `"${of.got}" es solo un año. Deje vacía la celda, o lea la columna como nota.`;
    case "day-not-set":
      return `"${of.got}" es lo que escribe una hoja sin día. Deje vacía la celda.`;
    case "day-to-come":
      return `"${of.got}" está por venir.`;
    case "left-without-day":
      return "Se fue, pero falta el día. Añádalo.";
    case "left-before-born":
      return "Se fue antes de nacer. Corrija uno de los días.";
    case "own-parent":
      return "Figura como su propio padre o madre.";
    case "more-cells":
      return "Tiene más celdas que encabezados. Quizá haya una coma sin comillas.";
    case "not-a-chip":
      return `"${of.got}": ${CHIPS[of.why]}`;
    case "several-goats":
      return `"${of.got}" puede ser varios animales. Añada un arete o el día de nacimiento.`;
    case "tag-of-another":
      return `El arete ${of.got} lo lleva aquí ${of.name}. Corrija uno de los dos.`;
    case "not-a-parent":
      return `"${of.got}" no puede ser ${of.column === "dam" ? "la madre" : "el padre"}. Mire su sexo.`;
    case "parent-younger":
      return `"${of.got}" no tiene más edad que este animal. Corrija un día o ${of.column === "dam" ? "la madre" : "el padre"}.`;
    case "parent-loop":
      return `"${of.got}" también desciende de este animal. Corrija ${of.column === "dam" ? "la madre" : "el padre"} de uno de los dos.`;
    case "twice":
      return `La línea ${of.first} tiene el mismo animal o arete, y dice otra cosa.`;
  }
}

/** Por qué un archivo no es una lista de cabras. */
function refusal(of: ListProblem): string {
  switch (of.code) {
    case "empty":
      return "Este archivo está vacío. No se cambió nada.";
    case "spreadsheet":
      return "Es el archivo propio de una hoja de cálculo. Guárdelo allí como CSV y tráigalo.";
    case "not-text":
      return "Este archivo no es una tabla. No se cambió nada.";
    case "too-large":
      return "La lista es demasiado larga. Tráigala en partes de 20 000 filas.";
    case "no-rows":
      return "No hay ninguna fila bajo los encabezados.";
    case "no-columns":
      return "Solo hay una columna. La primera línea debe llevar los encabezados.";
    case "quotes":
      return `Unas comillas no se cierran en la línea ${of.line}. No se cambió nada.`;
  }
}

/** Una diferencia entre la lista y el rebaño. Los padres se dicen por su nombre. */
function difference(of: Difference, called: (id: string) => string): string {
  const isParent = of.of === "dam" || of.of === "sire";
  const say = (value: string): string => (isParent ? called(value) : (VALUES[of.of]?.[value] ?? value));
  const column = COLUMNS[of.of];
  if (of.of === "note") return `Nota nueva: "${of.listed}"`;
  if (of.sort === "by-hand")
    return `${column}: ${of.here === undefined ? "ninguno" : say(of.here)} por su parto, ${say(of.listed)} en la lista. Solo a mano.`;
  return of.here === undefined ? `${column}: ${say(of.listed)}` : `${column}: ${say(of.here)} pasa a ${say(of.listed)}`;
}

const goats = (n: number): string => (n === 1 ? "1 animal" : `${n} animales`);

/** Palabras para traer una lista de una hoja de cálculo y para entregar tablas. */
export const listWords = {
  title: "Traer una lista",
  intro: "Una lista de una hoja de cálculo, guardada como CSV. La primera línea lleva los encabezados.",
  nothingYet: "No se anota nada hasta que usted lo diga.",
  file: "Elegir la lista",
  otherFile: "Elegir otra lista",
  reading: "Leyendo la lista …",
  read: (rows: number) => (rows === 1 ? "Se leyó 1 fila." : `Se leyeron ${rows} filas.`),
  encoding: {
    "utf-8": "",
    "utf-16": "",
    "windows-1252": "Las letras se tomaron por las de Windows. Mire los nombres con acentos.",
  } satisfies Record<GoatList["encoding"], string>,
  refusal,
  whatIsWhat: "¿Qué hay en las columnas?",
  leaveOut: "Dejarla fuera",
  such: (cells: string) => `por ejemplo ${cells}`,
  column: COLUMNS,
  which: "¿Qué número es el día?",
  whichWhy: (n: number) => `${n === 1 ? "1 día se puede" : `${n} días se pueden`} leer de dos maneras.`,
  orders: { "day-month": "El primero: 3/4 es 3 de abril", "month-day": "El segundo: 3/4 es 4 de marzo" },
  proven: "Otros días de la lista lo muestran.",
  otherwise: "Algunas filas no dicen el sexo. ¿Qué son esos animales?",
  otherwiseAnswers: { doe: "Todos hembras", buck: "Todos machos", none: "Dejarlos fuera" },
  parents: (n: number) =>
    n === 1
      ? "1 padre o madre no está en la lista ni en el rebaño."
      : `${n} padres no están en la lista ni en el rebaño.`,
  parentAnswers: {
    gone: "Guardarlos por su nombre, como idos",
    here: "Guardarlos por su nombre, como presentes",
    "leave-out": "Dejar el padre o la madre sin saber",
  } satisfies Record<ParentChoice, string>,
  becomes: "Qué resulta de cada fila",
  groups: {
    nothing: (n: number) => `No pueden entrar: ${n}`,
    new: (n: number) => `Nuevos: ${n}`,
    change: (n: number) => `Ya están, pero la lista dice otra cosa: ${n}`,
    same: (n: number) => `Ya están: ${n}`,
    repeat: (n: number) => `Dos veces en la lista: ${n}`,
  } satisfies Record<PlannedRow["becomes"], (n: number) => string>,
  groupHints: {
    nothing: "Corríjalos en la hoja y tráigala otra vez. Nada entra dos veces.",
    change: "Nada se sobrescribe. Marque lo que deba anotarse.",
  },
  line: (line: number, called: string) => (called === "" ? `Línea ${line}` : `Línea ${line}, ${called}`),
  repeats: (first: number) => `igual que la línea ${first}`,
  lacks: (role: "dam" | "sire") =>
    `${role === "dam" ? "La madre" : "El padre"} vendrá cuando se corrija su propia fila.`,
  problem,
  difference,
  tickAll: "Marcar todos",
  tickNone: "No marcar ninguno",
  more: (n: number) => `y ${n} más`,
  bringIn: (fresh: number, changed: number) => {
    if (fresh === 0) return `Cambiar ${goats(changed)}`;
    return changed === 0 ? `Traer ${goats(fresh)}` : `Traer ${goats(fresh)}, cambiar ${changed}`;
  },
  nothing: "No hay nada que traer.",
  leftBehind: (n: number) =>
    n === 1
      ? "1 fila no puede entrar. El motivo está arriba."
      : `${n} filas no pueden entrar. Los motivos están arriba.`,
  nobodyCalled: "No se sabe qué columna trae nombres o aretes. Dígalo abajo.",
  done: (n: number) => `De la lista ${n === 1 ? "entró 1 animal" : `entraron ${n} animales`}.`,
  toAnimals: "Ver los animales",
  // Entregar
  tables: "Tablas para hojas de cálculo",
  tablesIntro: "Todo lo anotado en tablas CSV, en un solo archivo. El libro entero va con ellas.",
  tablesHow: "Abra aretes y microchips como texto, o la hoja pierde los ceros.",
  guard: "Celdas que empiezan por = + - o @",
  guardAnswers: { "as-is": "Dejarlas como están", guard: "Poner un apóstrofo delante" },
  guardWhy: "Una hoja puede ejecutar tal celda. El apóstrofo lo impide y cambia la celda.",
  makeTables: "Hacer las tablas",
  tablesMade: (name: string, tables: number) => `${name} contiene ${tables} tablas.`,
  chip: "Número del microchip",
  chipHint: "Quince cifras. Vale un lector que escriba.",
  chipWrong: CHIPS,
} as const;
