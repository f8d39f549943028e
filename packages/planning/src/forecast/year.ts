import { present } from "@pollard/base";
import { type PolledBelief, POLLED_GENOTYPES, PP_BUCK_FERTILITY } from "@pollard/genetics";
import type { BreedingPolicy, BuckPlace, ForecastWorld } from "./breeding-policy.ts";
import { chanceAt, drawn } from "./chance-streams.ts";
import { drawKid, type DrawnKid } from "./kid-draw.ts";
import { type Kin, kinNextYear, kinOf, type LivingAnimal, meanKin } from "./living-herd.ts";

/** A simulated herd at the start of a year: does, then a buck for each place of the policy. */
export interface SimulatedHerd {
  readonly does: readonly LivingAnimal[];
  readonly bucks: readonly LivingAnimal[];
  readonly kin: Kin;
}

/** What a simulated year came to. Counts of kids are of those born alive into the days that matter. */
export interface YearTally {
  readonly does: number;
  readonly openDoes: number;
  readonly kids: number;
  /** Heads to disbud. */
  readonly horned: number;
  readonly intersex: number;
  /** Unable to breed, the intersex among them. */
  readonly infertile: number;
  readonly visits: number;
  readonly cost: number;
  /** Mean inbreeding of the year's kids. */
  readonly inbreeding: number;
  /** Mean kinship of the breeding animals, themselves included. */
  readonly kinship: number;
  readonly polledKids: number;
  readonly polledDoes: number;
}

/** The measures of a year, in the order in which they are shown. */
export const YEAR_MEASURES = [
  "horned",
  "visits",
  "cost",
  "polledKids",
  "polledDoes",
  "intersex",
  "infertile",
  "inbreeding",
  "kinship",
  "does",
  "openDoes",
  "kids",
] as const satisfies readonly (keyof YearTally)[];

const HORNED = 2;
const isHorned = (genotype: number): boolean => genotype === HORNED;
const share = (part: number, whole: number): number => (whole === 0 ? 0 : part / whole);

interface Born extends DrawnKid {
  readonly sire: number;
  readonly dam: number;
  readonly day: number;
  /** Place in a shuffled order, so that daughters are kept by lot. */
  readonly lot: number;
}

/** What a year needs beside the herd. `at` names the run and the year, for chance. */
export interface YearQuestion {
  readonly policy: BreedingPolicy;
  readonly world: ForecastWorld;
  readonly seed: number;
  readonly run: number;
  readonly year: number;
}

/**
 * One year of a simulated herd: it is paired, kids, and is made up again for the next year.
 *
 * Heads are taken as seen: who is horned looks it. Kids kept are bred the year after. A buck that turns out barren has
 * cost his does a season and is replaced; so is a barren doe.
 *
 * Source: rule PA-10.
 */
export function simulateYear(
  herd: SimulatedHerd,
  question: YearQuestion,
): { readonly tally: YearTally; readonly next: SimulatedHerd } {
  const { policy, world } = question;
  const sires = pairHerd(herd, policy);
  const kids: Born[] = [];
  herd.does.forEach((doe, d) => {
    const sire = sires[d];
    const random = chanceAt(question.seed, question.run, question.year, d);
    const day = Math.floor(random.next() * world.kiddingDays);
    const count = drawn(random, world.litter);
    if (sire === undefined || doe.fertile === "no") return;
    const buck = present(herd.bucks[sire], "a buck");
    if (buck.fertile === "no") return;
    for (let k = 0; k < count; k++) {
      const lives = random.next() < world.kidLives;
      const lot = random.next();
      const kid = drawKid(random, buck.genotype, doe.genotype);
      if (lives) kids.push({ ...kid, sire, dam: d, day, lot });
    }
  });
  const next = nextHerd(herd, kids, question);
  return { tally: tallyOf(herd, sires, kids, world), next };
}

/**
 * Each doe's buck by his place: of those that the policy allows and that still have room, the least kin to her. Does that
 * have the fewest bucks to choose from come first.
 */
