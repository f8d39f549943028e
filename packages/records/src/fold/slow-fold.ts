import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { canonicalText } from "../keeping/canonical-text.ts";
import { type Entry, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import type { Fact } from "../entry/entry-kinds.ts";
import type { Animal, HerdProblem, HistoryLine } from "../herd.ts";
import type { EntryId } from "../entry/ids.ts";
import { agesOf, animalRecord } from "./animal-record.ts";
import type { CorrectionEntry } from "./corrections.ts";
import { canBeParent, checkFact } from "./fact-check.ts";
import type { Folded } from "./ledger.ts";
import { dayAndTime, namedIn, type SettledFact } from "./settled-fact.ts";
import { type ParentLink, type Sketch, sketchOf } from "./sketch.ts";

/**
 * The slow way to fold, for comparison in tests: everything from scratch, by definition, with recursion and without any
 * book-keeping. It shares with `fold` only what looks at one animal or one fact at a time.
 */
export function slowFold(given: readonly (Entry | TooNewEntry)[], today: Day): Folded {
  const problems: HerdProblem[] = [];
  const entries = oneForEachId(given, problems);
  const herd = biggestHerd(entries);
  const tooNew = entries.filter(isTooNew);
  const ours: Entry[] = [];
  for (const entry of entries) {
    if (isTooNew(entry)) problems.push({ code: "too-new", entry: entry.id });
    else if (entry.herd === herd) ours.push(entry);
    else problems.push({ code: "other-herd", entry: entry.id, herd: entry.herd });
  }
  const history: HistoryLine[] = [];
  const facts: SettledFact[] = [];
  for (const entry of ours) {
    if (isFact(entry)) {
      const settled = settle(entry, ours, history, problems);
      if (!settled) continue;
      const lateKinds = ["animal", "note", "setting"];
      if (settled.from.on <= today || settled.fact.kind === "vet-day") facts.push(settled);
      else {
        problems.push({ code: "in-the-future", entry: entry.id, on: settled.from.on, today });
        if (lateKinds.includes(settled.fact.kind)) facts.push(settled);
      }
    } else if (leadsNowhere(entry, ours, tooNew))
      problems.push({ code: "corrects-nothing", entry: entry.id, target: entry.body.entry });
  }
  const names = [...new Set(facts.flatMap(({ named }) => named.map(({ animal }) => animal)))].sort();
  const sketches = new Map<AnimalId, Sketch>();
  for (const id of names) {
    const sketch = sketchOf(
      id,
      facts.filter(({ named }) => named.some(({ animal }) => animal === id)),
      today,
    );
    if (sketch) sketches.set(id, sketch);
    problems.push(...(sketch?.problems ?? []));
  }
  const see = (id: AnimalId) => sketches.get(id);
  const checked = facts.map((fact) => ({ ...fact, check: checkFact(fact, see) }));
  for (const { check } of checked) problems.push(...check.problems);
  for (const { id, parents } of sketches.values())
    for (const link of parents)
      if (link.told === "animal" && !canBeParent(link, see)) problems.push(unfitParent(id, link));
  const kept = withoutLoops([...sketches.values()], see, problems);
  const animals = new Map<AnimalId, Animal>();
  for (const sketch of sketches.values()) {
    const parents = sketch.parents.filter((link) => kept.has(link));
    const usable = checked.filter(
      ({ named, check }) => check.usable === "yes" && named.some((n) => n.animal === sketch.id),
    );
    animals.set(sketch.id, animalRecord(sketch, usable, parents));
    problems.push(...agesOf(sketch, parents, (id) => sketches.get(id)?.born));
  }
  problems.push(...sharedTags([...sketches.values()]));
  const inDayOrder = [...checked].sort((a, b) =>
    order(a.from.on + a.from.at + a.from.entry, b.from.on + b.from.at + b.from.entry),
  );
  const settings = new Map<string, string | number>();
  for (const { fact } of [...checked].sort((a, b) => order(a.from.at + a.from.entry, b.from.at + b.from.entry)))
    if (fact.kind === "setting") settings.set(fact.body.key, fact.body.value);
  return {
    herd: {
      id: herd,
      animals,
      services: inDayOrder.flatMap(({ check }) => (check.service ? [check.service] : [])),
      kiddings: inDayOrder.flatMap(({ check }) => (check.kidding ? [check.kidding] : [])),
      vetDays: inDayOrder.flatMap(({ check }) => (check.vetDay ? [check.vetDay] : [])),
      settings,
      notes: inDayOrder.flatMap(({ fact, from }) =>
        fact.kind === "note" && fact.body.animal === undefined ? [{ ...from, text: fact.body.text }] : [],
      ),
      history: history.sort((a, b) => order(b.at + b.entry, a.at + a.entry)),
      tooNew: tooNew.length,
    },
    problems: problems.sort((a, b) => order(a.entry, b.entry) || order(JSON.stringify(a), JSON.stringify(b))),
  };
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const isFact = (entry: Entry): entry is Exclude<Entry, CorrectionEntry> =>
  entry.kind !== "strike" && entry.kind !== "replace";

function oneForEachId(
  given: readonly (Entry | TooNewEntry)[],
  problems: HerdProblem[],
): readonly (Entry | TooNewEntry)[] {
  return [...new Set(given.map(({ id }) => id))].map((id) => {
    const rank = (entry: Entry | TooNewEntry) =>
      isTooNew(entry) ? `~${canonicalText(entry.tooNew)}` : entry.at + canonicalText(entry);
    const texts = new Map(given.filter((entry) => entry.id === id).map((entry) => [rank(entry), entry]));
    if (texts.size > 1) problems.push({ code: "one-id-two-entries", entry: id });
    return texts.get([...texts.keys()].sort()[0] ?? "") as Entry | TooNewEntry;
  });
}

function biggestHerd(entries: readonly (Entry | TooNewEntry)[]) {
  const named = entries.flatMap((entry) => (isTooNew(entry) ? [] : [entry.herd]));
  const size = (herd: string) => named.filter((other) => other === herd).length;
  return [...new Set(named)].sort((a, b) => size(b) - size(a) || order(a, b))[0];
}

/** Does following what it corrects end at no fact: at nothing (unless it was struck), or round in a ring? */
function leadsNowhere(entry: CorrectionEntry, ours: readonly Entry[], tooNew: readonly TooNewEntry[]): boolean {
  let at: Entry = entry;
  for (let step = 0; step <= ours.length; step++) {
    if (isFact(at)) return false;
    const target: EntryId = at.body.entry;
    const next = ours.find(({ id }) => id === target);
    if (!next) return at === entry && !tooNew.some(({ id }) => id === target) && strikerOf(entry, ours) === undefined;
    at = next;
  }
  return true;
}

const belowOf = (entry: Entry, ours: readonly Entry[]): readonly CorrectionEntry[] =>
  ours
    .filter((other): other is CorrectionEntry => !isFact(other) && other.body.entry === entry.id)
    .sort((a, b) => order(a.at + a.id, b.at + b.id));

/** The last strike of an entry that is not itself struck. */
const strikerOf = (entry: Entry, ours: readonly Entry[]): EntryId | undefined =>
  belowOf(entry, ours).findLast((other) => other.kind === "strike" && strikerOf(other, ours) === undefined)?.id;

function settle(
  root: Exclude<Entry, CorrectionEntry>,
  ours: readonly Entry[],
  history: HistoryLine[],
  problems: HerdProblem[],
) {
  const under = (entry: Entry): readonly Entry[] => [entry, ...belowOf(entry, ours).flatMap(under)];
  const tree = under(root);
  const upFrom = (entry: Entry): readonly Entry[] => {
    if (isFact(entry)) return [entry];
    const target = tree.find(({ id }) => id === entry.body.entry);
    return target ? [entry, ...upFrom(target)] : [entry];
  };
  const struck = (entry: Entry) => strikerOf(entry, ours) !== undefined;
  const settledBy = (entry: Entry) =>
    tree
      .filter((other) => other.kind === "replace" && other.body.settles?.includes(entry.id))
      .filter((other) => other.at + other.id > entry.at + entry.id)
      .filter((other) => !upFrom(other).includes(entry))
      .filter((other) => !upFrom(other).some((up) => !isFact(up) && struck(up)))
      .sort((a, b) => order(a.at + a.id, b.at + b.id))
      .at(-1)?.id;
  const said = (entry: Entry): Fact | undefined =>
    isFact(entry) ? entry : entry.kind === "replace" ? entry.body.fact : undefined;
  const fitting = (entry: Entry): readonly CorrectionEntry[] =>
    belowOf(entry, ours)
      .filter((other) => other.kind === "replace" && !struck(other))
      .filter((other) => entry.kind !== "strike" && said(end(other))?.kind === root.kind);
  const rivals = (entry: Entry) => fitting(entry).filter((other) => settledBy(other) === undefined);
  const end = (entry: Entry): Entry => {
    const winner = rivals(entry).at(-1);
    return winner ? end(winner) : entry;
  };
  for (const entry of tree) {
    for (const other of belowOf(entry, ours).filter(
      (o) => o.kind === "replace" && !struck(o) && !fitting(entry).includes(o),
    )) {
      const last = end(other) as CorrectionEntry;
      problems.push({ code: "other-kind", entry: last.id, target: last.body.entry });
    }
    if (new Set(rivals(entry).map((other) => canonicalText(said(end(other))))).size > 1)
      problems.push({ code: "rival-corrections", entry: entry.id, rivals: rivals(entry).map(({ id }) => id) });
    const fact = said(entry);
    const target = upFrom(entry)[1];
    if (fact?.kind !== root.kind || target?.kind === "strike") continue;
    const animals = [...new Set(namedIn(fact).map(({ animal }) => animal))].sort();
    history.push({
      ...fate(entry),
      entry: entry.id,
      ...dayAndTime(fact.on),
      by: entry.by,
      at: entry.at,
      kind: fact.kind,
      animals,
    });
  }
  const last = said(end(root));
  if (struck(root) || !last) return undefined;
  const from = { entry: root.id, ...dayAndTime(last.on), by: root.by, at: root.at };
  return { fact: last, from, named: namedIn(last) };

  function fate(entry: Entry): Pick<HistoryLine, "state" | "undoneBy"> {
    const [, ...above] = upFrom(entry);
    const striker = strikerOf(entry, ours);
    if (striker) return { state: "struck", undoneBy: striker };
    const winner = rivals(entry).at(-1);
    if (winner) return { state: "replaced", undoneBy: winner.id };
    let at = entry;
    for (const up of above) {
      if (at !== entry && strikerOf(at, ours)) return { state: "struck", undoneBy: strikerOf(at, ours) };
      const chosen = rivals(up).at(-1);
      if (chosen !== at) return { state: "replaced", undoneBy: settledBy(at) ?? chosen?.id };
      at = up;
    }
    const rootStriker = strikerOf(root, ours);
    return rootStriker ? { state: "struck", undoneBy: rootStriker } : { state: "stands", undoneBy: undefined };
  }
}

const unfitParent = (animal: AnimalId, { role, entry, parent }: ParentLink): HerdProblem =>
  role === "dam"
    ? { code: "dam-is-no-doe", entry, animal, dam: parent }
    : { code: "sire-is-no-buck", entry, animal, sire: parent };

/** The links that stand: in the order of writing, each that closes no loop with those before it. */
function withoutLoops(sketches: readonly Sketch[], see: (id: AnimalId) => Sketch | undefined, problems: HerdProblem[]) {
  const links = sketches
    .flatMap(({ id, parents }) => parents.filter((link) => canBeParent(link, see)).map((link) => ({ kid: id, link })))
    .sort((a, b) =>
      order(
        [a.link.at, a.link.entry, a.kid, a.link.parent].join(" "),
        [b.link.at, b.link.entry, b.kid, b.link.parent].join(" "),
      ),
    );
  const kept: typeof links = [];
  const waysUp = (from: AnimalId, to: AnimalId): readonly (readonly AnimalId[])[] =>
    from === to
      ? [[to]]
      : kept
          .filter(({ kid }) => kid === from)
          .flatMap(({ link }) => waysUp(link.parent, to).map((way) => [from, ...way]));
  for (const { kid, link } of links) {
    const loops = waysUp(link.parent, kid);
    if (loops.length === 0) kept.push({ kid, link });
    else {
      const shortest = Math.min(...loops.map((loop) => loop.length));
      const loop = loops.find(({ length }) => length === shortest) ?? [];
      problems.push({ code: "own-ancestor", entry: link.entry, animals: [kid, ...loop.slice(0, -1)] });
    }
  }
  return new Set(kept.map(({ link }) => link));
}

function sharedTags(sketches: readonly Sketch[]): readonly HerdProblem[] {
  const present = sketches.filter(({ departure }) => !departure);
  return [...new Set(present.map(({ tag }) => tag))].flatMap((tag): readonly HerdProblem[] => {
    const worn = present.filter((sketch) => tag !== undefined && sketch.tag === tag);
    const since = ({ id, tagged }: Sketch) => [tagged?.at, tagged?.entry, id].join(" ");
    worn.sort((a, b) => order(since(a), since(b)));
    const entry = worn.at(-1)?.tagged?.entry;
    if (worn.length < 2 || tag === undefined || entry === undefined) return [];
    return [{ code: "two-with-one-tag", entry, tag, animals: worn.map(({ id }) => id) }];
  });
}
