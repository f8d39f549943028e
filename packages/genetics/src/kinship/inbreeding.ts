import { f64, i32 } from "../inference/cell.ts";
import { DescendingSet } from "./descending-set.ts";
import type { NumberedPedigree } from "./numbered-pedigree.ts";

/** The inbreeding of every animal of a pedigree, and what kinships are worked out from. */
export interface Inbreeding {
  readonly pedigree: NumberedPedigree;
  /** Coefficient of inbreeding by position, 0 for founders. */
  readonly f: Float64Array;
  /** By position: the part of an animal's relationship to itself that comes from no ancestor (Mendelian sampling). */
  readonly own: Float64Array;
}

/**
 * How inbred every animal is: the chance that its two alleles at a locus descend from one allele of one ancestor.
 *
 * Half the relationship of sire and dam. Generation by generation, and in each sire by sire: what he has from each of his
 * ancestors is found once, and then his relationship to the dams of all his kids through one walk over their ancestors.
 *
 * Assumes: founders unrelated and not inbred.
 * Cost:    memory linear in the number of animals; time in sires per generation times the ancestors of their mates.
 * Source:  [colleau2002] (one animal's relationships in two walks), [sargolzaei2005] (sire by sire); rule GE-20.
 */
export function inbreeding(pedigree: NumberedPedigree): Inbreeding {
  const n = pedigree.ids.length;
  const f = new Float64Array(n);
  const own = new Float64Array(n);
  const walk = new AncestorWalk(pedigree);
  const relationships = new Relationships(pedigree);
  for (let from = 0; from < n; ) {
    let to = from;
    while (to < n && i32(pedigree.generation, to) === i32(pedigree.generation, from)) to++;
    for (let i = from; i < to; i++) own[i] = ownPart(pedigree, f, i);
    const bySire = groupsBySire(pedigree, from, to);
    for (const [sire, kids] of bySire) inbreedingOfKids(pedigree, { f, own }, walk, relationships, sire, kids);
    from = to;
  }
  return { pedigree, f, own };
}

/** The animals of a generation with both parents known, by sire. */
function groupsBySire(
  { sire, dam }: NumberedPedigree,
  from: number,
  to: number,
): ReadonlyMap<number, readonly number[]> {
  const groups = new Map<number, number[]>();
  for (let i = from; i < to; i++) {
    const s = i32(sire, i);
    if (s < 0 || i32(dam, i) < 0) continue;
    const group = groups.get(s);
    if (group) group.push(i);
    else groups.set(s, [i]);
  }
  return groups;
}

function inbreedingOfKids(
  { dam }: NumberedPedigree,
  { f, own }: { readonly f: Float64Array; readonly own: Float64Array },
  walk: AncestorWalk,
  relationships: Relationships,
  sire: number,
  kids: readonly number[],
): void {
  const shares = walk.shareTable;
  const line: number[] = [];
  walk.visit(sire, (ancestor, share) => {
    shares[ancestor] = share * f64(own, ancestor);
    line.push(ancestor);
  });
  relationships.begin(shares, line.at(-1) ?? 0);
  for (const kid of kids) f[kid] = relationships.to(i32(dam, kid)) / 2;
  for (const ancestor of line) shares[ancestor] = 0;
}

/**
 * The relationships of one animal to others: what an animal shares with it through itself, plus half of each parent's
 * relationship. Every ancestor of the others is looked at once, however many of them descend from it.
 */
class Relationships {
  readonly #pedigree: NumberedPedigree;
  readonly #values: Float64Array;
  /** Which animal's relationships a value belongs to. */
  readonly #turns: Int32Array;
  readonly #line: number[] = [];
  #turn = 0;
  #direct: Float64Array = new Float64Array(0);
  #oldest = 0;

  constructor(pedigree: NumberedPedigree) {
    this.#pedigree = pedigree;
    this.#values = new Float64Array(pedigree.ids.length);
    this.#turns = new Int32Array(pedigree.ids.length);
  }

  /** Turns to another animal; `direct` holds its ancestors' shares times what is their own, none before `oldest`. */
  begin(direct: Float64Array, oldest: number): void {
    this.#turn++;
    this.#direct = direct;
    this.#oldest = oldest;
  }

  to(animal: number): number {
    if (animal < this.#oldest) return 0;
    const { sire, dam } = this.#pedigree;
    const line = this.#line;
    line.push(animal);
    for (let at = animal; line.length > 0; at = line.at(-1) ?? -1) {
      const [s, d] = [i32(sire, at), i32(dam, at)];
      if (this.#isOpen(s)) line.push(s);
      else if (this.#isOpen(d)) line.push(d);
      else {
        this.#values[at] = f64(this.#direct, at) + (this.#known(s) + this.#known(d)) / 2;
        this.#turns[at] = this.#turn;
        line.pop();
      }
    }
    return f64(this.#values, animal);
  }

  #isOpen(parent: number): boolean {
    return parent >= this.#oldest && parent >= 0 && i32(this.#turns, parent) !== this.#turn;
  }

  #known(parent: number): number {
    return parent >= this.#oldest && parent >= 0 ? f64(this.#values, parent) : 0;
  }
}

function ownPart({ sire, dam }: NumberedPedigree, f: Float64Array, i: number): number {
  const [s, d] = [i32(sire, i), i32(dam, i)];
  return 1 - (s < 0 ? 0 : (1 + f64(f, s)) / 4) - (d < 0 ? 0 : (1 + f64(f, d)) / 4);
}

/** Walks from an animal to all its ancestors, the youngest first, with the share it has from each; itself has share 1. */
export class AncestorWalk {
  readonly #pedigree: NumberedPedigree;
  readonly #open: DescendingSet;
  readonly #shares: Float64Array;
  /** A table of zeros, one per animal, for the caller's use; to be left at zeros. */
  readonly shareTable: Float64Array;

  constructor(pedigree: NumberedPedigree) {
    this.#pedigree = pedigree;
    this.#open = new DescendingSet(pedigree.ids.length);
    this.#shares = new Float64Array(pedigree.ids.length);
    this.shareTable = new Float64Array(pedigree.ids.length);
  }

  visit(animal: number, see: (ancestor: number, share: number) => void): void {
    const shares = this.#shares;
    shares[animal] = 1;
    this.#open.add(animal);
    for (let at = this.#open.takeLargest(); at >= 0; at = this.#open.takeLargest()) {
      const share = f64(shares, at);
      shares[at] = 0;
      see(at, share);
      this.#hand(i32(this.#pedigree.sire, at), share / 2);
      this.#hand(i32(this.#pedigree.dam, at), share / 2);
    }
  }

  #hand(parent: number, share: number): void {
    if (parent < 0) return;
    this.#shares[parent] = f64(this.#shares, parent) + share;
    this.#open.add(parent);
  }
}
