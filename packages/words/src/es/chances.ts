import type { Counted } from "@pollard/advice";
import { otherSide } from "../en/chances.ts";

/** Una probabilidad contada. Ninguno y todos se dicen solo de lo comprobado. */
export function sayCounted(c: Counted): string {
  switch (c.sense) {
    case "proven":
      return c.count === 0 ? "ninguno" : "todos";
    case "under-one":
      return `menos de 1 de cada ${c.of}`;
    case "all-but-one":
      return `más de ${c.of - 1} de cada ${c.of}`;
    case "about":
      return `unos ${c.count} de cada ${c.of}`;
  }
}

const opening = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Los dos lados de las probabilidades de una cría: mismo tamaño, un denominador, sin adjetivo. */
export function sayHorns(horns: Counted): string {
  if (horns.sense === "proven")
    return horns.count === 0 ? "Esta cría queda sin cuernos." : "A esta cría le salen cuernos.";
  return `${opening(sayCounted(horns))} crías así echan cuernos; ${sayCounted(otherSide(horns))} quedan sin ellos.`;
}
