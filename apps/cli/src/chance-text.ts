import type { Probability } from "@pollard/base";

/** A chance with two places. Never 0.00 or 1.00 unless it is exactly that. */
export function chanceText(p: Probability | number): string {
  if (p > 0 && p < 0.005) return "<0.01";
  if (p < 1 && p > 0.995) return ">0.99";
  return p.toFixed(2);
}
