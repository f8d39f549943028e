import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Entry, TooNewEntry } from "../entry/entry.ts";
import type { BodyOf, FactKind } from "../entry/entry-kinds.ts";
import type { Animal, Herd, HerdProblem, HistoryLine, Kidding, Provenance, Service, VetDay } from "../herd.ts";
import type { EntryId } from "../entry/ids.ts";
import { agesOf, animalRecord } from "./animal-record.ts";
import { correctionTrees } from "./correction-trees.ts";
import type { Settlement } from "./corrections.ts";
import { canBeParent, checkFact, type FactCheck } from "./fact-check.ts";
import { cutLoops, hasLoopAbove } from "./pedigree-loops.ts";
import { byDay, byStamp, compareText, type SettledFact } from "./settled-fact.ts";
import { sharedTags } from "./shared-tags.ts";
import { type ParentLink, type Sketch, sketchOf } from "./sketch.ts";
import { sortedList } from "./sorted-list.ts";

/** What the entries of one herd tell, brought up to date a few entries at a time. */
export interface Derivation {
  /** Takes in entries of one herd whose ids it has not seen before. */
  add(entries: readonly (Entry | TooNewEntry)[]): void;
  herd(): Omit<Herd, "id" | "tooNew">;
  problems(): readonly HerdProblem[];
}

/** Kinds that say nothing of what was so on a day: they count from whatever day they carry. A vet day lies ahead by nature. */
const COUNTS_AHEAD: readonly FactKind[] = ["animal", "note", "setting", "vet-day"];

const NONE: readonly never[] = [];

/** The order in which problems are listed. */
export const byEntry = (a: HerdProblem, b: HerdProblem): number =>
  compareText(a.entry, b.entry) || compareText(JSON.stringify(a), JSON.stringify(b));

/**
 * No entries yet.
 *
 * Five steps, each redone only where something under it changed: entries settle into facts; the facts that name an animal
 * give its sketch; the sketches of the animals in a fact say whether the fact can have been so; sound parent links without
 * loops give the pedigree; all of it gives the animals.
 */
