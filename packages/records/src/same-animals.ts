import { daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Folded } from "./fold/ledger.ts";
import { byDay, compareText } from "./fold/settled-fact.ts";
import type { Animal, Herd, Kidding, Provenance } from "./herd.ts";

/**
 * Settings under which a person said whether two records are of one animal: this, and the two ids, the lesser first. Both phones
 * may have entered the same newborn; the answer is an entry like any other, so it can be struck.
 */
export const SAME_SETTING = "same:";
/** What a person says of two records: one animal, or two. */
export type SameAnswer = "one" | "two";

/** The setting that keeps the answer about two records. */
export const sameKey = (a: AnimalId, b: AnimalId): string => `${SAME_SETTING}${[a, b].sort(compareText).join(" ")}`;

/** The pairs of records that a person called one, and that are this animal now. */
export function putTogether(herd: Herd, animal: AnimalId): readonly (readonly [AnimalId, AnimalId])[] {
  const pairs = saidToBeOne(herd.settings);
  const here = new Set<AnimalId>([animal]);
  for (let size = 0; size < here.size; ) {
    size = here.size;
    for (const pair of pairs) if (pair.some((id) => here.has(id))) for (const id of pair) here.add(id);
  }
  return pairs.filter(([a]) => here.has(a));
}

/** Two records that may be of one newborn. */
export interface SameNewborn {
  readonly kids: readonly [AnimalId, AnimalId];
  /** The kiddings that they stand in. */
  readonly kiddings: readonly [Kidding, Kidding];
}

/**
 * The herd with records that a person called one animal put together: what either says counts for the one that was entered
 * first, every list in order of day, and two kiddings that turn out to be one are one.
 *
 * The same answer whatever the order of entries. The same object where nobody said so, and of each animal that it does not
 * concern.
 *
 * Shape:   the animal of the lesser id stays (ids are made in the order of time); the other's id is nowhere any more.
 * Source:  rule RE-64.
 */
export function withSameAnimals(folded: Folded): Folded {
  const kept = keptFor(folded.herd);
  if (kept.size === 0) return folded;
  const idOf = (id: AnimalId): AnimalId => kept.get(id) ?? id;
  const idsOf = (ids: readonly AnimalId[]): readonly AnimalId[] => [...new Set(ids.map(idOf))];
  const { herd, problems } = folded;
  const { kiddings, nowIn } = oneKiddingEach(
    herd.kiddings.map((kidding) => ({ ...kidding, dam: idOf(kidding.dam), kids: idsOf(kidding.kids) })),
  );
  const animals = new Map<AnimalId, Animal>();
  for (const [id, animal] of herd.animals) {
    const there = animals.get(idOf(id));
    const [dam, kidding] = [animal.dam && idOf(animal.dam), animal.kidding && nowIn.get(animal.kidding)];
    const isTouched = dam !== animal.dam || kidding !== undefined || animal.sires.some((sire) => idOf(sire) !== sire);
    const own: Animal = isTouched
      ? { ...animal, dam, sires: idsOf(animal.sires), kidding: kidding ?? animal.kidding }
      : animal;
    const alone = id === idOf(id) ? own : { ...own, id: idOf(id) };
    animals.set(idOf(id), there === undefined ? alone : together(there, own, idOf(id)));
  }
  return {
    herd: {
      ...herd,
      animals,
      kiddings,
      services: herd.services.map((service) => ({ ...service, doe: idOf(service.doe), bucks: idsOf(service.bucks) })),
      history: herd.history.map((line) => ({ ...line, animals: idsOf(line.animals) })),
    },
    problems: problems.filter((problem) => problem.code !== "two-with-one-tag" || idsOf(problem.animals).length > 1),
  };
}

/** Whom each record that is put to another's is now: only records that are here, by way of any number of answers. */
function keptFor({ settings, animals }: Herd): ReadonlyMap<AnimalId, AnimalId> {
  const pairs = saidToBeOne(settings).filter((pair) => pair.every((id) => animals.has(id)));
  const least = new Map<AnimalId, AnimalId>();
  const find = (id: AnimalId): AnimalId => {
    const next = least.get(id);
    return next === undefined ? id : find(next);
  };
  for (const [a, b] of pairs) {
    const [x, y] = [find(a), find(b)].sort(compareText) as [AnimalId, AnimalId];
    if (x !== y) least.set(y, x);
  }
  return new Map([...least.keys()].map((id) => [id, find(id)]));
}

function saidToBeOne(settings: Herd["settings"]): readonly (readonly [AnimalId, AnimalId])[] {
  return [...settings].flatMap(([key, value]) => {
    if (!key.startsWith(SAME_SETTING) || value !== "one") return [];
    const [a, b, ...more] = key.slice(SAME_SETTING.length).split(" ") as AnimalId[];
    return a !== undefined && b !== undefined && more.length === 0 && a !== b ? [[a, b] as const] : [];
  });
}

