import { seededRandom } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { dirichletDraw, logGammaDraw } from "./dirichlet.ts";

const N = 20_000;

describe("dirichletDraw", () => {
  test("[HD-11] draws sum to 1, are never 0, and average to the mean of the counts", () => {
    const random = seededRandom(11);
    const counts = [6, 3, 0.5, 0.02];
    const total = counts.reduce((a, b) => a + b, 0);
    const mean = counts.map(() => 0);
    let [least, off] = [1, 0];
    for (let i = 0; i < N; i++) {
      const draw = dirichletDraw(counts, random);
      off = Math.max(off, Math.abs(draw.reduce((a, b) => a + b, 0) - 1));
      least = Math.min(least, ...draw);
      for (const [k, p] of draw.entries()) mean[k] = (mean[k] ?? 0) + p / N;
    }
    expect(off).toBeLessThan(1e-12);
    expect(least).toBeGreaterThan(0);
    for (const [k, c] of counts.entries()) {
      const m = c / total;
      const se = Math.sqrt((m * (1 - m)) / (total + 1) / N);
      expect(Math.abs((mean[k] ?? 0) - m)).toBeLessThan(5 * se);
    }
  });

  describe("published", () => {
    test.each([0.3, 1, 7.5])("[HD-11] the gamma distribution with shape %d has that mean and variance", (shape) => {
      const random = seededRandom(12);
      let [sum, squares] = [0, 0];
      for (let i = 0; i < N; i++) {
        const x = Math.exp(logGammaDraw(shape, random));
        sum += x;
        squares += x * x;
      }
      const mean = sum / N;
      expect(Math.abs(mean - shape)).toBeLessThan(5 * Math.sqrt(shape / N));
      const variance = squares / N - mean * mean;
      const spreadOfVariance = Math.sqrt((2 * shape * shape + 6 * shape) / N);
      expect(Math.abs(variance - shape)).toBeLessThan(5 * spreadOfVariance);
    });
  });
});