export function derivation(today: Day): Derivation {
  const trees = correctionTrees();
  const facts = new Map<EntryId, SettledFact>();
  const naming = new Map<AnimalId, Map<EntryId, SettledFact>>();
  const sketches = new Map<AnimalId, Sketch>();
  const checks = new Map<EntryId, FactCheck>();
  const links = new Map<AnimalId, readonly ParentLink[]>();
  let cuts: ReadonlyMap<AnimalId, ReadonlySet<ParentLink>> = new Map();
  const settingsOf = new Map<string, Map<EntryId, SettledFact>>();
  const changedSettings = new Set<string>();

  const problems = sortedList<HerdProblem>(byEntry);
  const putEntryProblems = problems.keyed<EntryId>();
  const putAnimalProblems = problems.keyed<AnimalId>();
  const putFactProblems = problems.keyed<EntryId>();
  const putParentProblems = problems.keyed<AnimalId>();
  const putLoopProblems = problems.keyed<"loops">();
  const putAgeProblems = problems.keyed<AnimalId>();
  const tags = sharedTags(problems.keyed<string>());

  const history = sortedList<HistoryLine>((a, b) => byStamp(b, a));
  const putHistory = history.keyed<EntryId>();
  const services = sortedList<Service>(byDay);
  const putService = services.keyed<EntryId>();
  const kiddings = sortedList<Kidding>(byDay);
  const putKidding = kiddings.keyed<EntryId>();
  const vetDays = sortedList<VetDay>(byDay);
  const putVetDay = vetDays.keyed<EntryId>();
  const notes = sortedList<Provenance & { readonly text: string }>(byDay);
  const putNote = notes.keyed<EntryId>();
  const animals = sortedList<Animal>((a, b) => compareText(a.id, b.id));
  const putAnimal = animals.keyed<AnimalId>();
  const settings = sortedList<BodyOf<"setting">>((a, b) => compareText(a.key, b.key));
  const putSetting = settings.keyed<string>();
  const sketch = (id: AnimalId) => sketches.get(id);
  const linksOf = (id: AnimalId) => links.get(id) ?? [];

  /** Entries into facts. Answers with the facts that are new and all animals named in what went or came. */
  function settleFacts(entries: readonly (Entry | TooNewEntry)[]) {
    const fresh: SettledFact[] = [];
    const touched = new Set<AnimalId>();
    for (const { top, after } of trees.add(entries)) {
      const { counted, ahead } = countedToday(after, today);
      putHistory(top, after.lines);
      putEntryProblems(top, ahead.length > 0 ? [...after.problems, ...ahead] : after.problems);
      const before = facts.get(top);
      if (before) forget(before);
      if (counted) {
        remember(counted);
        fresh.push(counted);
      }
      for (const { animal } of [...(before?.named ?? []), ...(counted?.named ?? [])]) touched.add(animal);
    }
    return { fresh, touched };
  }

  function forget({ fact, from, named }: SettledFact): void {
    facts.delete(from.entry);
    checks.delete(from.entry);
    putFactProblems(from.entry, NONE);
    for (const put of [putService, putKidding, putVetDay, putNote]) put(from.entry, NONE);
    for (const { animal } of named) naming.get(animal)?.delete(from.entry);
    if (fact.kind === "setting") {
      settingsOf.get(fact.body.key)?.delete(from.entry);
      changedSettings.add(fact.body.key);
    }
  }

  function remember(settled: SettledFact): void {
    const { fact, from, named } = settled;
    facts.set(from.entry, settled);
    for (const { animal } of named) grouped(naming, animal).set(from.entry, settled);
    if (fact.kind === "setting") {
      grouped(settingsOf, fact.body.key).set(from.entry, settled);
      changedSettings.add(fact.body.key);
    }
    if (fact.kind === "note" && fact.body.animal === undefined)
      putNote(from.entry, [{ ...from, text: fact.body.text }]);
  }

  function chooseSettings(): void {
    for (const key of changedSettings) {
      const last = [...grouped(settingsOf, key).values()].sort((a, b) => byStamp(a.from, b.from)).at(-1);
      putSetting(key, last?.fact.kind === "setting" ? [last.fact.body] : NONE);
    }
    changedSettings.clear();
  }

  /** Facts into sketches. Answers with the facts that name an animal of which something changed that others look at. */
  function sketchAnimals(touched: ReadonlySet<AnimalId>): readonly SettledFact[] {
    const again: SettledFact[] = [];
    for (const id of touched) {
      const of = grouped(naming, id);
      const before = sketches.get(id);
      const after = sketchOf(id, [...of.values()], today);
      if (after) sketches.set(id, after);
      else {
        sketches.delete(id);
        naming.delete(id);
      }
      putAnimalProblems(id, after?.problems ?? NONE);
      if (outside(before) !== outside(after)) for (const fact of of.values()) again.push(fact);
    }
    return again;
  }

  function checkFacts(touched: ReadonlySet<SettledFact>): void {
    for (const settled of touched) {
      const { entry } = settled.from;
      const check = checkFact(settled, sketch);
      checks.set(entry, check);
      putService(entry, check.service ? [check.service] : NONE);
      putKidding(entry, check.kidding ? [check.kidding] : NONE);
      putVetDay(entry, check.vetDay ? [check.vetDay] : NONE);
      putFactProblems(entry, check.problems);
    }
  }

  /** Sketches into the pedigree. Answers with the animals that gained or lost a cut link. */
  function linkParents(touched: ReadonlySet<AnimalId>): readonly AnimalId[] {
    for (const id of touched) {
      const named = sketches.get(id)?.parents ?? [];
      links.set(
        id,
        named.filter((link) => canBeParent(link, sketch)),
      );
      const unfit = named.filter((link) => link.told === "animal" && !canBeParent(link, sketch));
      putParentProblems(
        id,
        unfit.map(({ role, entry, parent }) =>
          role === "dam"
            ? { code: "dam-is-no-doe", entry, animal: id, dam: parent }
            : { code: "sire-is-no-buck", entry, animal: id, sire: parent },
        ),
      );
    }
    if (cuts.size === 0 && !hasLoopAbove(touched, linksOf)) return [];
    const found = cutLoops(links.keys(), linksOf);
    const before = cuts;
    const next = new Map<AnimalId, Set<ParentLink>>();
    for (const { kid, link } of found) next.set(kid, (next.get(kid) ?? new Set()).add(link));
    cuts = next;
    putLoopProblems(
      "loops",
      found.map(({ link, loop }) => ({ code: "own-ancestor", entry: link.entry, animals: loop })),
    );
    return [...before.keys(), ...next.keys()];
  }

  function recordAnimals(touched: ReadonlySet<AnimalId>): void {
    for (const id of touched) {
      const own = sketches.get(id);
      const usable = [...(naming.get(id)?.values() ?? [])].filter(
        ({ from }) => checks.get(from.entry)?.usable === "yes",
      );
      const parents = linksOf(id).filter((link) => !cuts.get(id)?.has(link));
      putAnimal(id, own ? [animalRecord(own, usable, parents)] : NONE);
      putAgeProblems(id, own ? agesOf(own, parents, (parent) => sketches.get(parent)?.born) : NONE);
      tags.put(id, own);
      if (!own) links.delete(id);
    }
  }

  return {
    add: (entries) => {
      const { fresh, touched } = settleFacts(entries);
      const checked = new Set([...fresh, ...sketchAnimals(touched)]);
      checkFacts(checked);
      for (const { named } of checked) for (const { animal } of named) touched.add(animal);
      for (const id of linkParents(touched)) touched.add(id);
      recordAnimals(touched);
      tags.tell();
      chooseSettings();
    },
    herd: () => ({
      animals: byId(animals.items()),
      services: services.items(),
      kiddings: kiddings.items(),
      vetDays: vetDays.items(),
      settings: new Map(settings.items().map(({ key, value }) => [key, value])),
      notes: notes.items(),
      history: history.items(),
    }),
    problems: () => problems.items(),
  };
}

/** What of a settlement counts today, and the problem of a day that has not come yet. */
function countedToday({ settled }: Settlement, today: Day) {
  if (!settled || settled.from.on <= today || settled.fact.kind === "vet-day") return { counted: settled, ahead: NONE };
  const { entry, on } = settled.from;
  const ahead: readonly HerdProblem[] = [{ code: "in-the-future", entry, on, today }];
  return { counted: COUNTS_AHEAD.includes(settled.fact.kind) ? settled : undefined, ahead };
}

function byId(animals: readonly Animal[]): ReadonlyMap<AnimalId, Animal> {
  const map = new Map<AnimalId, Animal>();
  for (const animal of animals) map.set(animal.id, animal);
  return map;
}

/** Everything of an animal that the check of another's entries looks at, as one text. */
const outside = (sketch: Sketch | undefined): string =>
  sketch ? [sketch.sex, sketch.born, sketch.kidding, sketch.departure?.on, sketch.departure?.why].join(" ") : "";

function grouped<K, T>(groups: Map<K, Map<EntryId, T>>, key: K): Map<EntryId, T> {
  const group = groups.get(key) ?? new Map<EntryId, T>();
  groups.set(key, group);
  return group;
}