/** Kiddings of one dam that share a kid are one: the earlier. `nowIn` says which one each that is gone went into. */
function oneKiddingEach(kiddings: readonly Kidding[]): {
  readonly kiddings: readonly Kidding[];
  readonly nowIn: ReadonlyMap<Kidding["entry"], Kidding["entry"]>;
} {
  const nowIn = new Map<Kidding["entry"], Kidding["entry"]>();
  const kept: Kidding[] = [];
  for (const kidding of kiddings) {
    const at = kept.findIndex(
      (each) => each.dam === kidding.dam && each.kids.some((kid) => kidding.kids.includes(kid)),
    );
    const first = kept[at];
    if (first === undefined) kept.push(kidding);
    else {
      kept[at] = { ...first, kids: [...new Set([...first.kids, ...kidding.kids])] };
      nowIn.set(kidding.entry, first.entry);
    }
  }
  return { kiddings: kept, nowIn };
}

const LISTS = [
  "readings",
  "outcomes",
  "disbuddings",
  "tests",
  "traits",
  "moves",
  "weights",
  "choices",
  "notes",
  "photos",
  "heats",
  "pregnancyChecks",
  "abortions",
  "care",
] as const satisfies readonly (keyof Animal)[];

/** One animal of two records; where both say something, the first one's word counts, but "unsure" is no word. */
function together(one: Animal, other: Animal, id: AnimalId): Animal {
  const [first, second] = [one, other].sort((a, b) => compareText(a.id, b.id)) as [Animal, Animal];
  const lists = Object.fromEntries(
    LISTS.map((list) => [list, ([...first[list], ...second[list]] as Provenance[]).sort(byDay)]),
  ) as unknown as Pick<Animal, (typeof LISTS)[number]>;
  return {
    ...first,
    ...lists,
    id,
    name: first.name ?? second.name,
    tag: first.tag ?? second.tag,
    chip: first.chip ?? second.chip,
    mark: first.mark ?? second.mark,
    sex: first.sex === "unsure" ? second.sex : first.sex,
    born: first.born ?? second.born,
    bornAs: first.bornAs ?? second.bornAs,
    breed: first.breed ?? second.breed,
    dam: first.dam ?? second.dam,
    sires: first.sires.length > 0 ? first.sires : second.sires,
    kidding: first.kidding ?? second.kidding,
    head: first.head ?? second.head,
    departure: first.departure ?? second.departure,
  };
}

/** Days by which two people may differ about a birth: a night that one calls the day before. */
const DAYS_APART = 1;

/**
 * Newborns that stand in two kiddings of one dam at about the same time, and that nobody has answered about: likely the same kid,
 * entered on both phones. Each is asked about once, with the record that is likest.
 *
 * Assumes: a herd as `withSameAnimals` gives it.
 * Source:  rule RE-65.
 */
export function sameNewborns({ animals, kiddings, settings }: Herd): readonly SameNewborn[] {
  const found: SameNewborn[] = [];
  for (const [i, one] of kiddings.entries())
    for (const other of kiddings.slice(i + 1)) {
      if (one.dam !== other.dam || Math.abs(daysFrom(one.on, other.on)) > DAYS_APART) continue;
      const pairs = one.kids
        .flatMap((a) => other.kids.map((b) => [a, b] as const))
        .flatMap(([a, b]) => {
          const [kid, twin] = [animals.get(a), animals.get(b)];
          const answer = settings.get(sameKey(a, b));
          const alike = kid === undefined || twin === undefined ? undefined : likeness(kid, twin);
          return alike === undefined || answer === "two" ? [] : [{ a, b, alike }];
        })
        .sort((x, y) => y.alike - x.alike || compareText(x.a, y.a) || compareText(x.b, y.b));
      const taken = new Set<AnimalId>();
      for (const { a, b } of pairs) {
        if (taken.has(a) || taken.has(b)) continue;
        taken.add(a).add(b);
        found.push({ kids: [a, b], kiddings: [one, other] });
      }
    }
  return found;
}

/** How alike two records of newborns are; `undefined` where they cannot be of one. */
function likeness(one: Animal, other: Animal): number | undefined {
  let alike = 0;
  for (const [field, weight] of [
    ["tag", 4],
    ["chip", 4],
    ["name", 4],
    ["mark", 2],
    ["bornAs", 1],
  ] as const) {
    const [a, b] = [one[field], other[field]];
    if (a === undefined || b === undefined) continue;
    if (a !== b && field !== "mark") return undefined;
    if (a === b) alike += weight;
  }
  const sexes = [one.sex, other.sex];
  if (one.sex !== other.sex && !sexes.includes("unsure") && !sexes.includes("intersex")) return undefined;
  return alike + (one.sex === other.sex ? 1 : 0);
}
