/** Chance of so few or fewer below which a line of calls is said not to have come as called: one in twenty. */
const SURPRISE = 0.05;

/**
 * Whether so many of so many kids, all called at about one chance, grew horns as called; or fewer, or more than chance lets pass.
 *
 * Exact: the binomial's tail, term by term.
 *
 * Units:   `meanCall` a chance of horns above 0 and below 1.
 * Assumes: the calls of the line are near enough to their mean; unlike ones would spread less, so this seldom cries too early.
 *
 * @example
 * callsCame({ kids: 10, horned: 1, meanCall: 0.5 }); // "fewer-horned"
 */
export function callsCame(line: {
  readonly kids: number;
  readonly horned: number;
  readonly meanCall: number;
}): "as-called" | "fewer-horned" | "more-horned" {
  const { kids, horned, meanCall } = line;
  if (atMost(horned, kids, meanCall) < SURPRISE) return "fewer-horned";
  return atMost(kids - horned, kids, 1 - meanCall) < SURPRISE ? "more-horned" : "as-called";
}

/** The chance of at most `yes` of `n`. */
function atMost(yes: number, n: number, chance: number): number {
  let term = (1 - chance) ** n;
  let sum = term;
  for (let k = 1; k <= yes; k++) {
    term *= ((n - k + 1) / k) * (chance / (1 - chance));
    sum += term;
  }
  return sum;
}
