import { present } from "@pollard/base";
import { animalId, grownHeadLikelihood, inferGenotypes, POLLED } from "@pollard/genetics";
import { aMember } from "@pollard/genetics/testing";
import { describe, expect, test } from "vitest";
import { herdDraw } from "../forecast/herd-draws.ts";
import { pairOutlook } from "./pair.ts";
import { checkPlan } from "./plan-check.ts";

const head = (fact: string, grew: "polled" | "horned") => ({ fact, likelihood: grownHeadLikelihood(grew) });
const problem = {
  locus: POLLED,
  members: [
    aMember("Rook", { xx: 0, evidence: [head("r", "polled")] }),
    aMember("Flint", { xx: 0, evidence: [head("f", "horned")] }),
    aMember("Fern", { xx: 1 }),
    aMember("Sedge", { xx: 1, dam: "Fern", sire: "Rook", evidence: [head("s", "polled")] }),
    aMember("Ash", { xx: 1, evidence: [head("a", "horned")] }),
  ],
};
const answer = inferGenotypes(problem);
const does = ["Fern", "Sedge", "Ash"].map(animalId);
const bucks = ["Rook", "Flint"].map(animalId);
const check = (buckOf: readonly (number | undefined)[], litter: readonly number[]) =>
  checkPlan({
    buckOf,
    outlooks: buckOf.map((b, d) =>
      b === undefined ? undefined : pairOutlook(answer, present(bucks[b], "buck"), present(does[d], "doe")),
    ),
    draw: herdDraw({ problem, answer, does, bucks }),
    ppFertile: [0.5, 0.5],
    litters: does.map(() => litter),
    seasons: 3000,
    seed: 11,
  });

describe("checkPlan", () => {
  test("[PA-9] a plan calculated and simulated agree, doubt about the parents and barren ones included", () => {
    for (const buckOf of [
      [0, 1, 0],
      [1, 0, undefined],
      [0, 0, 0],
    ])
      for (const line of check(buckOf, [0.1, 0.3, 0.5, 0.1])) expect(line, line.of).toMatchObject({ agrees: "yes" });
  });

  test("[PA-9] a plan that was calculated wrongly is found out", () => {
    const right = check([0, 1, 0], [0, 0, 1]);
    const wrong = checkPlan({
      buckOf: [0, 1, 0],
      outlooks: [0, 1, 0].map(() => pairOutlook(answer, present(bucks[1], "Flint"), present(does[2], "Ash"))),
      draw: herdDraw({ problem, answer, does, bucks }),
      ppFertile: [0.5, 0.5],
      litters: does.map(() => [0, 0, 1]),
      seasons: 3000,
      seed: 11,
    });
    expect(right.map(({ agrees }) => agrees)).toEqual(["yes", "yes", "yes"]);
    expect(wrong.find(({ of }) => of === "horned")?.agrees).toBe("no");
  });
});
