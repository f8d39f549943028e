import type { CallLine, LearntModel, ReaderRecord, RegrowthGroup } from "@pollard/advice";
import { FEW } from "../where-words-change.ts";
import type { LessonSaid } from "../words.ts";
import { sayCounted } from "./chances.ts";
import { decimal } from "./numbers.ts";

const CAME: Readonly<Record<CallLine["came"], string>> = {
  "as-called": "Es como se dijo.",
  "fewer-horned": "Menos con cuernos de lo dicho: se inclinó demasiado a los cuernos.",
  "more-horned": "Más con cuernos de lo dicho: se inclinó demasiado a no tenerlos.",
};

/** Pronósticos de una misma probabilidad, y qué fue de ellos. */
export function sayCall({ kids, horned, said, came }: CallLine): string {
  const heads = kids === 1 ? "1 cabeza" : `${kids} cabezas`;
  const result = `De ${heads} dichas ${sayCounted(said)} con cuernos: ${horned} con, ${kids - horned} sin.`;
  const verdict = came === "as-called" && kids < FEW ? "Pocas para juzgar." : CAME[came];
  return `${result} ${verdict}`;
}

/** Cómo resultaron los pronósticos de una persona, con amabilidad. */
export function sayReader({ reader, kids, right, wrong, open }: ReaderRecord): string {
  const read = `${reader} leyó ${kids === 1 ? "1 cabeza" : `${kids} cabezas`} que hoy se conocen.`;
  const clear = right + wrong;
  if (clear === 0) return `${read} Todas quedaron abiertas, una respuesta honrada.`;
  const came =
    wrong === 0
      ? clear === 1
        ? "El pronóstico claro acertó."
        : `Los ${clear} pronósticos claros acertaron.`
      : `${right} de ${clear} pronósticos claros acertaron.`;
  const left = open === 0 ? "" : ` ${open === 1 ? "1 quedó abierta" : `${open} quedaron abiertas`}.`;
  const kind = wrong === 0 ? "" : " Cabezas así engañan a cualquiera: otra mirada ayuda.";
  const few = kids < FEW ? " Pocas para decir más." : "";
  return `${read} ${came}${left}${kind}${few}`;
}

const LESSONS: Readonly<Record<LearntModel["lessons"][number]["code"], string>> = {
  "whorls-on-horned": "Crías con cuernos: remolinos sobre los botones",
  "whorls-on-polled": "Crías sin cuernos: remolinos sobre los botones",
  "flat-on-horned": "Crías con cuernos: pelo plano en la coronilla",
  "flat-on-polled": "Crías sin cuernos: pelo plano en la coronilla",
  "early-bud-buck": "Machos con cuernos: un botón que se nota al día 3",
  "early-bud-doe": "Hembras con cuernos: un botón que se nota al día 3",
  "bump-on-smooth": "Una cabeza lisa notada como bulto",
  "pointed-told": "Un botón puntiagudo notado como tal",
};

/** Lo que decía una fila de las tablas antes de sus crías, lo que dice ahora, y de cuántas cabezas. */
export function sayLesson({ code, before, after, seen }: LearntModel["lessons"][number]): LessonSaid {
  const heads = Math.round(seen);
  return {
    about: LESSONS[code],
    before: sayCounted(before),
    after: sayCounted(after),
    from: heads === 0 ? "Aún ninguna cabeza suya." : heads === 1 ? "De 1 cabeza." : `De ${heads} cabezas.`,
  };
}

/** Lo que rebrotó en algunos botones, y qué esperar del próximo. */
export function sayRegrowth({ buds, grew, again, low, high }: RegrowthGroup): string {
  const some = buds - grew.nothing;
  const parts = [
    [grew.scur, "cuernito", "cuernitos"],
    [grew["soft-lump"], "bulto blando", "bultos blandos"],
    [grew.horn, "cuerno", "cuernos"],
  ] as const;
  const what = parts.flatMap(([n, one, many]) => (n === 0 ? [] : [`${n} ${n === 1 ? one : many}`])).join(", ");
  const seen = `De ${buds === 1 ? "1 botón" : `${buds} botones`}, rebrotó algo en ${some === 0 ? "ninguno" : some}${some === 0 ? "" : `: ${what}`}.`;
  const range =
    sayCounted(low) === sayCounted(high) ? "" : ` Entre ${low.count} y ${high.count} de ${high.of} no sorprendería.`;
  return `${seen} Espérelo en ${sayCounted(again)}.${range}`;
}

