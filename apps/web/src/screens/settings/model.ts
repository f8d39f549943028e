import { LOSS_SETTINGS, WINDOW_SETTINGS } from "@pollard/advice";
import type { VetWindow } from "@pollard/husbandry";
import type { KidLosses } from "@pollard/planning";

/** Under which key the vet's own age for a sex is kept. */
export function windowKey(sex: "buck" | "doe", figure: keyof VetWindow): string | undefined {
  return Object.entries(WINDOW_SETTINGS).find(([, [of, name]]) => of === sex && name === figure)?.[0];
}

/** Under which key the keeper's own loss is kept. */
export function lossKey(loss: keyof KidLosses): string | undefined {
  return Object.entries(LOSS_SETTINGS).find(([, name]) => name === loss)?.[0];
}

/** A loss one step up or down: steps that feel alike at any size (…, 0.5, 1, 2, 5, 10, …). */
export function lossStep(amount: number, way: "less" | "more"): number {
  const steps = [0, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 3, 5, 10, 20, 50];
  if (way === "more") return steps.find((step) => step > amount + 1e-9) ?? amount;
  return steps.findLast((step) => step < amount - 1e-9) ?? amount;
}
