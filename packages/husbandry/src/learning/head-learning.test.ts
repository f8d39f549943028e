import { probability, seededRandom } from "@pollard/base";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dirichletDraw } from "../dirichlet.ts";
import { headCounter } from "./head-counts.ts";
import type { LearningKid } from "./prepared-kid.ts";
import { asSureAs, learnHeads } from "./head-learning.ts";
import { headNetwork, logLikelihoods, SIGNS, type Sign, sightingsOf } from "../heads/head-network.ts";
import { hornsAfter, hornsInterval } from "../heads/head-reading.ts";
import { simulateHead, simulateReading } from "./head-simulation.ts";
import {
  chancesFrom,
  DEFAULT_HEAD_TABLES,
  HEAD_ROW_NAMES,
  type HeadChances,
  type HeadTables,
  meanChances,
  meanOf,
} from "../heads/head-tables.ts";
import { aBelief, someReadings } from "../testing.ts";

const PRIOR = DEFAULT_HEAD_TABLES;
const HORNED = aBelief(0, 0, 1);
const CARRIER = aBelief(0, 1, 0);

/** Kids of known outcome, half of them horned, half bucklings, read on day 2 and again within the week after day 5. */
function herd(
  chances: HeadChances,
  kids: number,
  seed: number,
  readers = ["Oda"],
  breed?: string,
  signs: readonly Sign[] = SIGNS,
): LearningKid[] {
  const random = seededRandom(seed);
  return Array.from({ length: kids }, (_, i) => {
    const kid = { sex: i % 2 === 0 ? "buck" : "doe", ...(breed === undefined ? {} : { breed }) } as const;
    const known = random.next() < 0.5 ? HORNED : CARRIER;
    const head = simulateHead(kid, known === HORNED ? "pp" : "Pp", chances, random);
    const readings = [2, 5 + Math.floor(random.next() * 4)].map((ageDays, n) =>
      simulateReading(
        head,
        { reading: `${i} ${n}`, reader: readers[i % readers.length] ?? "Oda", ageDays, signs },
        chances,
        random,
      ),
    );
    return { kid, readings, known };
  });
}

const rowsAs = (chances: HeadChances): HeadTables["rows"] =>
  Object.fromEntries(
    HEAD_ROW_NAMES.map((row) => [row, { ...PRIOR.rows[row], value: chances.row(row) }]),
  ) as unknown as HeadTables["rows"];

/** The prior's tables with the mean of some rows put elsewhere. */
const moved = (rows: Partial<Record<keyof HeadTables["rows"], readonly number[]>>): HeadChances => {
  const chances = meanChances(PRIOR);
  return { ...chances, row: (name, reader) => rows[name] ?? chances.row(name, reader) };
};

