import fc from "fast-check";
import { describe, expect, test } from "vitest";
import impossible from "../../published/genotypes/geno_09_impossible.json";
import { grownHeadLikelihood } from "../loci/polled-evidence.ts";
import { POLLED } from "../loci/polled.ts";
import { aFact, aMember, byEnumeration } from "../testing.ts";
import { animalId } from "../vocabulary.ts";
import { explainConflicts, type Explanation, explanations, RECORD_ERRORS, type WrongRecord } from "./explanations.ts";
import { parseGenotypeFile } from "../pedigree/genotype-file.ts";
import { inferGenotypes } from "../genotypes/infer-genotypes.ts";
import type { Member, PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { surprises } from "./surprises.ts";

const herd = (...members: readonly Member[]): PedigreeProblem => ({
  locus: POLLED,
  members,
  frequencies: { default: [0.3, 0.7] },
});
const head = (id: string, said: "polled" | "horned") => [
  { fact: `${id}'s head`, likelihood: grownHeadLikelihood(said) },
];
const kidId = animalId("kid");

/** A polled kid of two horned parents, each of whom has had three other kids, all horned. */
const strangeKid = (sires: readonly (readonly [string | undefined, number])[]): PedigreeProblem =>
  herd(
    aMember("buck", { xx: 0, evidence: head("buck", "horned") }),
    aMember("doe", { xx: 1, evidence: head("doe", "horned") }),
    aMember("kid", { dam: "doe", sires, evidence: head("kid", "polled") }),
    ...[1, 2, 3].map((k) => aMember(`k${k}`, { dam: "doe", sire: "buck", evidence: head(`k${k}`, "horned") })),
  );
const suspects = {
  facts: ["buck's head", "doe's head", "kid's head"],
  links: [
    { kid: kidId, parent: "sire" as const },
    { kid: kidId, parent: "dam" as const },
  ],
};
const nameOf = (e: Explanation): string =>
  e.kind === "as-written" ? e.kind : e.kind === "several-wrong" ? e.records.map(recordName).join(" + ") : recordName(e);
const recordName = (r: WrongRecord): string => (r.kind === "wrong-fact" ? r.fact : `wrong ${r.link.parent}`);

describe("explanations", () => {
  test("[GE-30] a polled kid of two horned parents: most likely another sire, then its head misread or noted wrongly", () => {
    const ranked = explanations(strangeKid([["buck", 1]]), suspects);
    // As written, the reading's own error has to have struck: that is the misread head.
    expect(ranked.slice(0, 3).map(nameOf)).toEqual(["wrong sire", "as-written", "kid's head"]);
  });

  test("[GE-30] an unknown buck among the candidates already is the doubt about the sire, and is not counted twice", () => {
    const error = RECORD_ERRORS.sire.value;
    const plain = explanations(strangeKid([["buck", 1]]), suspects);
    const doubted = explanations(
      strangeKid([
        ["buck", 1 - error],
        [undefined, error],
      ]),
      suspects,
    );
    expect(doubted.map(nameOf)).toEqual(plain.map(nameOf));
    doubted.forEach((e, i) => expect(e.chance).toBeCloseTo(plain[i]?.chance ?? Number.NaN, 12));
  });

  test("[GE-30] a buck known by this kid alone: the chance of another sire is the one that the inference gives", () => {
    const error = 0.05;
    const looksBuck = { fact: "buck's look", likelihood: { XX: [0.01, 0.01, 0.01], XY: [1, 1, 1] } };
    const problem = herd(
      aMember("buck", { xx: 0.5, evidence: [...head("buck", "horned"), looksBuck] }),
      aMember("doe", { xx: 0.5, evidence: head("doe", "horned") }),
      aMember("kid", {
        dam: "doe",
        sires: [
          ["buck", 1 - error],
          [undefined, error],
        ],
        evidence: head("kid", "polled"),
      }),
    );
    const ranked = explanations(problem, { facts: [], links: [{ kid: kidId, parent: "sire" }] });
    const wrongSire = ranked.find((e) => nameOf(e) === "wrong sire")?.chance;
    expect(wrongSire).toBeCloseTo(inferGenotypes(problem).belief(kidId).sires.get(undefined) ?? 0, 9);
  });

  test("[GE-74] a wrong sire is one record for the litter: its chance is that of a stranger, for any of the kids", () => {
    for (const mixed of [0, 0.4, 1]) {
      const twin = (id: string, look: "polled" | "horned") =>
        aMember(id, {
          dam: "doe",
          sires: [
            ["buck", 0.7],
            ["other", 0.25],
            [undefined, 0.05],
          ],
          litter: { id: "spring", mixed },
          evidence: head(id, look),
        });
      const problem = herd(
        aMember("buck", { xx: 0, evidence: head("buck", "horned") }),
        aMember("other", { xx: 0, evidence: head("other", "horned") }),
        aMember("doe", { xx: 1, evidence: head("doe", "horned") }),
        twin("kid", "polled"),
        twin("mate", "horned"),
      );
      const [kid, mate] = [kidId, animalId("mate")];
      const links = [kid, mate].map((id) => ({ kid: id, parent: "sire" as const }));
      const ranked = explanations(problem, { facts: [], links });
      const wrong = ranked.filter((e) => nameOf(e) === "wrong sire");
      const strangers = inferGenotypes(problem)
        .siresTogether([kid, mate])
        .reduce((sum, { sires, chance }) => (sires.includes(undefined) ? sum + chance : sum), 0);
      if (mixed < 1) {
        expect(wrong).toHaveLength(1);
        expect(wrong[0]?.chance).toBeCloseTo(strangers, 9);
        expect(ranked.reduce((sum, e) => sum + e.chance, 0)).toBeCloseTo(1, 12);
      } else expect(wrong).toHaveLength(2); // mates who tell nothing of each other have a record each
    }
  });

  test("[GE-74] where no stranger is among the sires given, a litter's wrong sire is as rare as one kid's", () => {
    const twins = (kids: readonly string[]) =>
      herd(
        aMember("buck", { xx: 0, evidence: [sure("buck", 2)] }),
        aMember("doe", { xx: 1, evidence: [sure("doe", 2)] }),
        ...kids.map((id) =>
          aMember(id, { dam: "doe", sire: "buck", litter: { id: "spring", mixed: 0 }, evidence: [sure(id, 1)] }),
        ),
      );
    const shareOfSire = (kids: readonly string[]) => {
      const links = kids.map((kid) => ({ kid: animalId(kid), parent: "sire" as const }));
      const found = explanations(twins(kids), { facts: ["buck"], links });
      const chance = (name: string) => found.find((e) => nameOf(e) === name)?.chance ?? Number.NaN;
      return chance("wrong sire") / chance("buck");
    };
    // A stranger hands P to each kid as often as founders have it; a buck whose test is another's, as often as he has it himself.
    const P = 0.3;
    const byChance = (n: number) => P ** n / (P * P + 2 * P * (1 - P) * 0.5 ** n);
    const odds = (p: number) => p / (1 - p);
    for (const kids of [["kid"], ["kid", "mate"]])
      expect(shareOfSire(kids)).toBeCloseTo(
        (odds(RECORD_ERRORS.sire.value) / odds(RECORD_ERRORS.fact.value)) * byChance(kids.length),
        9,
      );
  });

  test("[GE-30] a plain contradiction: nothing as written is possible, and every suspect has a chance", () => {
    const read = parseGenotypeFile(impossible);
    if (!read.ok) throw new Error(read.error.code);
    const [conflict] = inferGenotypes(read.value).conflicts;
    if (!conflict) throw new Error("no conflict");
    const ranked = explanations(read.value, conflict);
    expect(ranked.map(nameOf).sort()).toEqual(["d#1", "k#1", "s#1", "wrong dam", "wrong sire"]);
    expect(ranked.reduce((s, e) => s + e.chance, 0)).toBeCloseTo(1, 12);
  });

  const sure = (fact: string, g: number) =>
    aFact(
      fact,
      [0, 1, 2].map((x) => (x === g ? 1 : 0)),
    );
  /** A dam and a sire that tested pp; a daughter that tested PP, and her kid by that sire, too. */
  const twoContradictions = herd(
    aMember("dam", { evidence: [sure("dam pp", 2)] }),
    aMember("sire", { evidence: [sure("sire pp", 2)] }),
    aMember("one", { dam: "dam", evidence: [sure("one PP", 0)] }),
    aMember("two", { sire: "sire", dam: "one", evidence: [sure("two PP", 0)] }),
  );

  test("[GE-30] of two contradictions in one family each is explained by itself", () => {
    const answer = inferGenotypes(twoContradictions);
    expect(answer.conflicts.map((c) => [...c.facts].sort())).toEqual([
      ["dam pp", "one PP"],
      ["sire pp", "two PP"],
    ]);
    expect(answer.conflicts.flatMap((c) => explanations(twoContradictions, c))).toEqual([]);
    const found = explainConflicts(twoContradictions, answer);
    expect(found.map((f) => f.conflicts)).toEqual(answer.conflicts.map((c) => [c]));
    expect(found.map((f) => f.explanations.map(nameOf).sort())).toEqual([
      ["dam pp", "one PP", "wrong dam"],
      ["sire pp", "two PP", "wrong sire"],
    ]);
  });

  test("[GE-34] asked of both contradictions at once: two records are wrong, one for each", () => {
    const { conflicts } = inferGenotypes(twoContradictions);
    const both = { facts: conflicts.flatMap((c) => c.facts), links: conflicts.flatMap((c) => c.links) };
    const found = explanations(twoContradictions, both);
    const inOrder = (name: string): string => name.split(" + ").sort().join(" + ");
    const pairs = ["dam pp", "one PP", "wrong dam"].flatMap((a) =>
      ["sire pp", "two PP", "wrong sire"].map((b) => inOrder(`${a} + ${b}`)),
    );
    expect(found.map((e) => inOrder(nameOf(e))).sort()).toEqual(pairs.sort());
    expect(found.reduce((sum, e) => sum + e.chance, 0)).toBeCloseTo(1, 12);
  });

  test("[GE-34] one wrong record that is behind two contradictions is named alone", () => {
    const problem = herd(
      aMember("dam", { evidence: [sure("dam PP", 0)] }),
      ...["one", "two"].map((kid) => aMember(kid, { dam: "dam", evidence: [sure(`${kid} pp`, 2)] })),
    );
    const found = explainConflicts(problem, inferGenotypes(problem));
    expect(found.map((f) => f.explanations.map(nameOf))).toEqual([["dam PP"]]);
  });

  test("[GE-34] families that have nothing to do with each other are explained apart", () => {
    const family = (name: string) => [
      aMember(`${name} dam`, { evidence: [sure(`${name} PP`, 0)] }),
      aMember(`${name} kid`, { dam: `${name} dam`, evidence: [sure(`${name} pp`, 2)] }),
    ];
    const problem = herd(...family("a"), ...family("b"));
    const found = explainConflicts(problem, inferGenotypes(problem));
    expect(found.map((f) => f.explanations.map(nameOf).sort())).toEqual([
      ["a PP", "a pp", "wrong dam"],
      ["b PP", "b pp", "wrong dam"],
    ]);
  });

  test("[GE-34] three facts of one animal that leave no pair: two of them are wrong, whichever", () => {
    const problem = herd(aMember("a", { evidence: [sure("PP", 0), sure("Pp", 1), sure("pp", 2)] }));
    const found = explainConflicts(problem, inferGenotypes(problem));
    expect(found.map((f) => f.explanations.map(nameOf).sort())).toEqual([["PP + Pp", "PP + pp", "Pp + pp"]]);
  });

  test("[GE-34] where the suspects cannot explain it, and where there are too many to try, nothing is pretended", () => {
    const problem = herd(
      aMember("a", { evidence: [sure("a1", 0), sure("a2", 2)] }),
      aMember("b", { evidence: [sure("b1", 0), sure("b2", 2)] }),
      aMember("kid", { dam: "a", sire: "b" }),
    );
    expect(explanations(problem, { facts: ["a1"], links: [] })).toEqual([]);
    expect(explanations(problem, { facts: ["a1", "b1"], links: [] }).map(nameOf)).toEqual(["a1 + b1"]);
    const many = ["one", "two", "three", "four", "five"].flatMap((kid) =>
      [0, 1, 2].map((g) => ({ kid, fact: sure(`${kid} ${g}`, g) })),
    );
    const entangled = herd(
      aMember("dam"),
      ...["one", "two", "three", "four", "five"].map((kid) =>
        aMember(kid, { dam: "dam", evidence: many.filter((f) => f.kid === kid).map((f) => f.fact) }),
      ),
    );
    expect(explanations(entangled, { facts: many.map((f) => f.fact.fact), links: [] })).toEqual([]);
  });

  test("[GE-30] the kid's head is the surprise, not its sibs'", () => {
    const problem = strangeKid([["buck", 1]]);
    const found = surprises(problem, inferGenotypes(problem));
    expect(found.map((s) => s.fact)).toEqual(["kid's head"]);
    expect(found[0]?.fit).toBeLessThan(0.01);
    const calm = herd(
      aMember("a", { evidence: head("a", "polled") }),
      aMember("k", { dam: "a", evidence: head("k", "polled") }),
    );
    expect(surprises(calm, inferGenotypes(calm))).toEqual([]);
  });

  describe("laws", () => {
    const anyLook = fc.constantFrom([1, 1, 0.02], [0.02, 0.02, 1], [0, 0, 1], [0.5, 0.9, 0.1]);
    test("[GE-30] the ranking is that of enumerating each case", () => {
      fc.assert(
        fc.property(anyLook, anyLook, anyLook, anyLook, (b, d, k, l) => {
          const problem = herd(
            aMember("buck", { xx: 0, evidence: [aFact("buck's head", b)] }),
            aMember("doe", { xx: 1, evidence: [aFact("doe's head", d)] }),
            aMember("kid", { xx: 0, dam: "doe", sire: "buck", evidence: [aFact("kid's head", k)] }),
            aMember("later", { xx: 0, dam: "doe", sire: "kid", evidence: [aFact("later's head", l)] }),
          );
          const total = (change: (m: Member) => Member): number =>
            byEnumeration({ ...problem, members: problem.members.map(change) }).total;
          const odds = (p: number) => p / (1 - p);
          const atRandom = (look: readonly number[]) =>
            byEnumeration(herd(aMember("x", { evidence: [aFact("x", look)] }))).total;
          const cases = new Map([
            ["as-written", total((m) => m)],
            ["wrong sire", odds(RECORD_ERRORS.sire.value) * total((m) => (m.id === kidId ? { ...m, sires: [] } : m))],
            [
              "wrong dam",
              odds(RECORD_ERRORS.dam.value) * total((m) => (m.id === kidId ? { ...m, dam: undefined } : m)),
            ],
            ...(
              [
                ["buck", b],
                ["doe", d],
                ["kid", k],
              ] as const
            ).map(([id, look]): [string, number] => [
              `${id}'s head`,
              odds(RECORD_ERRORS.fact.value) *
                atRandom(look) *
                total((m) => (m.id === animalId(id) ? { ...m, evidence: [] } : m)),
            ]),
          ]);
          const sum = [...cases.values()].reduce((x, y) => x + y, 0);
          const ranked = explanations(problem, suspects);
          expect(ranked).toHaveLength([...cases.values()].filter((w) => w > 0).length);
          for (const e of ranked) expect(e.chance).toBeCloseTo((cases.get(nameOf(e)) ?? Number.NaN) / sum, 10);
        }),
        { numRuns: 30 },
      );
    });

    test("[GE-34] two records at a time: the ranking is that of enumerating each pair", () => {
      const anyShare = fc.constantFrom(0.1, 0.4, 0.9);
      fc.assert(
        fc.property(anyShare, anyShare, anyShare, (b, d, k) => {
          // Both parents can only be pp, the kid, who is beyond doubt, only PP: one record alone explains nothing.
          const looks = { buck: [0, 0, b], doe: [0, 0, d], kid: [k, 0, 0] };
          const ids = ["buck", "doe"] as const;
          const problem = herd(
            aMember("buck", { xx: 0, evidence: [aFact("buck's head", looks.buck)] }),
            aMember("doe", { xx: 1, evidence: [aFact("doe's head", looks.doe)] }),
            aMember("kid", { xx: 0, dam: "doe", sire: "buck", evidence: [aFact("kid's head", looks.kid)] }),
          );
          const odds = (p: number) => p / (1 - p);
          const atRandom = (look: readonly number[]) =>
            byEnumeration(herd(aMember("x", { evidence: [aFact("x", look)] }))).total;
          const steps: readonly (readonly [string, number, (m: Member) => Member])[] = [
            ["wrong sire", odds(RECORD_ERRORS.sire.value), (m) => (m.id === kidId ? { ...m, sires: [] } : m)],
            ["wrong dam", odds(RECORD_ERRORS.dam.value), (m) => (m.id === kidId ? { ...m, dam: undefined } : m)],
            ...ids.map((id): readonly [string, number, (m: Member) => Member] => [
              `${id}'s head`,
              odds(RECORD_ERRORS.fact.value) * atRandom(looks[id]),
              (m) => (m.id === animalId(id) ? { ...m, evidence: [] } : m),
            ]),
          ];
          const cases = new Map<string, number>();
          steps.forEach(([first, p, change], i) => {
            for (const [second, q, changeToo] of steps.slice(i + 1)) {
              const members = problem.members.map((m) => changeToo(change(m)));
              cases.set(`${first} + ${second}`, p * q * byEnumeration({ ...problem, members }).total);
            }
          });
          const ranked = explanations(problem, { ...suspects, facts: ids.map((id) => `${id}'s head`) });
          const wanted = new Map([...cases].filter(([, weight]) => weight > 0));
          const total = [...wanted.values()].reduce((x, y) => x + y, 0);
          expect(wanted.size).toBe(4); // one record about each parent
          expect(ranked.map(nameOf).sort()).toEqual([...wanted.keys()].sort());
          for (const e of ranked) expect(e.chance).toBeCloseTo((wanted.get(nameOf(e)) ?? Number.NaN) / total, 10);
        }),
        { numRuns: 10 },
      );
    });

    test("[GE-30] the fit of a fact is its probability given all others, against its best", () => {
      fc.assert(
        fc.property(anyLook, anyLook, anyLook, (b, d, k) => {
          const members = (kid: readonly ReturnType<typeof aFact>[]) => [
            aMember("buck", { xx: 0, evidence: [aFact("b", b)] }),
            aMember("doe", { xx: 1, evidence: [aFact("d", d)] }),
            aMember("kid", { dam: "doe", sire: "buck", evidence: kid }),
          ];
          const problem = herd(...members([aFact("k", k)]));
          const [withIt, without] = [byEnumeration(problem).total, byEnumeration(herd(...members([]))).total];
          fc.pre(withIt > 0);
          const found = surprises(problem, inferGenotypes(problem), 2).find((s) => s.fact === "k");
          expect(found?.fit).toBeCloseTo(withIt / without / Math.max(...k), 10);
        }),
        { numRuns: 30 },
      );
    });
  });
});
