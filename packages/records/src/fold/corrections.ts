import type { AnimalId } from "@pollard/genetics";
import type { Entry } from "../entry/entry.ts";
import type { Correction, Fact } from "../entry/entry-kinds.ts";
import type { HerdProblem, HistoryLine } from "../herd.ts";
import type { EntryId } from "../entry/ids.ts";
import { canonicalText } from "../keeping/canonical-text.ts";
import { byStamp, compareText, dayAndTime, type Named, namedIn, type SettledFact } from "./settled-fact.ts";

/** What an entry and everything that corrects it come to. */
export interface Settlement {
  /** `undefined` = struck, or no fact at all. */
  readonly settled: SettledFact | undefined;
  readonly lines: readonly HistoryLine[];
  readonly problems: readonly HerdProblem[];
}

export type FactEntry = Extract<Entry, Fact>;
export type CorrectionEntry = Extract<Entry, Correction>;

/** Is it a correction of another entry, and no fact of its own? */
export const isCorrection = (entry: Entry): entry is CorrectionEntry =>
  entry.kind === "replace" || entry.kind === "strike";

const NONE: readonly never[] = [];

type Corrections = (id: EntryId) => readonly CorrectionEntry[];
type State = Pick<HistoryLine, "state" | "undoneBy">;

/** One entry of a tree of corrections, with what was found out about it. */
interface Node {
  readonly entry: Entry;
  /** The entry that it corrects; `undefined` at the root. */
  readonly above: Node | undefined;
  readonly below: Node[];
  /** The strike in force against it. */
  struckBy: EntryId | undefined;
  /** The later correction that decided against it. */
  settledBy: EntryId | undefined;
  /** The replacement in force, if any. */
  chosen: Node | undefined;
  /** The end of the chain of replacements in force: this node itself where none is. */
  end: Node;
}

/**
 * What a fact comes to after every correction of it, and of its corrections.
 *
 * A correction counts unless it is itself struck. Of several replacements of one entry the last by stamp counts; they are
 * rivals, and a problem, if they say different things and no later replacement `settles` them. A replacement of another
 * kind than the fact counts for nothing.
 *
 * Cost: in the number of corrections under the fact; nothing here recurses, so a chain may be long.
 */
export function settleFact(fact: FactEntry, corrections: Corrections): Settlement {
  if (corrections(fact.id).length === 0) return uncorrected(fact);
  const tree = treeUnder(fact, corrections);
  const problems: HerdProblem[] = [];
  findStrikes(tree);
  findSettled(tree);
  for (const node of tree.toReversed()) choose(node, fact.kind, problems);
  const root = tree[0] as Node;
  const standing = root.struckBy === undefined ? factOf(root.end) : undefined;
  const lines = tree.flatMap((node) => lineOf(node, fact.kind));
  if (!standing) return { settled: undefined, lines, problems };
  const from = { entry: fact.id, ...dayAndTime(standing.on), by: fact.by, at: fact.at };
  return { settled: { fact: standing, from, named: namedIn(standing) }, lines, problems };
}

/** What nearly every fact comes to: itself. */
function uncorrected(fact: FactEntry): Settlement {
  const { id: entry, kind, by, at } = fact;
  const named = namedIn(fact);
  const from = { entry, ...dayAndTime(fact.on), by, at };
  const line: HistoryLine = { ...from, kind, animals: animalsIn(named), state: "stands", undoneBy: undefined };
  return { settled: { fact, from, named }, lines: [line], problems: NONE };
}

/** What a correction comes to whose entry is not here (yet): nothing, and a problem unless it was itself struck. */
export function settleOrphan(orphan: CorrectionEntry, corrections: Corrections): Settlement {
  const tree = treeUnder(orphan, corrections);
  findStrikes(tree);
  const struck = tree[0]?.struckBy !== undefined;
  return { settled: undefined, lines: [], problems: struck ? [] : [correctsNothing(orphan)] };
}

/** What corrections come to that correct each other in a ring, and those that correct them: nothing, and a problem each. */
export function settleRing(start: CorrectionEntry, corrections: Corrections): Settlement {
  const seen = new Map<EntryId, CorrectionEntry>([[start.id, start]]);
  for (const entry of seen.values())
    for (const correction of corrections(entry.id)) seen.set(correction.id, correction);
  return { settled: undefined, lines: [], problems: [...seen.values()].map(correctsNothing) };
}

const correctsNothing = (entry: CorrectionEntry): HerdProblem => ({
  code: "corrects-nothing",
  entry: entry.id,
  target: entry.body.entry,
});

