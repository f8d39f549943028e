import { animalModel } from "@pollard/advice";
import { goat, kidding, situation } from "@pollard/advice/testing";
import { day, present, probability } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { Entry, EntryId, Fact, GrownHead, HistoryLine, Stamp } from "@pollard/records";
import { anEntry, aReplacement, aStrike } from "@pollard/records/testing";
import { englishCatalogue, screens } from "@pollard/words";
import { describe, expect, test } from "vitest";
import { historyOf } from "../../worker/entered.ts";
import {
  ageSaid,
  canEnter,
  clearingFact,
  clearsHer,
  contentSaid,
  growthKeyStands,
  isJustAdded,
  siresShown,
  undoOf,
  watchOf,
  whenSaid,
  whySaid,
} from "./model.ts";

const today = day("2026-03-18");
const buck = (name: string) =>
  ({ id: animalId(name), name, tag: undefined, mark: undefined, sex: "buck", damName: undefined }) as const;

const factEntry = ({ kind, on, body }: Fact): Entry => anEntry(kind, body, { on });

describe("a line of its history", () => {
  const pip = animalId("Pip");
  const read = anEntry("head-reading", { kid: pip, signs: { feel: { both: "pointed" } } }, { on: "2026-03-03" });
  const chosen = anEntry("choice", { kid: pip, choice: "vet-list", day: day("2026-03-20") }, { on: "2026-03-04" });
  const visit = anEntry("disbudding", { kid: pip, done: "left" }, { on: "2026-03-05" });
  const grew = anEntry("outcome", { animal: pip, left: "horn", right: "scur" }, { on: "2026-03-17" });
  const wrong = anEntry("outcome", { animal: pip, left: "horn", right: "horn" }, { on: "2026-03-16" });
  const misheard = anEntry("disbudding", { kid: pip, done: "right" }, { on: "2026-03-06" });
  const { herd } = situation(
    [goat("Hazel", "doe"), kidding("Hazel", "2026-03-01", { Pip: "doe" })].concat([
      misheard,
      aReplacement(misheard.id, { kind: "disbudding", on: "2026-03-06", body: { kid: pip, done: "not-done" } }),
      read,
      chosen,
      visit,
      grew,
      wrong,
      aStrike(wrong.id),
    ]),
    "2026-03-18",
  );
  const animal = present(herd.animals.get(pip), "Pip");
  const { words } = { words: englishCatalogue.words(() => buck("Rook")) };
  const said = (entry: { readonly id: string }, readings: "may-be-seen" | "hidden" = "may-be-seen"): string => {
    const line = present(
      herd.history.find((each) => each.entry === entry.id),
      "its line",
    );
    return contentSaid(screens, words, { line, animal, readings, today });
  };

  test("[UI-361] says what was chosen and for when, what the vet did, what grew; of what was put right nothing", () => {
    expect(said(chosen)).toBe("Vet's list, for Friday 20 March");
    expect(said(visit)).toBe("Left only");
    expect(said(grew)).toBe("left horn, right scur");
    expect([said(wrong), said(misheard)]).toEqual(["", ""]);
  });

  test("[UI-361] says anything of the head only to whoever may see its answer: what was chosen tells what was found", () => {
    for (const line of [read, chosen, visit, grew]) {
      expect(said(line)).not.toBe("");
      expect(said(line, "hidden")).toBe("");
    }
  });

  test("[UI-362] the next goat is offered while nothing but its adding is known of this one, on that day alone", () => {
    const added = (on: string) => historyOf(situation([goat("Hazel", "doe")], on).herd, animalId("Hazel"));
    expect(isJustAdded(added("2025-09-01"), day("2025-09-01"))).toBe(true);
    expect(isJustAdded(added("2025-09-02"), day("2025-09-02"))).toBe(false);
    expect(isJustAdded(historyOf(herd, pip), day("2026-03-01"))).toBe(false);
    // That she kidded before she came is asked where she is added.
    const kidded = factEntry(clearingFact("kidded", animalId("Hazel"), day("2025-09-01")));
    const told = historyOf(situation([goat("Hazel", "doe"), kidded], "2025-09-01").herd, animalId("Hazel"));
    expect([told.length, isJustAdded(told, day("2025-09-01"))]).toEqual([2, true]);
  });
});

