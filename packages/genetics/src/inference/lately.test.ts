import { expect, test } from "vitest";
import { Lately } from "./lately.ts";

test("[GE-33] of more than so many names the one not asked for longest is forgotten", () => {
  const lately = new Lately<number>(2);
  const times = (name: string) => lately.ask(name, (before = 0) => before + 1);
  expect([times("a"), times("b"), times("a")]).toEqual([1, 1, 2]);
  expect(times("c")).toBe(1);
  expect(times("a")).toBe(3);
  expect(times("b")).toBe(1);
});
