import { situationOf, vetDaysModel } from "@pollard/advice";
import { addDays, day, present, type Random, seededRandom } from "@pollard/base";
import { type VetWindow, windowOf } from "@pollard/husbandry";
import {
  type ComingKids,
  DEFAULT_LOSSES,
  loadSolver,
  planVetDays,
  planVetDaysWithin,
  type VetDaysQuestion,
} from "@pollard/planning";
import { fold } from "@pollard/records";
import { goat, service } from "../packages/advice/src/testing.ts";

/** Seasons lived through for each rival. */
const SEASONS = 400;
/** Seasons for the rivals that plan anew each day, which take longer. */
const REPLANNED = 40;
/** Length of the rut, days. */
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
      births: births.toSorted((a, b) => a.inDays - b.inDays),
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
  readonly window: VetWindow | undefined;
}

/** One litter as it came to be. */
interface Lived {
  readonly id: string;
  readonly born: number;
  readonly horned: readonly Horned[];
}

/** What one season of a herd turned out to be: the kids that grow horns. */
function lived({ coming }: VetDaysQuestion, chance: Random): readonly Lived[] {
  return coming.flatMap(({ id, births, needs, windows }) => {
    let left = chance.next();
    const birth = births.find((b) => (left -= b.chance) < 0);
    if (birth === undefined) return [];
    const horned = Array.from({ length: birth.kids }, () => windows[chance.next() < 0.5 ? 0 : 1]?.window)
      .filter(() => chance.next() < needs)
      .flatMap((w): readonly Horned[] =>
        w === undefined
          ? []
          : [
              {
                born: birth.inDays,
                aimFrom: w.aimFrom.value,
                aimTo: w.aimTo.value,
                end: w.end.value,
                window: w,
              },
            ],
      );
    return [{ id, born: birth.inDays, horned }];
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

/** The vet is rung whenever the first kid that still waits turns five days, and comes after so many days' notice. */
function whenFirstTurnsFive(kids: readonly Horned[], notice: number): Fate {
  const visits: number[] = [];
  let waiting = [...kids].sort((a, b) => a.born - b.born);
  for (let first = waiting[0]; first !== undefined; first = waiting[0]) {
    const day = first.born + 5 + notice;
    visits.push(day);
    waiting = waiting.filter((kid) => kid.born + kid.aimFrom > day);
  }
  return on(visits, kids);
}

/**
 * The plan is made anew each day with the kids that are born by then, and the vet is asked for its next visit no earlier than
 * the notice demands. What was born and read counts as known; what is still to come as expected.
 */
function replanned(question: VetDaysQuestion, born: readonly Lived[], notice: number): Fate {
  const asked: number[] = [];
  const start = Math.min(...question.coming.flatMap((c) => c.births.map((b) => b.inDays)));
  const end = Math.max(...question.open);
  let plan: readonly number[] = [];
  let known = -1;
  for (let today = start; today <= end; today++) {
    const here = born.filter((b) => b.born <= today);
    // A new plan only where something was learnt: a birth, or a day on which one might have been.
    if (here.length !== known || today % 3 === 0) {
      known = here.length;
      const kids = here
        .flatMap((b) => b.horned)
        .map((kid, i): ComingKids => {
          const window = present(kid.window, "a window");
          return {
            id: `kid ${i}`,
            births: [{ inDays: kid.born - today, kids: 1, chance: 1 }],
            needs: asked.some((v) => v < today && v >= kid.born + kid.aimFrom) ? 0 : 1,
            windows: [{ window, share: 1 }],
          };
        });
      const still = question.coming
        .filter((c) => !here.some((b) => b.id === c.id))
        .map((c) => stillToCome(c, today))
        .filter((c) => c.births.length > 0);
      const { best } = planVetDays({
        ...question,
        coming: [...kids, ...still],
        open: question.open.filter((d) => d >= today + notice && d < today + 60).map((d) => d - today),
        fixed: asked.filter((v) => v >= today).map((v) => v - today),
        mostVisits: 8,
      });
      plan = best.visits.map((v) => v + today);
    }
    const next = plan.find((v) => v >= today && !asked.includes(v));
    if (next !== undefined && next <= today + notice) asked.push(next);
  }
  return on(
    [...asked].sort((a, b) => a - b),
    born.flatMap((b) => b.horned),
  );
}

/** A litter that has not come by today: what is left of its days, made whole again. */
function stillToCome(c: ComingKids, today: number): ComingKids {
  const left = c.births.filter((b) => b.inDays > today);
  const whole = 1 - c.births.reduce((sum, b) => (b.inDays <= today ? sum + b.chance : sum), 0);
  return { ...c, births: left.map((b) => ({ ...b, inDays: b.inDays - today, chance: b.chance / whole })) };
}

/** A herd of so many does on four polled bucks not yet known, a third of the does polled, asked about in December. */
function herdOf(does: number) {
  const rut = day("2025-10-01");
  const names = Array.from({ length: does }, (_, i) => `D${i}`);
  const entries = [
    ...[0, 1, 2, 3].map((b) => goat(`B${b}`, "buck", { head: "polled" })),
    ...names.map((name, i) => goat(name, "doe", { head: i % 3 === 0 ? "polled" : "horned" })),
    ...names.map((name, i) => {
      const from = addDays(rut, i % 45);
      return service(name, [`B${i % 4}`], from, i % 2 === 0 ? undefined : addDays(from, 25));
    }),
  ];
  const today = day("2025-12-15");
  return situationOf(fold(entries, today), today);
}

/** What choosing vet days costs and gains beside three habits, on herds of two sizes. */
export async function bench() {
  const lines = [];
  for (const does of [30, 100, 300]) {
    const situation = herdOf(does);
    const start = performance.now();
    const { visits } = vetDaysModel(situation);
    const value = performance.now() - start;
    lines.push({ what: `vet days from a ledger, ${does} does`, value, unit: "ms", note: `${visits.length} visits` });
  }
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
    const horned = (born: readonly Lived[]) => born.flatMap((b) => b.horned);
    const rivals: readonly (readonly [string, number, (born: readonly Lived[]) => Fate])[] = [
      ["chosen months ahead", SEASONS, (born) => on(best.visits, horned(born))],
      ["planned anew each day, 3 days' notice", REPLANNED, (born) => replanned(question, born, 3)],
      ["planned anew each day, same day", REPLANNED, (born) => replanned(question, born, 0)],
      ["first kid turns five, 3 days' notice", SEASONS, (born) => whenFirstTurnsFive(horned(born), 3)],
      ["first kid turns five, same day", SEASONS, (born) => whenFirstTurnsFive(horned(born), 0)],
      ["every Saturday", SEASONS, (born) => on(saturdays, horned(born))],
      ["as many chosen days as Saturdays", SEASONS, (born) => on(same?.visits ?? best.visits, horned(born))],
      ["one visit at the median", SEASONS, (born) => on([median], horned(born))],
    ];
    for (const [name, many, live] of rivals) {
      const fates = seasons.slice(0, many).map(live);
      const mean = (of: (f: Fate) => number) => fates.reduce((sum, f) => sum + of(f), 0) / many;
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
