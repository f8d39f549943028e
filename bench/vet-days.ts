import { type Random, seededRandom } from "@pollard/base";
import { windowOf } from "@pollard/husbandry";
import {
  type ComingKids,
  DEFAULT_LOSSES,
  loadSolver,
  planVetDays,
  planVetDaysWithin,
  type VetDaysQuestion,
} from "@pollard/planning";

/** Seasons lived through for each rival. */
const SEASONS = 400;
/** Day of the first service, counted from the day of planning (in autumn), and length of the rut, days. */
const RUT = 50;
const LITTERS = [0.29, 0.56, 0.15];
const TAKES = 0.8;

/** A herd of so many does served over one rut, each with a due day that is known within about five days. */
function season(does: number, rut: number, chance: Random): VetDaysQuestion {
  const coming = Array.from({ length: does }, (_, i): ComingKids => {
    const due = 150 + Math.floor(chance.next() * rut);
    const births = LITTERS.flatMap((share, kids) =>
      Array.from({ length: 11 }, (_, d) => {
        const bell = Math.exp(-((d - 5) ** 2) / (2 * 2.64 ** 2)) / 6.4;
        return { inDays: due + d - 5 - kids, kids: kids + 1, chance: TAKES * share * bell };
      }),
    );
    return {
      id: `doe ${i}`,
      births,
      needs: 0.5,
      windows: [
        { window: windowOf("buck"), share: 0.5 },
        { window: windowOf("doe"), share: 0.5 },
      ],
    };
  });
  return {
    coming,
    open: Array.from({ length: 150 + rut + 40 }, (_, d) => d),
    fixed: [],
    visitLoss: DEFAULT_LOSSES.value.extraTrip,
    losses: DEFAULT_LOSSES.value,
    mostVisits: 14,
  };
}

/** One horned kid as it came to be. */
interface Horned {
  readonly born: number;
  readonly aimFrom: number;
  readonly aimTo: number;
  readonly end: number;
}

/** What one season of a herd turned out to be: the kids that grow horns. */
function lived({ coming }: VetDaysQuestion, chance: Random): readonly Horned[] {
  return coming.flatMap(({ births, needs, windows }) => {
    let left = chance.next();
    const birth = births.find((b) => (left -= b.chance) < 0);
    return Array.from({ length: birth?.kids ?? 0 }, () => windows[chance.next() < 0.5 ? 0 : 1]?.window)
      .filter(() => chance.next() < needs)
      .flatMap((w) =>
        w && birth ? [{ born: birth.inDays, aimFrom: w.aimFrom.value, aimTo: w.aimTo.value, end: w.end.value }] : [],
      );
  });
}

interface Fate {
  readonly visits: number;
  readonly missed: number;
  readonly lateDays: number;
}

/** What happens to the kids on visits that were fixed in advance; a visit for which no kid waits is still made. */
function on(visits: readonly number[], kids: readonly Horned[]): Fate {
  let [missed, lateDays] = [0, 0];
  for (const kid of kids) {
    const day = visits.find((v) => v >= kid.born + kid.aimFrom);
    if (day === undefined || day > kid.born + kid.end) missed++;
    else lateDays += Math.max(0, day - kid.born - kid.aimTo);
  }
  return { visits: visits.length, missed, lateDays };
}

/** The vet is rung whenever the first kid that still waits turns five days, and comes that day. */
function whenFirstTurnsFive(kids: readonly Horned[]): Fate {
  const visits: number[] = [];
  let waiting = [...kids].sort((a, b) => a.born - b.born);
  for (let first = waiting[0]; first !== undefined; first = waiting[0]) {
    const day = first.born + 5;
    visits.push(day);
    waiting = waiting.filter((kid) => kid.born + kid.aimFrom > day);
  }
  return on(visits, kids);
}

/** What choosing vet days costs and gains beside three habits, on herds of two sizes. */
export async function bench() {
  const lines = [];
  for (const [does, rut] of [
    [20, RUT],
    [100, RUT],
  ] as const) {
    const chance = seededRandom(does);
    const question = season(does, rut, chance);
    const start = performance.now();
    const { best, byCount } = planVetDays(question);
    lines.push({ what: `vet days: plan for ${does} does`, value: performance.now() - start, unit: "ms" });
    const due = question.coming.flatMap((c) => c.births.map((b) => b.inDays)).sort((a, b) => a - b);
    const median = (due[Math.floor(due.length / 2)] ?? 0) + 7;
    const saturdays = question.open.filter((d) => d % 7 === 0 && d >= (due[0] ?? 0) && d <= (due.at(-1) ?? 0) + 14);
    const seasons = Array.from({ length: SEASONS }, () => lived(question, chance));
    const same = byCount.find((plan) => plan.visits.length === saturdays.length);
    const rivals: readonly (readonly [string, (kids: readonly Horned[]) => Fate])[] = [
      ["chosen days", (kids) => on(best.visits, kids)],
      ["as many chosen days as Saturdays", (kids) => on(same?.visits ?? best.visits, kids)],
      ["every Saturday", (kids) => on(saturdays, kids)],
      ["when the first kid turns five days", whenFirstTurnsFive],
      ["one visit at the median", (kids) => on([median], kids)],
    ];
    for (const [name, live] of rivals) {
      const fates = seasons.map(live);
      const mean = (of: (f: Fate) => number) => fates.reduce((sum, f) => sum + of(f), 0) / SEASONS;
      const { missedHorns, lateDay, extraTrip } = DEFAULT_LOSSES.value;
      const loss = mean((f) => f.visits * extraTrip + f.missed * missedHorns + f.lateDays * lateDay);
      const note = `${mean((f) => f.visits).toFixed(1)} visits, ${mean((f) => f.missed).toFixed(2)} missed, ${mean((f) => f.lateDays).toFixed(0)} days late`;
      lines.push({ what: `${does} does: ${name}`, value: loss, unit: "loss", note });
    }
    const solver = await loadSolver();
    const weekdays = { ...question, open: question.open.filter((d) => d % 7 < 5 && d >= (due[0] ?? 0)) };
    const began = performance.now();
    const limited = planVetDaysWithin(weekdays, { heads: 6, seconds: 20, gap: 0.005 }, solver);
    const note = `${limited?.visits.length} visits, ${limited?.missed.toFixed(2)} missed, proven: ${limited?.proven}`;
    const value = performance.now() - began;
    lines.push({ what: `vet days: at most 6 heads a visit, ${does} does`, value, unit: "ms", note });
  }
  return lines;
}