/** Palabras de la página de cómo resultaron las lecturas. */
export const scoreWords = {
  title: "Cómo resultaron nuestros pronósticos",
  short: "Pronósticos hasta ahora",
  none: "Ninguna cabeza leída ha mostrado aún lo que es.",
  noneHow: "Anote qué creció a los tres meses, o qué halló el veterinario. Esta página se llenará.",
  lead: (kids: number, horned: number) =>
    `${kids === 1 ? "1 cabeza leída y conocida" : `${kids} cabezas leídas y conocidas`}: ${horned} con cuernos, ${kids - horned} sin.`,
  waiting: (n: number) =>
    n === 0 ? "" : n === 1 ? "Se leyó 1 más; nadie sabe aún qué es." : `Se leyeron ${n} más; nadie sabe aún qué son.`,
  knownFrom: "Cómo lo sabemos",
  truths: {
    growth: "lo que creció",
    "dna-test": "un laboratorio",
    "grown-head": "la cabeza adulta",
    "vet-finding": "lo que halló el veterinario",
  },
  truthLine: (n: number, how: string) => `${n} por ${how}`,
  vetMayErr: "El veterinario también puede errar, pero pocas veces.",
  honest: "Cada cabeza se juzga con lo sabido antes de su temporada. Lo que creció no influye.",
  picture: "Lo que dijimos, y lo que vino",
  pictureSays: (called: string) => `Cada anillo es un grupo de pronósticos. ${called}`,
  onLine: "En la línea inclinada vino como se dijo. La barra muestra lo que permite el azar.",
  axisCalled: "dichas con cuernos",
  axisCame: "tuvieron cuernos",
  asTable: "Lo mismo como tabla",
  columns: { called: "Dicho", heads: "Cabezas", horned: "Con cuernos", range: "El azar permite" },
  rangeOf: (low: number, high: number) => `${low} a ${high} de 20`,
  rivals: "¿Valen la pena las cuentas?",
  rivalsHow: "Cuatro maneras de juzgar las mismas cabezas. Menos es más cerca de lo que vino.",
  ways: {
    together: "Signos y familia juntos",
    pedigreeAlone: "Solo la familia",
    signsAlone: "Solo los signos",
    ruleOfThumb: "Regla práctica",
  },
  thumbIs: "La regla práctica cuenta los signos de la última mirada. Gana la mayoría.",
  closest: (way: string) => `Lo más cercano aquí: "${way}".`,
  notOurs: "En estas cabezas la manera de Pollard no fue la más cercana. Fíese también de sus dedos.",
  luck: "Con tan pocas cabezas una diferencia pequeña puede ser azar.",
  way: "Manera",
  miss: "Fallo",
  surprise: "Sorpresa",
  missHow: "Fallo: media del cuadrado de la distancia. Sorpresa: media de menos el logaritmo. Menos es mejor.",
  readers: "Persona por persona",
  readersHow: "Cada una por sus lecturas, con la familia. Nadie acierta siempre.",
  learnt: "Lo que enseñaron sus propias crías",
  learntFrom: (n: number) =>
    n === 0
      ? "Aún nada: las tablas son juicio de criadores."
      : n === 1
        ? "1 cría suya movió las tablas."
        : `${n} crías suyas movieron las tablas.`,
  withoutThem: (before: string, kids: number) =>
    `Con las primeras tablas solas ${before}. ${kids === 1 ? "1 cría suya lo movió" : `${kids} crías suyas lo movieron`}.`,
  unmoved: "Sin mover hasta ahora",
  before: "Antes",
  now: "Ahora",
  breedLater: (breed: string, days: number) => `${breed}: los botones llegan unos ${decimal(days)} días después.`,
  breedEarlier: (breed: string, days: number) => `${breed}: los botones llegan unos ${decimal(days)} días antes.`,
  ownTables: (readers: string) => `Crías bastantes para tablas propias: ${readers}.`,
  regrowth: "Tras el desbotonado",
  regrowthHow: "Botones mirados unos tres meses después. No dice nada de los genes.",
  regrowthNone: "Ningún botón quitado se ha mirado desde entonces.",
  regrowthNotSeen: (n: number) => (n === 1 ? "1 botón no se ha mirado." : `${n} botones no se han mirado.`),
  regrowthNoTechnique: (n: number) =>
    n === 1 ? "No consta cómo se hizo 1 botón." : `No consta cómo se hicieron ${n} botones.`,
  techniques: { "bud-removed": "Botón quitado", "bud-left": "Botón dejado" },
  byHand: "Por mano y por edad",
  byOperator: (name: string) => `Por ${name}`,
  byAge: (days: string) => `A los ${days} días`,
  ages: { "0-3": "0 a 3", "4-7": "4 a 7", "8-14": "8 a 14", "15-": "15 o más" },
  vetDecides: "Cómo se hace lo decide el veterinario.",
} as const;
