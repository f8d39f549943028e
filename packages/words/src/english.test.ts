import type { AdviceProblem, AnimalRef, Counted, KidAdvice, Task, Urgency } from "@pollard/advice";
import { addDays, type Day, day, probability } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import type { EntryId, HerdId } from "@pollard/records";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Catalogue } from "./catalogue.ts";
import { englishCatalogue } from "./en/catalogue.ts";
import { english } from "./en/english.ts";
import { spanish } from "./es/spanish.ts";
import { CATALOGUES, expectPlain } from "./testing.ts";

const today = day("2026-03-14");
const ref = (name: string | undefined, over: Partial<AnimalRef> = {}): AnimalRef => ({
  id: animalId("a1"),
  name,
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: undefined,
  ...over,
});
const wren = ref("Wren");
const nameOf = (id: AnimalId): AnimalRef => ref("Hazel", { id });
const words = english(nameOf);

const entry = "e1" as EntryId;
const goat = animalId("a1");
const TASKS: readonly Task[] = [
  { kind: "ring-vet", kid: wren, end: addDays(today, -1) },
  { kind: "ring-vet", kid: wren, end: addDays(today, 1) },
  { kind: "vet-visit", day: addDays(today, 2), kids: [wren, wren, wren, wren], unread: [] },
  { kind: "vet-visit", day: addDays(today, 2), kids: [], unread: [wren] },
  { kind: "vet-work-to-enter", day: addDays(today, -2), kids: [wren] },
  { kind: "ask-vet-to-come", day: addDays(today, 2), end: addDays(today, 6), kids: [wren] },
  { kind: "read-head", kid: wren, from: today, by: addDays(today, 2), end: addDays(today, 9) },
  { kind: "finish-reading", kid: wren, by: today, end: addDays(today, 9) },
  { kind: "look-again", kid: wren, day: addDays(today, 2), end: addDays(today, 9) },
  { kind: "advice-changed", kid: wren, chosen: "leave", advised: "vet-list", end: addDays(today, 5) },
  { kind: "kidding-due", doe: wren, from: today, likely: addDays(today, 3), to: addDays(today, 8), overdue: false },
  { kind: "kidding-due", doe: wren, from: today, likely: addDays(today, -9), to: addDays(today, -3), overdue: true },
  { kind: "check-growth", animal: wren, from: today, by: addDays(today, 30) },
  { kind: "problems", count: 3 },
  { kind: "lost-kids", doe: wren, on: today },
  { kind: "falling-behind", kid: wren, how: "losing", lastKg: 4.1, weighed: addDays(today, -1) },
  { kind: "falling-behind", kid: wren, how: "slow", lastKg: 4.1, weighed: addDays(today, -1) },
  { kind: "care", code: "kid-vaccine", animals: [wren, wren], by: addDays(today, 3), ask: "ask-vet" },
];
const decided = (kind: "leave" | "look-again" | "vet-list"): KidAdvice => ({
  kind,
  day: kind === "leave" ? undefined : addDays(today, 2),
  visit: kind === "vet-list" ? "extra" : undefined,
  end: addDays(today, 8),
  actions: [],
  missed: probability(0.02),
  needless: probability(0.1),
  leaveUpTo: probability(0.2),
  listFrom: probability(0.7),
  lookSaves: 0.1,
  rule: "KD-1",
});
const ADVICE: readonly KidAdvice[] = [
  decided("leave"),
  decided("look-again"),
  decided("vet-list"),
  { kind: "read-head", from: today, by: addDays(today, 3), end: addDays(today, 9), rule: "KD-1" },
  { kind: "finish-reading", by: addDays(today, 3), end: addDays(today, 9), rule: "KD-1" },
  { kind: "ring-vet", end: addDays(today, -2), rule: "KD-2" },
  { kind: "ring-vet", end: today, rule: "KD-3" },
  { kind: "done", what: "disbudded", rule: "KD-1" },
];
const HORNS = { id: "polled", name: "Polled", suspects: { facts: [], links: [] } } as const;
const WATTLES = { ...HORNS, id: "wattles", name: "Wattles" } as const;

