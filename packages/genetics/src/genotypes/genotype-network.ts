import { present } from "@pollard/base";
import { f64 } from "../inference/cell.ts";
import type { Factor, FactorGraph } from "../inference/factor-graph.ts";
import type { Locus } from "../locus.ts";
import { hangsTogether, type Litter, littersOf } from "../pedigree/litters.ts";
import { isSameBirth } from "../pedigree/sameness.ts";
import type { SoundMember, SoundSire } from "../pedigree/sound-problem.ts";
import { hasStatesLeft, ownEvidence, statesLeft } from "./own-evidence.ts";
import { choiceTable, type LitterVariable, litterTable, type SireDoubt } from "./sire-doubt.ts";
import {
  type Gametes,
  gametesOf,
  gametesOfAllele,
  narrowed,
  ofStates,
  type SpaceKind,
  type StateSpace,
  type StateSpaces,
  stateSpaces,
  transmissionTable,
} from "./state-space.ts";

/** A family of a pedigree as tables over variables, ready for inference. */
export interface GenotypeNetwork {
  readonly graph: FactorGraph;
  /** Per animal: its variable, and what the variable's states are: those its own evidence does not rule out. */
  readonly variables: ReadonlyMap<number, number>;
  readonly spaces: ReadonlyMap<number, StateSpace>;
  /** Per animal of several possible sires: where to read which one it was. */
  readonly doubts: ReadonlyMap<number, SireDoubt>;
  /** The litters whose kids know something of each other's sires. */
  readonly litters: readonly LitterVariable[];
}

/** Which of an animal's states stand in the tables, beside those that its own evidence leaves it. */
export interface StatesWanted {
  /** An animal that keeps all states, to ask what it would be without its own evidence. */
  readonly whole?: number;
  /** Whether an animal keeps the state at a place of those that its evidence leaves it; it must keep one. */
  readonly isKept?: (animal: number, at: number) => boolean;
}

/** The space an animal's states are drawn from; see `stateSpaces`. */
function spaceKind(locus: Locus, xx: number, isDoubtfulSire: boolean): SpaceKind {
  if (locus.inheritance === "autosomal" && (!isDoubtfulSire || xx === 0)) return "merged";
  return xx === 1 ? "XX" : xx === 0 ? "XY" : "sexed";
}

/**
 * The tables of one family: founders, transmission from both parents, and for a doubtful sire a variable that says which
 * buck it was and which allele came from him, so that no table ever holds all the candidates. Of litter mates one variable
 * more says whether they have one sire, and which.
 *
 * States that an animal's own evidence rules out are not there at all, which makes the tables of a herd of proven dams
 * (never PP) small.
 *
 * Assumes: every parent of a member of the family (positions in `members`) belongs to it.
 */
export function genotypeNetwork(
  locus: Locus,
  members: readonly SoundMember[],
  family: readonly number[],
  { whole, isKept }: StatesWanted = {},
): GenotypeNetwork {
  const builder = new Builder(locus);
  const doubtful = new Set<number>();
  for (const i of family) {
    const { sires } = memberAt(members, i);
    if (sires.length > 1) for (const s of sires) if (s.sire >= 0) doubtful.add(s.sire);
  }
  for (const i of family)
    builder.addAnimal(i, memberAt(members, i), {
      isDoubtfulSire: doubtful.has(i),
      isWhole: i === whole,
      ...(isKept ? { isKept: (at: number) => isKept(i, at) } : {}),
    });
  for (const litter of littersOf(members, family)) if (hangsTogether(litter)) builder.addLitter(litter);
  for (const i of family) builder.addOrigin(i, memberAt(members, i));
  return builder.network();
}

/**
 * The network of a family of whose members other things were found: all tables are the very same, and so is the evidence of
 * everyone of whom nothing changed. A state that a new finding rules out keeps its place, where `mayRuleOut`.
 *
 * Shape: nothing where more changed than findings, or where they leave an animal other states than stand in the tables.
 */
