import type { Counted } from "@pollard/advice";
import { otherSide } from "../en/chances.ts";
import { opening } from "./numbers.ts";

/** A chance counted out; "cerca de" fits either gender and any number. None and all are said only of what is proven. */
export function sayCounted(c: Counted): string {
  switch (c.sense) {
    case "proven":
      return c.count === 0 ? "ninguno" : "todos";
    case "under-one":
      return `menos de 1 de cada ${c.of}`;
    case "all-but-one":
      return `más de ${c.of - 1} de cada ${c.of}`;
    case "about":
      return `cerca de ${c.count} de cada ${c.of}`;
  }
}

/** Both sides of a kid's chances: the same size, one denominator, no adjective. */
export function sayHorns(horns: Counted): string {
  if (horns.sense === "proven") return horns.count === 0 ? "Esta cría queda sin cuernos." : "Esta cría echa cuernos.";
  return `${opening(sayCounted(horns))} crías como esta echan cuernos. Quedan sin cuernos ${sayCounted(otherSide(horns))}.`;
}