const PROBLEMS: readonly AdviceProblem[] = [
  { code: "unknown-animal", entry, animal: goat },
  { code: "born-twice", entry, animal: goat, first: entry },
  { code: "two-with-one-tag", entry, tag: "0012", animals: [goat, goat] },
  { code: "sire-is-no-buck", entry, animal: goat, sire: goat },
  { code: "dam-is-no-doe", entry, animal: goat, dam: goat },
  { code: "own-ancestor", entry, animals: [goat, goat] },
  { code: "older-than-parent", entry, animal: goat, parent: goat },
  { code: "in-the-future", entry, on: addDays(today, 40), today },
  { code: "before-birth", entry, animal: goat, on: today, born: today },
  { code: "after-departure", entry, animal: goat, on: today, left: today },
  { code: "ends-before-it-starts", entry, on: today, until: today },
  { code: "corrects-nothing", entry, target: entry },
  { code: "other-kind", entry, target: entry },
  { code: "rival-corrections", entry, rivals: [entry, entry] },
  { code: "one-id-two-entries", entry },
  { code: "other-herd", entry, herd: "h" as HerdId },
  { code: "too-new", entry },
  { code: "cannot-be", locus: HORNS, entries: [entry], animals: [wren], what: "horned-kid-of-polled" },
  { code: "cannot-be", locus: HORNS, entries: [entry], animals: [wren], what: "polled-kid-of-horned" },
  { code: "cannot-be", locus: HORNS, entries: [entry], animals: [wren], what: "other" },
  { code: "cannot-be", locus: WATTLES, entries: [entry], animals: [wren], what: "other" },
  {
    code: "hard-to-believe",
    locus: HORNS,
    entries: [entry],
    animal: wren,
    what: "polled-kid-of-horned",
    wrongSire: probability(0.9),
  },
  {
    code: "hard-to-believe",
    locus: HORNS,
    entries: [entry],
    animal: wren,
    what: "horned-kid-of-polled",
    wrongSire: probability(0.1),
  },
  {
    code: "hard-to-believe",
    locus: WATTLES,
    entries: [entry],
    animal: wren,
    what: "other",
    wrongSire: probability(0.1),
  },
  { code: "same-kid", entries: [entry, entry], animals: [wren, { ...wren, name: "Ash" }], key: "same:a b" },
  { code: "odd-gestation", entry, animal: wren, days: 171 },
  { code: "bad-locus", entries: [], locus: "coat", problem: { code: "not-json", path: "$" } },
  { code: "bad-frequencies", entries: [], locus: "Wattles", breed: undefined },
  { code: "bad-frequencies", entries: [], locus: "Wattles", breed: "boer" },
  {
    code: "unreadable-finding",
    entry,
    animal: wren,
    locus: { id: "wattles", name: "Wattles" },
    problem: { code: "unknown-phenotype", got: "three", allowed: ["present", "absent"] },
  },
];

/** Everything sayable, sentence by sentence. */
const textsOf = (catalogue: Catalogue): readonly string[] => {
  const said = catalogue.words(nameOf);
  return [
    ...TASKS.flatMap((task) =>
      Object.values<string>({ ...said.task({ task, by: addDays(today, 2), daysLeft: 2, urgency: "soon" }, today) }),
    ),
    ...ADVICE.flatMap((a) => Object.values<string | undefined>({ ...said.advice(a, today) })),
    ...PROBLEMS.flatMap((p) => Object.values<string>({ ...said.problem(p, today) })),
    ...Object.values(catalogue.careTexts.cautions),
  ].filter((text) => text !== undefined);
};

