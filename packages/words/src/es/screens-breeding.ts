import type { GrowthState } from "@pollard/husbandry";

/** Palabras de las pantallas que planean la cría: parejas, los años que vienen, pruebas, repaso, a quién conservar. */

const STATE: Readonly<Record<GrowthState, string>> = {
  thriving: "",
  slow: ", lento",
  losing: ", pierde peso",
  unknown: "",
};

const does = (n: number): string => (n === 1 ? "1 cabra" : `${n} cabras`);

export const pairingsWords = {
  title: "Parejas",
  lead: "Qué macho para qué cabra",
  working: "Calculando las parejas …",
  stillWorking: "Calculando el plan de nuevo. Abajo está el anterior.",
  stop: "Parar",
  again: "Calcular",
  stopped: "Parado. Todavía no hay plan.",
  stoppedOld: "Parado. El plan de abajo es anterior a lo último anotado.",
  plan: "El plan",
  planFor: (doe: string, buck: string | undefined) =>
    buck === undefined ? `${doe} queda vacía` : `${doe} con ${buck}`,
  open: "queda vacía",
  bucksUse: (buck: string, n: number) => `${buck}: ${n === 0 ? "ninguna cabra" : does(n)}`,
  everyPair: "Todas las parejas",
  gridSaid: "Cada número: de 20 crías, cuántas echan cuernos. Flechas para moverse, Intro abre.",
  gridName: "Cabras por machos",
  doe: "Cabra",
  chosen: "en el plan",
  closed: "cerrada",
  cell: (doe: string, buck: string, horned: number, state: string) =>
    `${doe} con ${buck}: ${horned} de 20 crías con cuernos${state === "" ? "" : `, ${state}`}`,
  key: { chosen: "en el plan", open: "abierta", closed: "cerrada por una regla" },
  otherPlans: "Otros planes buenos",
  prices: "Lo que cuestan sus reglas",
  leftOut: "Quién no entra",
  why: "¿Por qué no otro macho?",
  whyNot: (buck: string, reason: string) => `${buck}: ${reason}`,
  mustNow: (doe: string, buck: string) => `Deseo guardado: ${doe} con ${buck}.`,
  neverNow: (doe: string, buck: string) => `Deseo guardado: ${doe} no va con ${buck}.`,
  freeNow: (doe: string) => `Ya no hay deseo para ${doe}.`,
  must: "Ella va con él",
  never: "Estos dos no",
  free: "Sin deseo",
  wish: "Su deseo para estos dos",
  kids: "Cómo serían las crías",
  squares: "Lleno: con cuernos. Vacío: sin cuernos.",
  doubtTitle: "Qué es azar y qué es duda",
  maybe: (buck: string, buckIs: string, doe: string, doeIs: string, chance: string) =>
    `${buck} ${buckIs}, ${doe} ${doeIs}: ${chance}`,
  kin: "Parentesco",
  otherLoci: "Otros caracteres que sigue",
  notEntered: "Un plan no es una monta. Anote cada monta el día que ocurra.",
  print: "Imprimir este plan",
  more: "Más para planear",
  toForecast: "Los años que vienen",
  toTests: "¿Vale la pena una prueba?",
  toReview: "La temporada, repasada",
  toKept: "A quién conservar",
} as const;

export const forecastWords = {
  title: "Los años que vienen",
  lead: "Qué será del rebaño, una forma de criar junto a otra",
  years: "¿Cuántos años?",
  yearsOne: (n: number) => (n === 1 ? "1 año" : `${n} años`),
  start: "Calcular",
  cancel: "Parar",
  progress: (done: number, of: number) => `${done} de ${of} rebaños simulados`,
  stopped: (done: number) => `Parado. Estos números salen de ${done} rebaños simulados.`,
  table: "Año por año",
  inYear: (n: number) => `En el año ${n}`,
  what: "Qué",
  year: (n: number) => `Año ${n}`,
  first: "Las demás se comparan con esta.",
} as const;

export const testsWords = {
  title: "¿Vale la pena una prueba?",
  lead: "Lo que ahorraría una prueba de ADN, frente a su precio",
  working: "Calculando qué cambiaría cada prueba …",
  more: (n: number) => (n === 1 ? "1 animal más" : `${n} animales más`),
  verdict: { "worth-it": "Vale la pena", "not-worth-it": "No vale la pena", "known-already": "Ya se sabe" },
  settles: (results: string) => `Aclara: ${results}`,
  settlesNothing: "Lea antes su cabeza.",
  saves: (worth: string, price: string) => `Ahorra ${worth}, pesa ${price}`,
  together: "Dos pruebas juntas",
} as const;

export const reviewWords = {
  title: "La temporada, repasada",
  surprises: "Crías que sorprendieron",
  noSurprise: "Ninguna cría sorprendió.",
  learnt: "Lo que enseñó de los padres",
  nothingLearnt: "No movió ninguna creencia.",
  sires: "Por padre",
  sire: (buck: string) => `Crías con cuernos de ${buck}`,
  print: "Imprimir esta página",
  toScore: "Cómo resultaron las lecturas",
} as const;

export const keptWords = {
  title: "A quién conservar",
  lead: "Los jóvenes lado a lado, según lo que se sabe",
  none: "No hay animal joven sobre el que decidir.",
  noScore: "Aquí no hay puntos. Lo que cuenta lo dice usted.",
  headUnread: "Cabeza aún sin leer",
  known: (kid: string) => `Qué se sabe de ${kid}`,
  openTo: "Sirve para",
  notOpen: "No sirve para criar",
  inbreeding: "Consanguinidad",
  litter: "Nacido en un parto de",
  damKids: (dam: string) => `Crías de ${dam} hasta ahora`,
  weight: "Peso",
  gain: "Aumento al día",
  gainSaid: (gain: string, state: GrowthState) => `${gain}${STATE[state]}`,
} as const;
