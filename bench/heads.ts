import { probability, seededRandom } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import {
  asSureAs,
  chancesFrom,
  DEFAULT_HEAD_TABLES,
  dirichletDraw,
  type HeadChances,
  hornsAfter,
  hornsInterval,
  type LearningKid,
  learnHeads,
  meanChances,
  SIGNS,
  simulateHead,
  simulateReading,
  windowOf,
} from "@pollard/husbandry";
import { DEFAULT_LOSSES, decideKid, followPolicy, KID_POLICIES, type TrialFarm, trialKid } from "@pollard/planning";

/** What reading, deciding and learning cost, what looking ahead saves, and how often a learnt range holds the truth. */
const TABLES = DEFAULT_HEAD_TABLES;
const EVEN: PolledBelief = { PP: probability(0), Pp: probability(0.5), pp: probability(0.5) };
const DECISIONS = 40;
const HERDS = [60, 240];
const TRIAL_KIDS = 400;
const COVERED_HERDS = 60;

export function bench() {
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  const random = seededRandom(1);
  const chances = meanChances(TABLES);

  const farm: TrialFarm = {
    window: (kid) => windowOf(kid.sex),
    tables: TABLES,
    losses: DEFAULT_LOSSES.value,
    noticeDays: 1,
  };
  const kids = Array.from({ length: DECISIONS }, (_, i) =>
    trialKid({ sex: i % 2 === 0 ? "buck" : "doe" }, EVEN, 7, chances, random),
  );
  const decide = () => {
    for (const { kid, readings, visits } of kids) {
      const looked = readings.slice(3, 4);
      const horns = hornsAfter(EVEN, looked, kid, TABLES);
      decideKid({
        belief: { PP: probability(0), Pp: probability(1 - horns), pp: horns },
        kid,
        readings: looked,
        tables: TABLES,
        ageDays: 3,
        window: windowOf(kid.sex),
        visits: visits.map((day) => day - 3).filter((d) => d >= 0),
        noticeDays: 1,
        losses: DEFAULT_LOSSES.value,
        maxLooks: 2,
      });
    }
  };
  decide(); // the first run also pays for compiling
  lines.push({
    what: "decide about a kid on day 3",
    value: milliseconds(decide) / DECISIONS,
    unit: "ms",
    note: "two looks ahead",
  });
  const look = kids.map((k) => ({ kid: k.kid, readings: k.readings.slice(3, 5) }));
  const ranges = () => {
    for (const { kid, readings } of look) hornsInterval(EVEN, readings, kid, TABLES, random);
  };
  ranges();
  lines.push({
    what: "range of the chance of horns",
    value: milliseconds(ranges) / DECISIONS,
    unit: "ms",
    note: "two readings",
  });

  for (const size of HERDS) {
    const herd = herdOf(chances, size, 2);
    let learnt = learnHeads(herd, TABLES);
    lines.push({
      what: `learn from ${size} kids`,
      value: milliseconds(() => (learnt = learnHeads(herd, TABLES))),
      unit: "ms",
      note: `${learnt.rounds.length} rounds`,
    });
    lines.push({
      what: `how sure, from ${size} kids`,
      value: milliseconds(() => asSureAs(herd, learnt.tables, TABLES, random)),
      unit: "ms",
    });
  }

  const losses = KID_POLICIES.map(() => 0);
  for (let i = 0; i < TRIAL_KIDS; i++) {
    const kid = trialKid({ sex: i % 2 === 0 ? "buck" : "doe" }, EVEN, 7, chances, random);
    for (const [p, policy] of KID_POLICIES.entries())
      losses[p] = (losses[p] ?? 0) + followPolicy(policy, kid, farm).loss / TRIAL_KIDS;
  }
  for (const [p, policy] of KID_POLICIES.entries())
    lines.push({
      what: `mean loss, ${policy}`,
      value: losses[p] ?? 0,
      unit: "needless",
      note: `${TRIAL_KIDS} simulated kids`,
    });

  lines.push({
    what: "learnt nine-in-ten ranges that held the truth",
    value: covered(),
    unit: "share",
    note: `${COVERED_HERDS} herds`,
  });
  return lines;
}

/** Kids of known outcome, read on day 2 and again in the week after day 5. */
function herdOf(chances: HeadChances, size: number, seed: number): LearningKid[] {
  const random = seededRandom(seed);
  return Array.from({ length: size }, (_, i) => {
    const kid = { sex: i % 2 === 0 ? "buck" : "doe" } as const;
    const horned = random.next() < 0.5;
    const head = simulateHead(kid, horned ? "pp" : "Pp", chances, random);
    const readings = [2, 5 + Math.floor(random.next() * 4)].map((ageDays, n) =>
      simulateReading(head, { reading: `${i} ${n}`, reader: "Oda", ageDays, signs: SIGNS }, chances, random),
    );
    const known = { PP: probability(0), Pp: probability(horned ? 0 : 1), pp: probability(horned ? 1 : 0) };
    return { kid, readings, known };
  });
}

/** Share of herds, their tables drawn from the prior, in which the learnt range of one new kid held its true chance of horns. */
function covered(): number {
  let held = 0;
  for (let h = 0; h < COVERED_HERDS; h++) {
    const random = seededRandom(30_000 + h);
    const truth = chancesFrom(TABLES, (counts) => dirichletDraw(counts, random));
    const herd = herdOf(truth, 60, 40_000 + h);
    const tables = asSureAs(herd, learnHeads(herd, TABLES).tables, TABLES, random);
    const fresh = herdOf(truth, 1, 50_000 + h);
    for (const { kid, readings } of fresh) {
      const first = readings.slice(0, 1);
      const rows = Object.entries(TABLES.rows).map(([row, c]) => [
        row,
        { ...c, value: truth.row(row as keyof typeof TABLES.rows) },
      ]);
      const truly = hornsAfter(EVEN, first, kid, { ...TABLES, rows: Object.fromEntries(rows) as typeof TABLES.rows });
      const { low, high } = hornsInterval(EVEN, first, kid, tables, random);
      if (truly >= low && truly <= high) held++;
    }
  }
  return held / COVERED_HERDS;
}

/** Milliseconds of processor time, which other programs on the machine do not stretch. */
function milliseconds(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  return process.cpuUsage(before).user / 1000;
}