describe("english", () => {
  test.each(CATALOGUES)(
    "[WO-1] no sentence has more than 15 words, a percentage or a bare code: %s",
    (_, catalogue) => {
      expectPlain(textsOf(catalogue));
      expect(textsOf(catalogue).length).toBeGreaterThan(60);
    },
  );

  test.each(CATALOGUES)("[WO-13] every kind is said in its own words: %s", (_, catalogue) => {
    const said = catalogue.words(nameOf);
    const titles = TASKS.map((task) => said.task({ task, by: today, daysLeft: 2, urgency: "soon" }, today));
    expect(new Set(titles.map((task) => JSON.stringify(task))).size).toBe(TASKS.length);
    expect(new Set(PROBLEMS.map((p) => said.problem(p, today).what)).size).toBe(PROBLEMS.length);
  });

  test("[WO-2] three in four is said with both sides", () => {
    expect(words.horns({ of: 4, count: 3, sense: "about" })).toBe(
      "About 3 in 4 kids like this one grow horns; about 1 in 4 stay hornless.",
    );
  });

  test("[WO-3] next to nothing is not nothing", () => {
    expect(words.horns({ of: 100, count: 0, sense: "under-one" })).toBe(
      "Fewer than 1 in 100 kids like this one grow horns; more than 99 in 100 stay hornless.",
    );
    expect(words.horns({ of: 4, count: 0, sense: "proven" })).toBe("This kid stays hornless.");
  });

  test("[WO-4] a kid without name or tag goes by its dam and its mark", () => {
    expect(words.label(ref(undefined, { damName: "Hazel", sex: "buck", mark: "white sock" }))).toBe(
      "Hazel's buck kid (white sock)",
    );
    expect(words.label(ref(undefined, { tag: "0012" }))).toBe("Tag 0012");
    expect(words.label(ref(undefined, { sex: "doe", mark: "grey" }))).toBe("Unnamed doe (grey)");
    expect(words.label(ref(undefined, { sex: "unsure" }))).toBe("Unnamed goat");
  });

  test("[WO-61] a goat to be watched for intersex: what was seen, or what may be; nothing is claimed of its parents", () => {
    for (const [, { screens }] of CATALOGUES) {
      const said = Object.values(screens.animal.intersexWatch);
      expectPlain(said);
      expect(said.join(" ")).not.toMatch(/parent|padre|madre|\bdam\b|\bsire\b/i);
    }
    expect(englishCatalogue.screens.animal.intersexWatch.seen).toMatch(/signs of both/);
  });

  test("[WO-60] a goat known by its mark can stand in a list, and its head can be named", () => {
    const kid = ref(undefined, { damName: "Hazel", sex: "buck", mark: "white sock" });
    const titleOf = (task: Task) => words.task({ task, by: today, daysLeft: 0, urgency: "now" }, today).title;
    const window = { from: today, by: today, end: addDays(today, 6) };
    expect(titleOf({ kind: "read-head", kid, ...window })).toBe("Read the head of Hazel's buck kid (white sock)");
    expect(titleOf({ kind: "read-head", kid: wren, ...window })).toBe("Read Wren's head");
    const { answer } = englishCatalogue.screens;
    expect(answer.title("Hazel's buck kid (white sock)")).toBe("The head of Hazel's buck kid (white sock)");
    expect(answer.title("Wren")).toBe("Wren's head");
    const care: Task = { kind: "care", code: "navel", animals: [kid, wren], by: today, ask: "do" };
    expect(titleOf(care)).toMatch(/: Hazel's buck kid \(white sock\), Wren$/);
  });

  test("[WO-5] every problem says what is wrong and how to mend it", () => {
    for (const [p, { what, mend }] of CATALOGUES.flatMap(([, catalogue]) =>
      PROBLEMS.map((problem) => [problem, catalogue.words(nameOf).problem(problem, today)] as const),
    )) {
      expect(what.length, p.code).toBeGreaterThan(20);
      expect(mend.length, p.code).toBeGreaterThan(20);
      expect(`${what} ${mend}`, p.code).not.toMatch(/\byou (made|did|forgot|failed)\b|undefined|\be1\b|\ba1\b/i);
    }
  });

  test("[WO-65] the vet is rung now where today is the last day to ask, else by the day that is", () => {
    const rung = (by: Day, daysLeft: number, urgency: Urgency) => {
      const task: Task = { kind: "ask-vet-to-come", day: addDays(today, 2), end: addDays(today, 6), kids: [wren] };
      const dated = { task, by, daysLeft, urgency };
      return [words, spanish(nameOf)].map((speaks) => [
        speaks.urgency(urgency, daysLeft),
        speaks.task(dated, today).when,
      ]);
    };
    expect(rung(today, 0, "now")).toEqual([
      ["Now", "ring now"],
      ["Ahora", "llame ahora"],
    ]);
    expect(rung(addDays(today, 1), 1, "soon")).toEqual([
      ["1 day left", "ring by tomorrow"],
      ["Queda 1 día", "llame a más tardar mañana"],
    ]);
  });

  test("[WO-6] days by their names", () => {
    expect(words.day(today, today)).toBe("today");
    expect(words.day(addDays(today, 1), today)).toBe("tomorrow");
    expect(words.day(day("2026-03-20"), today)).toBe("Friday 20 March");
    expect(words.day(day("2025-12-31"), today)).toBe("Wednesday 31 December 2025");
    expect(words.daysFrom(today, addDays(today, -3))).toBe("3 days ago");
  });

  describe("laws", () => {
    test("[WO-2] both sides of any counted chance add up to its denominator", () => {
      fc.assert(
        fc.property(fc.constantFrom(4, 10, 20, 100), fc.double({ min: 0.01, max: 0.99, noNaN: true }), (of, p) => {
          const count = Math.min(of - 1, Math.max(1, Math.round(p * of)));
          for (const [, catalogue] of CATALOGUES) {
            const said = catalogue.words(nameOf).horns({ of, count, sense: "about" } satisfies Counted);
            const [horned, hornless] = [...said.matchAll(/(\d+) (?:in|de cada) \d+/gi)].map((m) => Number(m[1]));
            expect((horned ?? 0) + (hornless ?? 0)).toBe(of);
          }
        }),
      );
    });
  });
});
