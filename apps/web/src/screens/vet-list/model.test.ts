import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { disbuddingFact, type DoneAnswers, inTurn, readDone } from "./model.ts";

const bodyOf = (answers: DoneAnswers) => disbuddingFact(answers, animalId("k1"), day("2026-03-20"))?.body;

describe("what the vet did", () => {
  test("[UI-356] who is still to be seen comes first, who was seen behind, each in the order of the list", () => {
    const done = { on: day("2026-03-20") };
    const list = [{ kid: "Tern", done }, { kid: "Wren" }, { kid: "Moss", done }, { kid: "Pip" }] as never;
    const names = (lines: unknown) => (lines as readonly { readonly kid: string }[]).map(({ kid }) => kid).join(" ");
    expect(names(inTurn(list).toSee)).toBe("Wren Pip");
    expect(names(inTurn(list).seen)).toBe("Tern Moss");
  });

  test("[UI-28] nothing is kept before it is said what was done", () => {
    expect(bodyOf({ left: "bud" })).toBe(undefined);
  });

  test("[UI-28] what was found stands for the whole head: a side not told of is not sure", () => {
    expect(bodyOf({ done: "both-sides", left: "bud", operator: " Dr Quillan " })).toEqual({
      kid: "k1",
      done: "both-sides",
      operator: "Dr Quillan",
      found: { left: "bud", right: "unsure" },
    });
  });

  test("[UI-28] a head that was left alone has no technique", () => {
    expect(bodyOf({ done: "not-done", technique: "bud-left", right: "no-bud" })).toEqual({
      kid: "k1",
      done: "not-done",
      found: { left: "unsure", right: "no-bud" },
    });
  });

  test("[UI-218] answers kept half given keep their visit's day; what is something else is begun anew", () => {
    expect(readDone({ on: "2026-03-20", left: "bud" })).toEqual({ on: "2026-03-20", left: "bud" });
    expect([readDone(undefined), readDone({ left: "bud" }), readDone("2026-03-20")]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});