function pairHerd({ does, bucks, kin }: SimulatedHerd, policy: BreedingPolicy): readonly (number | undefined)[] {
  const load = bucks.map(() => 0);
  const sires: (number | undefined)[] = does.map(() => undefined);
  const open = does.map(({ genotype }) =>
    bucks.flatMap((buck, b) =>
      policy.pairing === "apart" && !isHorned(genotype) && !isHorned(buck.genotype) ? [] : [b],
    ),
  );
  const order = does.map((_, d) => d).sort((a, b) => (open[a]?.length ?? 0) - (open[b]?.length ?? 0));
  for (const d of order) {
    let least = Number.POSITIVE_INFINITY;
    for (const b of open[d] ?? []) {
      if ((load[b] ?? 0) >= policy.doesPerBuck) continue;
      // Among bucks that are as little kin, the one with fewer does.
      const kinship = kinOf(kin, d, does.length + b) + (load[b] ?? 0) * LOAD_WEIGHT;
      if (kinship < least) [sires[d], least] = [b, kinship];
    }
    const chosen = sires[d];
    if (chosen !== undefined) load[chosen] = (load[chosen] ?? 0) + 1;
  }
  return sires;
}

/** What one doe more counts against kinship when a buck is chosen; small enough only to break ties. */
const LOAD_WEIGHT = 1e-6;

function tallyOf(
  { does, bucks, kin }: SimulatedHerd,
  sires: readonly (number | undefined)[],
  kids: readonly Born[],
  world: ForecastWorld,
): YearTally {
  const horned = kids.filter((k) => isHorned(k.genotype));
  const visits = fewestVisits(horned, world.visitAges);
  return {
    does: does.length,
    openDoes: sires.filter((s) => s === undefined).length,
    kids: kids.length,
    horned: horned.length,
    intersex: kids.filter((k) => k.intersex === "yes").length,
    infertile: kids.filter((k) => k.fertile === "no").length,
    visits,
    cost: visits * world.visitCost + horned.length * world.headCost,
    inbreeding: share(
      kids.reduce((sum, k) => sum + kinOf(kin, k.dam, does.length + k.sire), 0),
      kids.length,
    ),
    kinship: does.length + bucks.length === 0 ? 0 : meanKin(kin),
    polledKids: share(kids.length - horned.length, kids.length),
    polledDoes: share(does.filter((d) => !isHorned(d.genotype)).length, does.length),
  };
}

/** The fewest visits that see every kid at a fit age: always wait for the kid whose days end first. */
export function fewestVisits(
  kids: readonly { readonly day: number }[],
  { from, to }: ForecastWorld["visitAges"],
): number {
  let visits = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (const day of kids.map((k) => k.day).sort((a, b) => a - b)) {
    if (last >= day + from) continue;
    last = day + to;
    visits++;
  }
  return visits;
}

