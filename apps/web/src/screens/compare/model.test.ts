import { describe, expect, test } from "vitest";
import { besideOf } from "./model.ts";

const litter = (...ids: readonly string[]) => ids.map((id) => ({ id }));

describe("two kids side by side", () => {
  test("[UI-82] of twins the other stands beside; of more one is chosen; a kid alone has none", () => {
    expect(besideOf("a", undefined, litter("a", "b"))).toEqual({ state: "two", other: "b" });
    expect(besideOf("a", undefined, litter("a", "b", "c"))).toEqual({ state: "choose" });
    expect(besideOf("a", undefined, litter("a"))).toEqual({ state: "alone" });
    expect(besideOf("a", undefined, [])).toEqual({ state: "alone" });
  });

  test("[UI-82] whoever was asked for stands beside, but nobody beside itself", () => {
    expect(besideOf("a", "c", litter("a", "b", "c"))).toEqual({ state: "two", other: "c" });
    expect(besideOf("a", "a", litter("a", "b"))).toEqual({ state: "two", other: "b" });
  });
});
