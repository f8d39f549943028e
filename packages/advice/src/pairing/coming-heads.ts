import { probability } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import { windowOf } from "@pollard/husbandry";
import { decideKid } from "@pollard/planning";
import type { Animal } from "@pollard/records";
import { headAdvice, lossesOf } from "../heads/head-advice.ts";
import { vetFiguresOf } from "../settings.ts";
import type { Situation } from "../situation.ts";

/** Points between which a loss is read off along straight lines. */
const STEPS = 20;
/** How many looks are thought through for a kid that is not born yet. */
const LOOKS = 1;

/** What deciding about a head is expected to cost, by the chance of horns. */
export type HeadLoss = (horns: number) => number;

/**
 * What deciding about the head of a kid to come is expected to cost, by its chance of horns: mistakes, looks and lateness,
 * not the operation itself. Nothing where the chance is 0 or 1, most in between: this is what knowing the parents saves.
 *
 * The decision is the same that will be made for the kid (planning's), with a visit on a day that suits it.
 *
 * Shape:   the curve bends down only, and is read off between 21 points, so it is never above its true height.
 * Cost:    two decisions for each point, made when first asked for.
 */
export function comingHeadLoss({ herd, beliefs }: Situation): HeadLoss {
  const losses = lossesOf(herd);
  return readOff((horns) => {
    const belief = { PP: probability(0), Pp: probability(1 - horns), pp: probability(horns) };
    const sexes = (["doe", "buck"] as const).map((sex) => {
      const window = windowOf(sex, vetFiguresOf(herd));
      const decision = decideKid({
        belief,
        kid: { sex },
        readings: [],
        tables: beliefs.heads.tables,
        ageDays: 0,
        window,
        visits: [window.aimTo.value],
        noticeDays: window.end.value,
        losses,
        maxLooks: LOOKS,
      });
      return decision.kind === "ring-vet" ? losses.missedHorns * horns : decision.prospect.loss;
    });
    return sexes.reduce((a, b) => a + b, 0) / sexes.length;
  });
}

/**
 * The same for a kid that is there, with what its head has shown so far, by the chance of horns after it.
 *
 * Assumes: PP and Pp keep their proportion. A kid not read yet counts as one to come; one that only the vet can help
 *          costs the same whatever is known.
 */
export function openHeadLoss(situation: Situation, animal: Animal, coming: HeadLoss): HeadLoss {
  const { herd, beliefs, today } = situation;
  const now = beliefs.polled(animal.id);
  const polled = now.PP + now.Pp;
  const doubled = polled === 0 ? 0 : now.PP / polled;
  return readOff((horns) => {
    const belief: PolledBelief = {
      PP: probability((1 - horns) * doubled),
      Pp: probability((1 - horns) * (1 - doubled)),
      pp: probability(horns),
    };
    const advice = headAdvice(herd, { ...beliefs, polled: () => belief }, animal, today);
    if (advice === undefined) return 0;
    if ("actions" in advice) return Math.min(...advice.actions.map((a) => a.expectedLoss));
    return advice.kind === "read-head" ? coming(horns) : 0;
  });
}

/** A curve read off along straight lines between points that are worked out when first needed. */
function readOff(curve: HeadLoss): HeadLoss {
  const points = new Map<number, number>();
  const at = (step: number): number => {
    const known = points.get(step) ?? curve(step / STEPS);
    points.set(step, known);
    return known;
  };
  return (horns) => {
    const place = Math.min(1, Math.max(0, horns)) * STEPS;
    const below = Math.min(STEPS - 1, Math.floor(place));
    return at(below) + (at(below + 1) - at(below)) * (place - below);
  };
}