describe("learnHeads", () => {
  test("[HD-23] no kids, no change", () => {
    const learnt = learnHeads([], PRIOR);
    expect(learnt.tables).toBe(PRIOR);
    expect(learnt.rows.every((r) => r.seen === 0)).toBe(true);
  });

  test("[HD-23] a herd whose whorls tell nothing unlearns the whorls, and says how many heads are behind it", () => {
    const truth = moved({ "is-whorl horned": [0.5, 0.5], "is-whorl polled": [0.5, 0.5] });
    const learnt = learnHeads(herd(truth, 120, 8), PRIOR);
    const row = learnt.rows.find((r) => r.row === "is-whorl polled");
    expect(row?.before[0]).toBeCloseTo(0.07, 9);
    expect(row?.after[0]).toBeGreaterThan(0.3);
    expect(row?.seen).toBeGreaterThan(40);
    const kid = { sex: "doe" } as const;
    const clear = [{ reading: "r", reader: "Oda", ageDays: 4, signs: { whorls: { both: "clear" } } }] as const;
    const even = aBelief(0, 1, 1);
    expect(hornsAfter(even, clear, kid, learnt.tables)).toBeLessThan(hornsAfter(even, clear, kid, PRIOR) - 0.15);
  });

  test("[HD-23] what nobody looked at stays as it was", () => {
    const learnt = learnHeads(herd(meanChances(PRIOR), 30, 9, ["Oda"], undefined, ["feel"]), PRIOR);
    for (const row of learnt.rows)
      if (/skin|whorl|crown|clock/.test(row.row)) expect([row.row, row.seen]).toEqual([row.row, 0]);
  });

  test("[HD-24] a reader whose pointed is everybody's rounded gets tables of their own; one with few kids does not", () => {
    const mixedUp = [0.1, 0.25, 0.6, 0.05];
    const chances = meanChances(PRIOR);
    const truth: HeadChances = {
      ...chances,
      row: (name, reader) => (reader === "Runa" && name === "see-feel knob" ? mixedUp : chances.row(name, reader)),
    };
    const learnt = learnHeads([...herd(truth, 160, 10, ["Oda", "Runa"]), ...herd(truth, 5, 11, ["Ivo"])], PRIOR);
    expect([...learnt.readers.keys()].sort()).toEqual(["Oda", "Runa"]);
    const pointed = (reader: string) => meanChances(learnt.tables).row("see-feel knob", reader)[2] ?? 0;
    expect(pointed("Runa")).toBeGreaterThan(pointed("Oda") + 0.15);
    expect(pointed("Ivo")).toBe(meanOf(learnt.tables.rows["see-feel knob"].value)[2]);
  });

  test("[HD-24] a breed whose buds come two days late is noticed; a breed with few kids is left alone", () => {
    const truth: HeadChances = { ...meanChances(PRIOR), breedDelayDays: new Map([["nubian", 2]]) };
    const kids = [
      ...herd(truth, 60, 12),
      ...herd(truth, 80, 13, ["Oda"], "Nubian"),
      ...herd(truth, 4, 14, ["Oda"], "Alpine"),
    ];
    const { breedDelayDays } = learnHeads(kids, PRIOR).tables;
    expect(breedDelayDays.get("nubian")).toBeGreaterThanOrEqual(1);
    expect(breedDelayDays.get("nubian")).toBeLessThanOrEqual(3);
    expect(breedDelayDays.has("alpine")).toBe(false);
  });

  test("[HD-23] readers who only ever repeat the first side are found out, and their second sides count for less", () => {
    const repeating = herd(meanChances(PRIOR), 40, 16).map((k) => ({
      ...k,
      readings: k.readings.map((r) => {
        const felt = r.signs.feel;
        const side = felt !== undefined && "both" in felt ? felt.both : "unsure";
        return { ...r, signs: { ...r.signs, feel: { left: side, right: side } } };
      }),
    }));
    const row = learnHeads(repeating, PRIOR).rows.find((r) => r.row === "see-second-side");
    expect(row?.before[0]).toBeCloseTo(0.5, 12);
    expect(row?.after[0]).toBeGreaterThan(0.75);
  });

  describe("laws", () => {
    const anyKid: fc.Arbitrary<LearningKid> = fc.record({
      kid: fc.record({ sex: fc.constantFrom("doe", "buck", "unsure") }),
      readings: someReadings(),
      known: fc.constantFrom(HORNED, CARRIER, aBelief(1, 2, 0), aBelief(1, 2, 1)),
    });

    test("[HD-23] no round is worse than the one before", () => {
      fc.assert(
        fc.property(fc.array(anyKid, { minLength: 1, maxLength: 8 }), (kids) => {
          const { rounds } = learnHeads(kids, PRIOR);
          for (const [i, log] of rounds.entries())
            if (i > 0) expect(log).toBeGreaterThanOrEqual((rounds[i - 1] ?? 0) - 1e-7);
        }),
        { numRuns: 12 },
      );
    });

    test("[HD-23] a kid counts once in every row that something was seen of, by what it is", () => {
      fc.assert(
        fc.property(anyKid, (kid) => {
          const counts = headCounter([kid], PRIOR).expect(meanChances(PRIOR));
          const total = (rows: readonly (keyof typeof counts.rows)[]) =>
            rows.reduce((a, row) => a + counts.rows[row].reduce((x, y) => x + y, 0), 0);
          const signs = sightingsOf(kid.readings).map((s) => s.sign);
          expect(total(["is-whorl horned", "is-whorl polled"])).toBeCloseTo(signs.includes("whorls") ? 1 : 0, 9);
          const touched = signs.includes("feel") || signs.includes("skin");
          const under = HEAD_ROW_NAMES.filter((r) => r.startsWith("is-polled-stage") || r.startsWith("is-bud-age"));
          expect(total(under)).toBeCloseTo(touched ? 1 : 0, 9);
          const seen = HEAD_ROW_NAMES.filter((r) => r.startsWith("see-") && r !== "see-second-side");
          const repeated = counts.rows["see-second-side"][0] ?? 0;
          expect(total(seen) + repeated).toBeCloseTo(signs.length, 9);
        }),
      );
    });

    test("[HD-23] the chance of the readings is the one by which heads are read", () => {
      fc.assert(
        fc.property(anyKid, (kid) => {
          const log = logLikelihoods(headNetwork(kid.kid, meanChances(PRIOR)).after(kid.readings));
          const slow = Math.log((["PP", "Pp", "pp"] as const).reduce((a, g) => a + kid.known[g] * Math.exp(log[g]), 0));
          expect(headCounter([kid], PRIOR).expect(meanChances(PRIOR)).log).toBeCloseTo(slow, 9);
        }),
      );
    });

    test("[HD-23] heads that are drawn count, on average, as heads that are believed", () => {
      const kids = herd(meanChances(PRIOR), 6, 31).map((k, i) => ({
        ...k,
        kid: { sex: i === 0 ? "unsure" : k.kid.sex } as const,
        known: i === 1 ? aBelief(1, 2, 3) : k.known,
        readings: k.readings.map((r) => ({
          ...r,
          signs: { ...r.signs, skin: { left: "slides", right: "slides" } as const },
        })),
      }));
      const counter = headCounter(kids, PRIOR);
      const expected = counter.expect(meanChances(PRIOR));
      const random = seededRandom(32);
      const draws = 1500;
      const mean = new Map(HEAD_ROW_NAMES.map((row) => [row, expected.rows[row].map(() => 0)]));
      for (let d = 0; d < draws; d++) {
        const { rows } = counter.draw(meanChances(PRIOR), random);
        for (const [row, sums] of mean) for (const [i, x] of rows[row].entries()) sums[i] = (sums[i] ?? 0) + x / draws;
      }
      for (const [row, sums] of mean)
        for (const [i, x] of sums.entries()) {
          // A kid adds at most 4 to a count, so the count's variance is at most 4 times what is expected.
          const want = expected.rows[row][i] ?? 0;
          expect(Math.abs(x - want)).toBeLessThan(5 * Math.sqrt((4 * want + 0.01) / draws));
        }
    });

    test("[HD-23] the counts are the slope of the likelihood: more of what is counted explains the kid better", () => {
      // Fisher's identity: d log L / d log θ = expected count. Checked by a small step in one row.
      const sided = { left: "pointed", right: "pointed" } as const;
      const one = herd(meanChances(PRIOR), 1, 30)[0] as LearningKid;
      const kid = { ...one, readings: one.readings.map((r) => ({ ...r, signs: { ...r.signs, feel: sided } })) };
      const counter = headCounter([kid], PRIOR);
      const counts = counter.expect(meanChances(PRIOR));
      const step = 1e-5;
      const logOf = (chances: HeadChances) => counter.expect(chances).log;
      for (const row of HEAD_ROW_NAMES) {
        if (row === "is-clock") continue; // both clocks agree for a kid without a due date
        const base = meanChances(PRIOR).row(row);
        for (const [k, count] of counts.rows[row].entries()) {
          const up = moved({ [row]: base.map((p, i) => (i === k ? p * (1 + step) : p)) });
          const slope = (logOf(up) - logOf(meanChances(PRIOR))) / Math.log(1 + step);
          expect(Math.abs(slope - count)).toBeLessThan(1e-3);
        }
      }
    });
  });
});

