import type { Sourced } from "@pollard/base";

/** How a pregnancy can be looked for. `blood` = pregnancy proteins; `belly` = felt or seen from outside. */
export const CHECK_METHODS = ["ultrasound", "blood", "progesterone", "radiograph", "belly"] as const;
export type CheckMethod = (typeof CHECK_METHODS)[number];
/** What a check found. `unsure` = looked and could not tell. */
export type CheckResult = "pregnant" | "empty" | "unsure";

/** Days after conception from which a check tells so much: how often it finds a pregnancy, and an empty doe. */
interface CheckPower {
  readonly from: number;
  readonly to: number;
  readonly finds: Sourced<number>;
  readonly clears: Sourced<number>;
}

const quesada = (value: number): Sourced<number> => ({ value, source: "quesada-pag", checked: "read-in-source" });
const judged = (value: number): Sourced<number> => ({ value, source: "judgement", checked: "judgement" });
const ALWAYS = 200;

/**
 * What each method can tell, by days since conception. Days are the sources' [msd-pregnancy]; how often a check finds a
 * pregnancy is printed for ultrasound and blood at days 24 and 26 [quesada-pag]; the rest is judgement, never 1: a high
 * progesterone "is not proof" says [msd-pregnancy], and blood proteins stay for a while after a loss (from memory).
 */
export const CHECK_POWERS: Readonly<Record<CheckMethod, readonly CheckPower[]>> = {
  ultrasound: [
    { from: 24, to: 29, finds: quesada(0.91), clears: judged(0.95) },
    { from: 30, to: 44, finds: quesada(0.96), clears: judged(0.97) },
    { from: 45, to: ALWAYS, finds: judged(0.99), clears: judged(0.98) },
  ],
  blood: [
    { from: 24, to: 25, finds: quesada(0.95), clears: judged(0.93) },
    { from: 26, to: ALWAYS, finds: judged(0.99), clears: judged(0.95) },
  ],
  progesterone: [
    { from: 19, to: 24, finds: judged(0.97), clears: judged(0.6) },
    { from: 25, to: ALWAYS, finds: judged(0.97), clears: judged(0.4) },
  ],
  radiograph: [{ from: 70, to: ALWAYS, finds: judged(0.98), clears: judged(0.99) }],
  belly: [{ from: 100, to: ALWAYS, finds: judged(0.8), clears: judged(0.8) }],
};

/**
 * How often a doe that conceived `daysAfter` days before shows this result; `undefined` for one not in kid.
 *
 * A doe that conceived too lately for the method, or after the check, looks empty to it. How often an empty doe is cleared
 * goes by `sinceServed`, the days since she was first served.
 *
 * Shape: 1 where the result tells nothing: unsure, or too early for the method whatever happened.
 */
export function checkLikelihood(
  { method, result }: { readonly method: CheckMethod; readonly result: CheckResult },
  daysAfter: number | undefined,
  sinceServed: number,
): number {
  const rowAt = (days: number) => CHECK_POWERS[method].find(({ from, to }) => days >= from && days <= to);
  const clears = rowAt(sinceServed)?.clears.value;
  if (result === "unsure" || clears === undefined) return 1;
  const seen = (daysAfter === undefined ? undefined : rowAt(daysAfter)?.finds.value) ?? 1 - clears;
  return result === "pregnant" ? seen : 1 - seen;
}
