/** Palabras de las tablas de escritorio: la del rebaño y la de todo lo anotado. */
export const herdTableWords = {
  ways: { up: "creciente", down: "decreciente" },
  sortHint: "Pulse un título para ordenar.",
  filter: "Nombre o arete contiene",
  year: "Nacido en",
  anyYear: "Cualquier año",
  columns: {
    name: "Nombre",
    tag: "Arete",
    sex: "Sexo",
    born: "Nacido",
    dam: "Madre",
    sire: "Padre",
    head: "Cabeza",
    genes: "Genes de mocho",
    chance: "Mocho",
    inbreeding: "Consanguinidad, 0 a 1",
    weight: "Peso",
    kids: "Crías",
    status: "Por hacer",
  },
  weightIn: { kg: "Peso, kg", lb: "Peso, lb" },
  genes: { PP: "PP", Pp: "Pp", pp: "pp" },
  surety: { proven: "comprobado", "near-sure": "casi seguro", likely: "lo más probable", open: "no se sabe" },
  oneOf: (names: string) => `Uno de ${names}`,
  where: { here: "", gone: "Se fue", dead: "Muerto", "born-dead": "Nació muerto" },
  choose: "¿Qué columnas?",
  caption: (shown: number, all: number) => `${shown} de ${all} animales. Pulse un título para ordenar.`,
} as const;

/** Palabras de la lista de todo lo anotado. */
export const entriesWords = {
  title: "Todo lo anotado",
  link: "Todo lo anotado",
  hint: "Quién anotó qué, lo último primero. Cada línea se puede deshacer.",
  kind: "Qué",
  anyKind: "Todo",
  person: "De quién",
  anyPerson: "Cualquiera",
  goat: "Nombre o arete contiene",
  count: (shown: number, all: number) => `${shown} de ${all} entradas.`,
  undoings: (n: number) =>
    n === 1 ? "1 más deshace o recupera una de estas." : `${n} más deshacen o recuperan una de estas.`,
  none: "Ninguna entrada coincide.",
  more: "Mostrar más",
  herd: "El rebaño",
} as const;
