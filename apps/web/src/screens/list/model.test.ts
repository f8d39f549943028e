import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { callsNobody, firstSaid, toggled, wishesIn, withColumn } from "./model.ts";

describe("what is said about a list", () => {
  test("[UI-140] a column that is chosen for another heading leaves the one it was under", () => {
    expect(withColumn(["name", "tag", undefined], 2, "tag")).toEqual(["name", undefined, "tag"]);
    expect(withColumn(["name", "tag"], 0, undefined)).toEqual([undefined, "tag"]);
    expect(withColumn([undefined, undefined], 0, "name")).toEqual(["name", undefined]);
  });

  test("[UI-369] goats are called by name, tag, chip number or id, and by nothing else", () => {
    expect(callsNobody([undefined, "sex", "born"])).toBe("nobody");
    for (const column of ["name", "tag", "chip", "id"] as const) expect(callsNobody(["sex", column])).toBe("goats");
  });

  test("[UI-140] nothing is guessed of days and sexes until it is said", () => {
    expect(wishesIn(firstSaid(["name"]))).toEqual({ columns: ["name"], parents: "gone" });
    expect(wishesIn({ ...firstSaid(["name"]), days: "month-day", otherwise: "doe" })).toEqual({
      columns: ["name"],
      parents: "gone",
      days: "month-day",
      otherwise: "doe",
    });
  });

  test("[UI-140] a tick is taken away by the same tap", () => {
    const [hazel, fern] = [animalId("hazel"), animalId("fern")];
    expect(toggled(toggled([hazel], fern), hazel)).toEqual([fern]);
  });
});