export function networkAfter(
  locus: Locus,
  family: readonly number[],
  before: { readonly network: GenotypeNetwork; readonly members: readonly SoundMember[] },
  { members, mayRuleOut }: { readonly members: readonly SoundMember[]; readonly mayRuleOut: boolean },
): GenotypeNetwork | undefined {
  const { network } = before;
  const all = stateSpaces(locus);
  const logUnary = network.graph.logUnary.slice();
  for (const i of family) {
    const [was, m] = [memberAt(before.members, i), memberAt(members, i)];
    if (m === was) continue;
    if (!isSameBirth(was, m)) return undefined;
    const space = present(network.spaces.get(i), "an animal's states");
    const own = ownEvidence(all[space.kind], m.xx, m.evidence);
    const logs = ofStates(space, own);
    if (!hasStatesLeft(space, own)) return undefined;
    if (!mayRuleOut && logs.includes(Number.NEGATIVE_INFINITY)) return undefined;
    logUnary[present(network.variables.get(i), "an animal's variable")] = logs;
  }
  return { ...network, graph: { ...network.graph, logUnary } };
}

/** The one buck who may be the sire beside the unknown ones; nothing if there are more, or no doubt. */
function onlyBuck({ sires }: SoundMember): SoundSire | undefined {
  const [only, ...more] = sires.filter((s) => s.sire >= 0);
  return more.length === 0 && sires.length > 1 ? only : undefined;
}

const memberAt = (members: readonly SoundMember[], i: number): SoundMember => present(members[i], "a member");

class Builder {
  readonly #locus: Locus;
  readonly #spaces: StateSpaces;
  /** Three genotypes make small tables of two parents and a kid; six and more do not, and alleles stand in between. */
  readonly #byGametes: boolean;
  /** What is handed on where the allele itself is the variable. */
  readonly #alleles: Gametes;
  readonly #sizes: number[] = [];
  readonly #logUnary: Float64Array[] = [];
  readonly #factors: Factor[] = [];
  readonly #variables = new Map<number, number>();
  readonly #spaceOf = new Map<number, StateSpace>();
  readonly #doubts = new Map<number, SireDoubt>();
  readonly #litters: LitterVariable[] = [];
  readonly #litterOf = new Map<number, LitterVariable>();
  readonly #tables = new Map<string, Float64Array>();
  readonly #keys = new Map<readonly number[], string>();
  readonly #gametes = new Map<string, Gametes>();

  constructor(locus: Locus) {
    this.#locus = locus;
    this.#spaces = stateSpaces(locus);
    this.#byGametes = locus.alleles.length > 2;
    this.#alleles = gametesOfAllele(locus.alleles.length);
  }

  addAnimal(
    i: number,
    m: SoundMember,
    {
      isDoubtfulSire,
      isWhole,
      isKept = () => true,
    }: {
      readonly isDoubtfulSire: boolean;
      readonly isWhole: boolean;
      readonly isKept?: (at: number) => boolean;
    },
  ): void {
    const all = this.#spaces[spaceKind(this.#locus, m.xx, isDoubtfulSire)];
    const own = ownEvidence(all, m.xx, m.evidence);
    const space = isWhole ? all : narrowed(statesLeft(all, own), isKept);
    this.#spaceOf.set(i, space);
    this.#variables.set(i, this.#variable(ofStates(space, own)));
  }

  /** The sire that the kids of a litter have in common, unless each has its own. */
  addLitter(litter: Litter): void {
    const { weights, mixed, kids } = litter;
    const chances = weights.map((w) => (1 - mixed) * w);
    const logs = this.#cached(`litter ${mixed} ${weights.join()}`, () =>
      Float64Array.from(mixed > 0 ? [...chances, mixed] : chances, Math.log),
    );
    const found = { litter, variable: this.#variable(logs) };
    this.#litters.push(found);
    for (const i of kids) this.#litterOf.set(i, found);
  }

