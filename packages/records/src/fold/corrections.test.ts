import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import { anEntry, aReplacement, aStrike, type Over } from "../entry/entry-builders.ts";
import type { Fact } from "../entry/entry-kinds.ts";
import type { EntryId } from "../entry/ids.ts";
import { fold } from "./ledger.ts";

const TODAY = day("2026-06-01");
const hazel = animalId("hazel");
const doe = anEntry("animal", { animal: hazel, sex: "doe" });
const weighed = (kg: number, over: Over = {}) =>
  anEntry("weight", { animal: hazel, kg, how: "weighed" }, { on: "2026-03-01", ...over });
const fact = (kg: number): Fact => ({ kind: "weight", on: "2026-03-02", body: { animal: hazel, kg, how: "weighed" } });

const folded = (...entries: readonly (Entry | TooNewEntry)[]) => fold([doe, ...entries], TODAY);
const kgsIn = (...entries: readonly Entry[]) =>
  folded(...entries)
    .herd.animals.get(hazel)
    ?.weights.map(({ kg }) => kg) ?? [];
const problemsIn = (...entries: readonly (Entry | TooNewEntry)[]) => folded(...entries).problems;

/** The history in words: each line's entry, and how it fares. */
const historyOf = (...entries: readonly Entry[]) =>
  folded(...entries)
    .herd.history.filter(({ kind }) => kind === "weight")
    .map(({ entry, state, undoneBy }) => [entry, state, undoneBy]);

