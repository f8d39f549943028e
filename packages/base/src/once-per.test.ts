import { expect, test } from "vitest";
import { oncePer } from "./once-per.ts";

test("[BA-5] it is made once for each object, and anew for another that is alike", () => {
  let times = 0;
  const doubled = oncePer(({ n }: { readonly n: number }) => ({ twice: 2 * n, time: ++times }));
  const [one, alike] = [{ n: 1 }, { n: 1 }];
  const first = doubled(one);
  expect(first).toEqual({ twice: 2, time: 1 });
  expect(doubled(one)).toBe(first);
  expect(doubled(alike)).toEqual({ twice: 2, time: 2 });
  expect(doubled(one)).toBe(first);
});