describe("asSureAs", () => {
  test("[HD-25] learnt from nobody, the draws spread as the prior does", () => {
    const sure = asSureAs([], PRIOR, PRIOR, seededRandom(2));
    for (const row of ["is-whorl horned", "see-feel knob"] as const) {
      const weight = (t: HeadTables) => t.rows[row].value.reduce((a, b) => a + b, 0);
      expect(weight(sure) / weight(PRIOR)).toBeGreaterThan(0.7);
      expect(weight(sure) / weight(PRIOR)).toBeLessThan(1.5);
    }
  });

  test("[HD-25] counts that are only believed weigh less than they claim", () => {
    const kids = herd(meanChances(PRIOR), 60, 15);
    const learnt = learnHeads(kids, PRIOR).tables;
    const sure = asSureAs(kids, learnt, PRIOR, seededRandom(3));
    const weight = (t: HeadTables) => t.rows["see-feel low-bud"].value.reduce((a, b) => a + b, 0);
    expect(weight(sure)).toBeLessThan(weight(learnt));
    expect(sure.draws?.length).toBeGreaterThan(50);
  });

  test("[HD-25] on invented herds the nine-in-ten interval of the chance of horns holds the truth about that often", () => {
    let [held, asked, before, after] = [0, 0, 0, 0];
    for (let h = 0; h < 6; h++) {
      const random = seededRandom(100 + h);
      const truth = chancesFrom(PRIOR, (counts) => dirichletDraw(counts, random));
      const kids = herd(truth, 24, 200 + h);
      const tables = asSureAs(kids, learnHeads(kids, PRIOR).tables, PRIOR, random);
      for (const { kid, readings } of herd(truth, 20, 300 + h)) {
        const first = readings.slice(0, 1);
        const even = { PP: probability(0), Pp: probability(0.5), pp: probability(0.5) };
        const { low, high } = hornsInterval(even, first, kid, tables, random);
        const truly = hornsAfter(even, first, kid, { ...PRIOR, rows: rowsAs(truth) });
        asked++;
        if (truly >= low && truly <= high) held++;
        after += high - low;
        if (h < 2) {
          const unlearnt = hornsInterval(even, first, kid, PRIOR, random);
          before += unlearnt.high - unlearnt.low;
        }
      }
    }
    expect(held / asked).toBeGreaterThan(0.8);
    expect(held / asked).toBeLessThan(0.98);
    expect(after / asked).toBeLessThan(before / (asked / 3));
  });
});