/** The entry and all that correct it, each after the one it corrects. */
function treeUnder(entry: Entry, corrections: Corrections): readonly Node[] {
  const node = (of: Entry, above: Node | undefined): Node => {
    const fresh = { entry: of, above, below: [], struckBy: undefined, settledBy: undefined, chosen: undefined };
    return Object.assign(fresh, { end: fresh }) as unknown as Node;
  };
  const tree = [node(entry, undefined)];
  for (const parent of tree)
    for (const correction of corrections(parent.entry.id)) {
      const child = node(correction, parent);
      parent.below.push(child);
      tree.push(child);
    }
  return tree;
}

const inOrder = (a: Node, b: Node): number =>
  byStamp({ at: a.entry.at, entry: a.entry.id }, { at: b.entry.at, entry: b.entry.id });

function findStrikes(tree: readonly Node[]): void {
  for (const node of tree.toReversed()) {
    const strikes = node.below.filter(({ entry, struckBy }) => entry.kind === "strike" && struckBy === undefined);
    node.struckBy = strikes.sort(inOrder).at(-1)?.entry.id;
  }
}

/** Marks what a later replacement in force has decided against. A replacement never decides against what it builds on. */
function findSettled(tree: readonly Node[]): void {
  const byId = new Map(tree.map((node) => [node.entry.id, node]));
  for (const node of [...tree].sort(inOrder)) {
    if (node.entry.kind !== "replace" || !node.entry.body.settles) continue;
    const path = new Set<Node>();
    for (let up: Node | undefined = node; up; up = up.above) path.add(up);
    if ([...path].some((up) => up.above && up.struckBy !== undefined)) continue;
    for (const id of node.entry.body.settles) {
      const decided = byId.get(id);
      if (decided && !path.has(decided) && inOrder(decided, node) < 0) decided.settledBy = node.entry.id;
    }
  }
}

/** Finds the replacement of `node` that is in force, when those further down have been found already. */
function choose(node: Node, kind: Fact["kind"], problems: HerdProblem[]): void {
  const fitting: Node[] = [];
  for (const replacement of node.below) {
    if (replacement.entry.kind !== "replace" || replacement.struckBy !== undefined) continue;
    const { entry } = replacement.end;
    if (node.entry.kind === "strike" || factOf(replacement.end)?.kind !== kind)
      problems.push({ code: "other-kind", entry: entry.id, target: (entry as CorrectionEntry).body.entry });
    else if (replacement.settledBy === undefined) fitting.push(replacement);
  }
  fitting.sort(inOrder);
  node.chosen = fitting.at(-1);
  node.end = node.chosen?.end ?? node;
  if (fitting.length < 2) return;
  const said = new Set(fitting.map(({ end }) => canonicalText(factOf(end))));
  const rivals = fitting.map(({ entry }) => entry.id);
  if (said.size > 1) problems.push({ code: "rival-corrections", entry: node.entry.id, rivals });
}

/** What an entry says by itself. */
function factOf({ entry }: Node): Fact | undefined {
  if (entry.kind === "strike") return undefined;
  return entry.kind === "replace" ? entry.body.fact : entry;
}

/** How a fact or a replacement fares: struck, replaced, or standing. */
function stateOf(node: Node): State {
  if (node.struckBy !== undefined) return { state: "struck", undoneBy: node.struckBy };
  if (node.chosen) return { state: "replaced", undoneBy: node.chosen.entry.id };
  for (let at = node; at.above; at = at.above) {
    if (at.struckBy !== undefined) return { state: "struck", undoneBy: at.struckBy };
    const rival = at.above.chosen;
    if (rival !== at) return { state: "replaced", undoneBy: at.settledBy ?? rival?.entry.id };
    if (!at.above.above && at.above.struckBy !== undefined) return { state: "struck", undoneBy: at.above.struckBy };
  }
  return { state: "stands", undoneBy: undefined };
}

/** The line of history of a fact or of a replacement of its kind; strikes have none of their own. */
function lineOf(node: Node, kind: Fact["kind"]): readonly HistoryLine[] {
  const said = factOf(node);
  if (said?.kind !== kind || node.above?.entry.kind === "strike") return [];
  const { id: entry, by, at } = node.entry;
  const animals = animalsIn(namedIn(said));
  return [{ entry, ...dayAndTime(said.on), by, at, kind, animals, ...stateOf(node) }];
}

const animalsIn = (named: readonly Named[]): readonly AnimalId[] =>
  named.length < 2
    ? named.map(({ animal }) => animal)
    : [...new Set(named.map(({ animal }) => animal))].sort(compareText);