  /** Where the animal's genotype comes from: the founder population, or its parents. */
  addOrigin(i: number, m: SoundMember): void {
    const kid = this.#spaceAt(i);
    const own = this.#variableAt(i);
    const unknown = { key: this.#keyOf(m.frequencies), scope: [], gametes: [m.frequencies] };
    if (m.dam < 0 && m.sires.length === 0 && m.founderPrior !== undefined) {
      const prior = m.founderPrior;
      this.#factors.push({ scope: [own], table: Float64Array.from(kid.states, (s) => prior[s.genotype] ?? 0) });
      return;
    }
    const dam = m.dam < 0 ? unknown : this.#handedOn(m.dam, "dam");
    const only = this.#byGametes ? undefined : this.#onlyBuck(i, m);
    if (only) {
      const sire = this.#parent(only.sire, "sire");
      const keys = m.sires.map((s) => `${dam.key}|${sire.key}|${kid.key}|${s.sire < 0 ? unknown.key : ""}`);
      const tables = m.sires.map((s, k) =>
        this.#cached(present(keys[k], "a key"), () =>
          transmissionTable(dam.gametes, s.sire < 0 ? sire.gametes.map(() => m.frequencies) : sire.gametes, kid),
        ),
      );
      this.#addMixture(i, m, { scope: [...dam.scope, ...sire.scope, own], tables, key: keys.join("|") });
      return;
    }
    const sire = this.#paternal(i, m) ?? unknown;
    const table = this.#cached(`${dam.key}|${sire.key}|${kid.key}`, () =>
      transmissionTable(dam.gametes, sire.gametes, kid),
    );
    this.#factors.push({ scope: [...dam.scope, ...sire.scope, own], table });
  }

  network(): GenotypeNetwork {
    return {
      graph: { sizes: this.#sizes, factors: this.#factors, logUnary: this.#logUnary },
      variables: this.#variables,
      spaces: this.#spaceOf,
      doubts: this.#doubts,
      litters: this.#litters,
    };
  }

  /** The one buck of a kid that needs no variable for its sire: its litter, if it has one, has one sire for all. */
  #onlyBuck(i: number, m: SoundMember): SoundSire | undefined {
    const mixed = this.#litterOf.get(i)?.litter.mixed ?? 0;
    return mixed > 0 ? undefined : onlyBuck(m);
  }

  /** A factor made of one table for each candidate. */
  #addMixture(
    i: number,
    { sires }: SoundMember,
    {
      scope,
      tables,
      key,
    }: { readonly scope: readonly number[]; readonly tables: readonly Float64Array[]; readonly key: string },
  ): void {
    const litter = this.#litterOf.get(i);
    const weights = sires.map(({ weight, said }) => (litter ? said : weight * said));
    const factor = this.#factors.length;
    const byLitter = litter && { litter: litter.variable, factor };
    const table = this.#cached(`${litter ? "litter" : "mix"} ${key}|${weights.join()}`, () =>
      litter
        ? Float64Array.from(tables.flatMap((t, k) => Array.from(t, (p) => p * present(weights[k], "a weight"))))
        : present(tables[0], "a table").map((_, at) =>
            tables.reduce((sum, t, k) => sum + f64(t, at) * present(weights[k], "a weight"), 0),
          ),
    );
    this.#doubts.set(i, { kind: "mixture", factor, tables, weights, byLitter });
    this.#factors.push({ scope: litter ? [litter.variable, ...scope] : scope, table });
  }

  /** Where the sire's allele comes from; nothing if he is unknown. */
  #paternal(i: number, m: SoundMember): Source | undefined {
    const [first, ...others] = m.sires;
    if (!first) return undefined;
    if (others.length === 0) return this.#handedOn(first.sire, "sire");
    const only = this.#onlyBuck(i, m);
    if (only && this.#byGametes) return this.#mixedGamete(i, m, only);
    const alleles = this.#locus.alleles.length;
    const litter = this.#litterOf.get(i);
    const weights = m.sires.map(({ weight, said }) => (litter ? said : weight * said));
    const key = m.sires.map(({ sire }, k) => `${sire < 0} ${weights[k]}`).join();
    const choice = this.#variable(
      this.#cached(`candidates ${key}|${this.#keyOf(m.frequencies)}`, () =>
        Float64Array.from(
          m.sires.flatMap(({ sire }, k) => {
            const weight = present(weights[k], "a weight");
            return m.frequencies.map((f) => Math.log(sire < 0 ? weight * f : weight));
          }),
        ),
      ),
    );
    const byLitter = litter && { litter: litter.variable, factor: this.#factors.length };
    if (litter)
      this.#factors.push({
        scope: [litter.variable, choice],
        table: this.#cached(`of litter ${litter.litter.mixed > 0} ${litter.litter.weights.join()}`, () =>
          litterTable(litter.litter, alleles),
        ),
      });
    this.#doubts.set(i, { kind: "choice", variable: choice, alleles, weights, byLitter });
    m.sires.forEach(({ sire }, k) => {
      if (sire < 0) return;
      const from = this.#parent(sire, "sire");
      const table = this.#cached(`choice ${k} of ${m.sires.length}|${from.key}`, () =>
        choiceTable(m.sires.length, k, from.gametes, alleles),
      );
      this.#factors.push({ scope: [choice, ...from.scope], table });
    });
    const gametes = m.sires.flatMap(() => this.#alleles);
    return { key: `choice of ${m.sires.length}`, scope: [choice], gametes };
  }

  /** The sire's allele as a variable: one buck's where he is the sire, else one of the founder population. */
  #mixedGamete(i: number, m: SoundMember, only: SoundSire): Source {
    const from = this.#parent(only.sire, "sire");
    const keys = m.sires.map(({ sire }) => `part ${from.key}|${this.#keyOf(m.frequencies)}|${sire < 0}`);
    const tables = m.sires.map(({ sire }, k) =>
      this.#cached(present(keys[k], "a key"), () =>
        Float64Array.from(from.gametes.flatMap((row) => (sire < 0 ? m.frequencies : row))),
      ),
    );
    const gamete = this.#variable(new Float64Array(this.#locus.alleles.length));
    this.#addMixture(i, m, { scope: [...from.scope, gamete], tables, key: keys.join("|") });
    return { key: "allele", scope: [gamete], gametes: this.#alleles };
  }

  /** What a parent hands on: from its states, or as a variable of its own where the states are many. */
  #handedOn(at: number, role: "dam" | "sire"): Source {
    const from = this.#parent(at, role);
    if (!this.#byGametes) return from;
    const alleles = this.#locus.alleles.length;
    const gamete = this.#variable(new Float64Array(alleles));
    const table = this.#cached(`gamete ${from.key}`, () => Float64Array.from(from.gametes.flat()));
    this.#factors.push({ scope: [...from.scope, gamete], table });
    return { key: "allele", scope: [gamete], gametes: this.#alleles };
  }

  #parent(at: number, role: "dam" | "sire"): Source {
    const space = this.#spaceAt(at);
    const key = `${role} ${space.key}`;
    const gametes = this.#gametes.get(key) ?? gametesOf(space, role, this.#locus.alleles.length);
    this.#gametes.set(key, gametes);
    return { key, scope: [this.#variableAt(at)], gametes };
  }

  /** A name for a list of frequencies: most animals share one. */
  #keyOf(frequencies: readonly number[]): string {
    const known = this.#keys.get(frequencies) ?? frequencies.join();
    this.#keys.set(frequencies, known);
    return known;
  }

  #variable(logUnary: Float64Array): number {
    this.#logUnary.push(logUnary);
    return this.#sizes.push(logUnary.length) - 1;
  }

  #variableAt(i: number): number {
    return present(this.#variables.get(i), "the variable of an animal of the family");
  }

  #spaceAt(i: number): StateSpace {
    return present(this.#spaceOf.get(i), "the space of an animal of the family");
  }

  #cached(key: string, make: () => Float64Array): Float64Array {
    const known = this.#tables.get(key) ?? make();
    this.#tables.set(key, known);
    return known;
  }
}

/** Where a gamete comes from: the variables it depends on (none for the founder population) and what they hand on. */
interface Source {
  readonly key: string;
  readonly scope: readonly number[];
  readonly gametes: Gametes;
}