describe("what clears a doe of the doubt that she is intersex", () => {
  const id = animalId("Sedge");
  const sedge = (over: Parameters<typeof goat>[2], ...more: readonly Fact[]) => {
    const entries = [goat("Sedge", "doe", { head: "polled", ...over }), ...more.map(factEntry)];
    const s = situation(entries, today);
    return { model: present(animalModel(s, id), "Sedge"), s };
  };

  test("[UI-347] is offered on her page: that she kidded, or that a vet looked; once one is said, nothing is", () => {
    const { model } = sedge({});
    expect([model.intersexWatch, clearsHer(model, today)]).toEqual([true, ["kidded", "vet"]]);
    for (const what of ["kidded", "vet"] as const) {
      const after = sedge({}, clearingFact(what, id, today)).model;
      expect([what, after.intersexWatch, clearsHer(after, today)]).toEqual([what, false, []]);
    }
  });

  test("[UI-347] a doe too young to have kidded can be cleared by the vet alone; one that left, or another sex, not at all", () => {
    expect(clearsHer(sedge({ born: day("2025-12-01") }).model, today)).toEqual(["vet"]);
    const sold: Fact = { kind: "departure", on: today, body: { animal: id, why: "sold" } };
    expect(clearsHer(sedge({}, sold).model, today)).toEqual([]);
    const ivy = situation([goat("Ivy", "intersex")], today);
    expect(clearsHer(present(animalModel(ivy, animalId("Ivy")), "Ivy"), today)).toEqual([]);
  });

  test("[UI-347] a vet who finds her a doe after signs were seen can still be told of; said once, it is not asked again", () => {
    const seen: Fact = {
      kind: "trait",
      on: "2026-03-01",
      body: { animal: id, trait: "intersex-signs", value: "seen" },
    };
    expect(clearsHer(sedge({}, seen).model, today)).toEqual(["kidded", "vet"]);
    const ruledOut = clearingFact("vet", id, today);
    expect(clearsHer({ ...sedge({}, seen, ruledOut).model, intersexWatch: true }, today)).toEqual(["kidded"]);
  });

  test("[UI-349] her history says which of them was told, and what other looks found", () => {
    const facts = [
      clearingFact("kidded", id, day("2026-03-02")),
      clearingFact("vet", id, day("2026-03-03")),
      { kind: "trait", on: "2026-03-04", body: { animal: id, trait: "intersex-signs", value: "seen" } },
      { kind: "trait", on: "2026-03-05", body: { animal: id, trait: "wattles", value: "present" } },
    ] as const satisfies readonly Fact[];
    const { model, s } = sedge({}, ...facts);
    const words = englishCatalogue.words(() => buck("Rook"));
    const said = s.herd.history
      .filter((line) => line.kind === "trait")
      .map((line) => contentSaid(screens, words, { line, animal: model.animal, readings: "may-be-seen", today }));
    expect(said).toEqual(["", "signs of both sexes", "the vet ruled out intersex", "she has kidded before"]);
  });
});

