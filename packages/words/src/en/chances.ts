import type { Counted } from "@pollard/advice";

/** A chance counted out. None and all are said only of what is proven. */
export function sayCounted(c: Counted): string {
  switch (c.sense) {
    case "proven":
      return c.count === 0 ? "none" : "all";
    case "under-one":
      return `fewer than 1 in ${c.of}`;
    case "all-but-one":
      return `more than ${c.of - 1} in ${c.of}`;
    case "about":
      return `about ${c.count} in ${c.of}`;
  }
}

/** The other side of a counted chance, on the same denominator. */
export function otherSide(c: Counted): Counted {
  const sense = c.sense === "under-one" ? "all-but-one" : c.sense === "all-but-one" ? "under-one" : c.sense;
  return { of: c.of, count: c.of - c.count, sense };
}

const opening = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Both sides of a kid's chances: the same size, one denominator, no adjective. */
export function sayHorns(horns: Counted): string {
  if (horns.sense === "proven") return horns.count === 0 ? "This kid stays hornless." : "This kid grows horns.";
  return `${opening(sayCounted(horns))} kids like this one grow horns; ${sayCounted(otherSide(horns))} stay hornless.`;
}