describe("corrections", () => {
  test("[RE-16] a replacement puts another fact in place; who saw it and when it was written stay", () => {
    const first = weighed(4, { by: "Ines" });
    const mend = aReplacement(first.id, fact(5), [], { by: "Tobias" });
    const [weight] = folded(first, mend).herd.animals.get(hazel)?.weights ?? [];
    expect(weight).toMatchObject({ kg: 5, on: "2026-03-02", entry: first.id, by: "Ines", at: first.at });
    expect(problemsIn(first, mend)).toEqual([]);
    expect(historyOf(first, mend)).toEqual([
      [mend.id, "stands", undefined],
      [first.id, "replaced", mend.id],
    ]);
  });

  test("[RE-16] a strike takes an entry back; striking the strike brings it back", () => {
    const first = weighed(4);
    const strike = aStrike(first.id);
    const back = aStrike(strike.id);
    expect(kgsIn(first, strike)).toEqual([]);
    expect(historyOf(first, strike)).toEqual([[first.id, "struck", strike.id]]);
    expect(kgsIn(first, strike, back)).toEqual([4]);
    expect(historyOf(first, strike, back)).toEqual([[first.id, "stands", undefined]]);
    expect(kgsIn(first, strike, back, aStrike(back.id))).toEqual([]);
  });

  test("[RE-16] a correction may itself be replaced or struck", () => {
    const first = weighed(4);
    const mend = aReplacement(first.id, fact(5));
    const mendAgain = aReplacement(mend.id, fact(6));
    expect(kgsIn(first, mend, mendAgain)).toEqual([6]);
    expect(kgsIn(first, mend, mendAgain, aStrike(mendAgain.id))).toEqual([5]);
    expect(kgsIn(first, mend, mendAgain, aStrike(mend.id))).toEqual([4]);
    expect(problemsIn(first, mend, mendAgain)).toEqual([]);
    const strike = aStrike(mend.id);
    expect(historyOf(first, mend, mendAgain, strike)).toEqual([
      [mendAgain.id, "struck", strike.id],
      [mend.id, "struck", strike.id],
      [first.id, "stands", undefined],
    ]);
  });

  test("[RE-16] what a correction takes back may be the only entry of an animal", () => {
    expect(fold([doe, aStrike(doe.id)], TODAY).herd.animals.size).toBe(0);
  });

  test("[RE-16] a replacement may name another animal: both are set right", () => {
    const holly = animalId("holly");
    const other = anEntry("animal", { animal: holly, sex: "doe" });
    const first = weighed(4);
    const mend = aReplacement(first.id, { ...fact(4), body: { animal: holly, kg: 4, how: "weighed" } } as Fact);
    const { animals } = folded(other, first, mend).herd;
    expect(animals.get(hazel)?.weights).toEqual([]);
    expect(animals.get(holly)?.weights).toHaveLength(1);
  });

  test("[RE-16] a chain of 6,000 corrections is followed to its end", () => {
    const chain: Entry[] = [weighed(4)];
    for (let at = 0; at < 3000; at++) chain.push(aReplacement(chain.at(-1)?.id ?? "", fact(5 + (at % 90))));
    const strikes: Entry[] = [aStrike(chain.at(-1)?.id ?? "")];
    for (let at = 0; at < 2999; at++) strikes.push(aStrike(strikes.at(-1)?.id ?? ""));
    expect(kgsIn(...chain)).toEqual([5 + (2999 % 90)]);
    expect(kgsIn(...chain, ...strikes)).toEqual([5 + (2999 % 90)]);
    expect(kgsIn(...chain, ...strikes.slice(0, -1))).toEqual([5 + (2998 % 90)]);
  });

  describe("rivals", () => {
    const first = weighed(4);
    const ines = aReplacement(first.id, fact(5), [], { device: "phone-ines" });
    const tobias = aReplacement(first.id, fact(6), [], { device: "phone-tobias" });

    test("[RE-17] two phones mended one entry differently: a question, and the later counts until it is answered", () => {
      expect(problemsIn(first, ines, tobias)).toEqual([
        { code: "rival-corrections", entry: first.id, rivals: [ines.id, tobias.id] },
      ]);
      expect(kgsIn(first, tobias, ines)).toEqual([6]);
      expect(historyOf(first, ines, tobias)).toEqual([
        [tobias.id, "stands", undefined],
        [ines.id, "replaced", tobias.id],
        [first.id, "replaced", tobias.id],
      ]);
    });

    test("[RE-17] two phones mended it alike: no question", () => {
      const same = aReplacement(first.id, fact(5));
      expect(problemsIn(first, ines, same)).toEqual([]);
    });

    test("[RE-17] a replacement that settles them answers the question", () => {
      const answer = aReplacement(first.id, fact(7), [ines.id, tobias.id]);
      expect(problemsIn(first, ines, tobias, answer)).toEqual([]);
      expect(kgsIn(first, ines, tobias, answer)).toEqual([7]);
    });

    test("[RE-17] the answer may be that the earlier was right: it is replaced by itself and settles the other", () => {
      const answer = aReplacement(ines.id, fact(5), [tobias.id]);
      expect(problemsIn(first, ines, tobias, answer)).toEqual([]);
      expect(kgsIn(first, ines, tobias, answer)).toEqual([5]);
    });

    test("[RE-17] an answer that was struck, or that is older than the rival, settles nothing", () => {
      const answer = aReplacement(first.id, fact(7), [ines.id, tobias.id]);
      expect(problemsIn(first, ines, tobias, answer, aStrike(answer.id))).toHaveLength(1);
      expect(kgsIn(first, ines, tobias, answer, aStrike(answer.id))).toEqual([6]);
      const early = aReplacement(first.id, fact(7), [ines.id, tobias.id], { at: "2025-01-01T00:00:00.000Z-0000-barn" });
      expect(problemsIn(first, ines, tobias, early)).toMatchObject([{ rivals: [early.id, ines.id, tobias.id] }]);
    });

    test("[RE-17] striking one rival answers the question too", () => {
      expect(problemsIn(first, ines, tobias, aStrike(tobias.id))).toEqual([]);
      expect(kgsIn(first, ines, tobias, aStrike(tobias.id))).toEqual([5]);
    });
  });

  test("[RE-18] a correction whose entry is not here is a problem until the entry comes, or the correction is struck", () => {
    const first = weighed(4);
    const mend = aReplacement(first.id, fact(5));
    expect(problemsIn(mend)).toEqual([{ code: "corrects-nothing", entry: mend.id, target: first.id }]);
    expect(problemsIn(mend, aStrike(mend.id))).toEqual([]);
    expect(kgsIn(mend, first)).toEqual([5]);
  });

  test("[RE-18] corrections in a ring, or of themselves, are problems and nothing more", () => {
    const self = aStrike("self", { id: "self" });
    const [left, right] = [aStrike("right", { id: "left" }), aStrike("left", { id: "right" })];
    expect(problemsIn(self, left, right)).toEqual([
      { code: "corrects-nothing", entry: "left", target: "right" },
      { code: "corrects-nothing", entry: "right", target: "left" },
      { code: "corrects-nothing", entry: "self", target: "self" },
    ]);
  });

  test("[RE-18] a correction of an entry that is too new waits, without a problem of its own", () => {
    const tooNew = { id: "n1" as EntryId, tooNew: { v: 2, id: "n1" } };
    expect(problemsIn(tooNew, aStrike("n1"))).toEqual([{ code: "too-new", entry: "n1" }]);
  });

  test("[RE-18] a replacement of another kind, or of a strike, is a problem and is not used", () => {
    const first = weighed(4);
    const note: Fact = { kind: "note", on: "2026-03-01", body: { text: "rain" } };
    const mend = aReplacement(first.id, note);
    expect(problemsIn(first, mend)).toEqual([{ code: "other-kind", entry: mend.id, target: first.id }]);
    expect(kgsIn(first, mend)).toEqual([4]);
    expect(problemsIn(first, mend, aStrike(mend.id))).toEqual([]);
    expect(kgsIn(first, mend, aReplacement(mend.id, fact(5)))).toEqual([5]);
    const strike = aStrike(first.id);
    const ofStrike = aReplacement(strike.id, fact(5));
    expect(problemsIn(first, strike, ofStrike)).toEqual([
      { code: "other-kind", entry: ofStrike.id, target: strike.id },
    ]);
  });
});