describe("one goat", () => {
  test("[UI-351] signs of both sexes are said where they were seen, not derived from the parents", () => {
    expect(watchOf({ ...buck("a"), sex: "intersex" })).toBe("seen");
    expect(watchOf({ ...buck("a"), sex: "doe" })).toBe("may");
  });

  test("[UI-152] why: the belief, what it would be without each fact, and with other founders, in five lines at most", () => {
    const fact = (about: "growth" | "dna-test" | "grown-head", name: string, chance: number) => ({
      fact: { of: animalId(name), about },
      of: buck(name),
      chance,
    });
    const why = {
      locus: { id: "polled", name: "Polled" },
      genotype: "Pp",
      chance: 0.97,
      without: [fact("growth", "Wren", 0.4), fact("dna-test", "Rook", 0.6), fact("grown-head", "Ash", 0.9)],
      founders: { times: 0.5, chance: 0.95 },
    };
    const catalogue = { words: englishCatalogue.words(() => buck("Rook")), loci: englishCatalogue.loci };
    expect(whySaid(screens, catalogue, why)).toEqual([
      "Pp: about 19 in 20.",
      "Without what grew on Wren: about 8 in 20.",
      "Without the DNA test of Rook: about 12 in 20.",
      "Without the grown head of Ash: about 18 in 20.",
      "Were rarer alleles half as common in strangers: about 19 in 20.",
    ]);
    expect(whySaid(screens, catalogue, { ...why, without: [], founders: undefined })).toEqual([
      "Pp: about 19 in 20.",
      "No single record moves it.",
    ]);
  });

  test.each([
    ["2026-03-18", "0 days old"],
    ["2026-03-17", "1 day old"],
    ["2026-02-25", "21 days old"],
    ["2026-02-24", "3 weeks old"],
    ["2025-12-01", "3 months old"],
    ["2023-03-01", "3 years old"],
  ])("[UI-24] born %s: %s", (born, said) => {
    expect(ageSaid(screens, day(born), today)).toBe(said);
  });

  test("[UI-24] only what a goat of that sex and age can have is asked for", () => {
    expect(canEnter("doe", "here", 7)).toEqual([]);
    expect(canEnter("doe", "here", 100)).toEqual(["mating", "growth"]);
    expect(canEnter("doe", "here", undefined)).toEqual(["kidding", "mating", "growth"]);
    expect(canEnter("buck", "here", 400)).toEqual(["mating", "growth"]);
    expect(canEnter("doe", "gone", 400)).toEqual([]);
  });

  test("[UI-374] the key for what grew stands last once the grown head is known as horned or polled", () => {
    const stands = (head?: GrownHead) => {
      const { herd } = situation([goat("Wick", "wether", head === undefined ? {} : { head })], today);
      return growthKeyStands(present(herd.animals.get(animalId("Wick")), "Wick"));
    };
    expect([stands("horned"), stands("polled")]).toEqual(["last", "last"]);
    for (const open of ["disbudded", "unsure", undefined] as const) expect(stands(open)).toBe("with-what-is-due");
  });

  test("[UI-376] a spell is said with both its ends, in the history as aloud; what has one day with that day", () => {
    const words = englishCatalogue.words(() => buck("Rook"));
    const said = (until: string | undefined, time?: string) =>
      whenSaid(
        screens,
        words,
        { on: day("2026-03-02"), time },
        { until: until === undefined ? until : day(until), today },
      );
    expect(said("2026-03-23")).toBe("Monday 2 March to Monday 23 March");
    expect(said("2026-03-23", "07:30")).toBe("Monday 2 March 07:30 to Monday 23 March");
    expect(said(undefined)).toBe("Monday 2 March");
    expect(said(undefined, "07:30")).toBe("Monday 2 March 07:30");
  });

  test("[UI-24] a sire is named alone only where it is clear; else each that it could be, with its chance", () => {
    expect(siresShown([{ sire: buck("Rook"), chance: probability(0.97) }])).toEqual([
      { sire: buck("Rook"), counted: undefined },
    ]);
    const shown = siresShown([
      { sire: buck("Rook"), chance: probability(0.6) },
      { sire: buck("Gale"), chance: probability(0.38) },
      { sire: undefined, chance: probability(0.02) },
    ]);
    expect(shown.map(({ sire, counted }) => `${sire?.name} ${counted?.count} of ${counted?.of}`)).toEqual([
      "Rook 12 of 20",
      "Gale 8 of 20",
    ]);
    expect(siresShown([])).toEqual([]);
  });

  test("[UI-25] what stands can be struck, and what was struck can be brought back", () => {
    const line = (state: HistoryLine["state"], undoneBy: string | undefined): HistoryLine => ({
      entry: "e1" as EntryId,
      on: today,
      time: undefined,
      by: "Ines",
      at: "" as Stamp,
      kind: "weight",
      animals: [],
      state,
      undoneBy: undoneBy as EntryId | undefined,
    });
    expect(undoOf(line("stands", undefined))).toBe("strike");
    expect(undoOf(line("struck", "e2"))).toBe("bring-back");
    expect(undoOf(line("replaced", "e2"))).toBe("none");
  });
});
