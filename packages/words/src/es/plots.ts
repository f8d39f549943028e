/** Palabras de los dibujos con ejes; cada uno tiene una frase y una tabla. */
export const plotsWords = {
  figures: "Mostrar las cifras",
  years: "Año",
  band: (what: string, years: number, last: string) => `${what}, año por año. En el año ${years}: ${last}.`,
  bandIs: "Línea: el centro de los rebaños simulados. Banda: 9 de cada 10.",
  growth: "Crecimiento hasta hoy",
  growthSays: (times: number, kg: string, days: number) => `Pesado ${times} veces. A los ${days} días: ${kg}.`,
  age: "Edad, días",
  weight: { kg: "Peso, kg", lb: "Peso, lb" },
  day: "Día",
  ofTwenty: "De 20 casos igual de probables",
  guessed: "A ojo",
  weighed: "Pesado",
  how: "Cómo",
  growthKey: "Lleno: pesado. Vacío: a ojo.",
} as const;