/** The herd a year later: who stays, which kids are kept, which bucks are bought. */
function nextHerd(herd: SimulatedHerd, kids: readonly Born[], question: YearQuestion): SimulatedHerd {
  const { policy, world, seed, run, year } = question;
  const random = chanceAt(seed, run, year, -1);
  const lots = herd.does.map(() => random.next());
  const staying = herd.does.flatMap((doe, d) =>
    doe.fertile === "yes" && doe.seasons + 1 < policy.doeYears && (lots[d] ?? 0) >= world.doeLost ? [d] : [],
  );
  const stayingDoes = staying.slice(-policy.does); // too many: the oldest, who come first, leave
  const daughters = chosenDaughters(
    stayingDoes.map((d) => present(herd.does[d], "a doe").genotype),
    kids.filter((k) => k.look === "doe"),
    policy,
  );
  const sons = new Set<Born>();
  const places = policy.bucks.map((place, b): { stays: number } | { kid: Born } | { bought: LivingAnimal } => {
    const [genotypeDraw, fertileDraw] = [random.next(), random.next()];
    const buck = herd.bucks[b];
    if (buck !== undefined && buck.fertile === "yes" && buck.seasons + 1 < place.years) return { stays: b };
    const son = place.from === "own" ? bestSon(kids, place, sons, herd) : undefined;
    if (son !== undefined) {
      sons.add(son);
      return { kid: son };
    }
    return { bought: boughtBuck(place.bought, genotypeDraw, fertileDraw) };
  });
  const older = (animal: LivingAnimal): LivingAnimal => ({ ...animal, seasons: animal.seasons + 1 });
  const young = (kid: Born): LivingAnimal => ({ genotype: kid.genotype, seasons: 0, fertile: kid.fertile });
  const parents = (kid: Born) => ({ sire: herd.does.length + kid.sire, dam: kid.dam });

  const stayingBucks = places.flatMap((p) => ("stays" in p ? [p.stays] : []));
  const keptSons = places.flatMap((p) => ("kid" in p ? [p.kid] : []));
  const bought = places.flatMap((p) => ("bought" in p ? [p.bought] : []));
  const kin = kinNextYear(herd.kin, {
    staying: [...stayingDoes, ...stayingBucks.map((b) => herd.does.length + b)],
    kept: [...daughters, ...keptSons].map(parents),
    bought: bought.length,
  });
  const does = [...stayingDoes.map((d) => older(present(herd.does[d], "a doe"))), ...daughters.map(young)];
  // kinNextYear gives: staying does, staying bucks, daughters, sons, bought. The herd wants does, then bucks by place.
  const [s, b, g, k] = [stayingDoes.length, stayingBucks.length, daughters.length, keptSons.length];
  const spot = { stays: s, kid: s + b + g, bought: s + b + g + k };
  const buckSpots = places.map((p) => ("stays" in p ? spot.stays++ : "kid" in p ? spot.kid++ : spot.bought++));
  const order = [
    ...Array.from({ length: s }, (_, i) => i),
    ...Array.from({ length: g }, (_, i) => s + b + i),
    ...buckSpots,
  ];
  return {
    does,
    bucks: places.map((p) =>
      "stays" in p ? older(present(herd.bucks[p.stays], "a buck")) : "kid" in p ? young(p.kid) : p.bought,
    ),
    kin: reordered(kin, order),
  };
}

/** Daughters to fill the herd up: by lot, but for the polled share wished. */
function chosenDaughters(
  staying: readonly number[],
  daughters: readonly Born[],
  { does, polledShare }: BreedingPolicy,
): readonly Born[] {
  const wanted = Math.max(0, does - staying.length);
  const byLot = daughters.toSorted((a, b) => a.lot - b.lot);
  if (polledShare === undefined) return byLot.slice(0, wanted);
  const polled = byLot.filter((k) => !isHorned(k.genotype));
  const horned = byLot.filter((k) => isHorned(k.genotype));
  const chosen: Born[] = [];
  let polledDoes = staying.filter((g) => !isHorned(g)).length;
  while (chosen.length < wanted && polled.length + horned.length > 0) {
    const wantPolled = polledDoes < polledShare * does;
    const kid = (wantPolled ? (polled.shift() ?? horned.shift()) : (horned.shift() ?? polled.shift())) as Born;
    if (!isHorned(kid.genotype)) polledDoes++;
    chosen.push(kid);
  }
  return chosen;
}

/** The buck kid of the wished look that is least inbred. */
function bestSon(
  kids: readonly Born[],
  { look }: BuckPlace,
  taken: ReadonlySet<Born>,
  { does, kin }: SimulatedHerd,
): Born | undefined {
  const inbred = (kid: Born): number => kinOf(kin, kid.dam, does.length + kid.sire);
  return kids
    .filter((k) => k.look === "buck" && isHorned(k.genotype) === (look === "horned") && !taken.has(k))
    .sort((a, b) => inbred(a) - inbred(b) || a.lot - b.lot)[0];
}

/** A buck from elsewhere. */
export function boughtBuck(belief: PolledBelief, genotypeDraw: number, fertileDraw: number): LivingAnimal {
  const genotype = drawn(
    { next: () => genotypeDraw },
    POLLED_GENOTYPES.map((g) => belief[g]),
  );
  const barren = genotype === 0 && fertileDraw >= PP_BUCK_FERTILITY.value;
  return { genotype, seasons: 0, fertile: barren ? "no" : "yes" };
}

function reordered(kin: Kin, order: readonly number[]): Kin {
  const table = new Float64Array(order.length * order.length);
  order.forEach((a, i) => {
    order.forEach((b, j) => {
      table[i * order.length + j] = kinOf(kin, a, b);
    });
  });
  return { count: order.length, table };
}
