import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, Fact, Sex } from "../entry/entry-kinds.ts";
import type { Animal } from "../herd.ts";
import { kiddedFact } from "../kidded.ts";
import { LIST_COLUMNS, type ListColumn } from "./list-columns.ts";
import type { ListedGoat } from "./list-row.ts";

/** Dam and sire of a row, where they are known or to be made known. */
export interface RowParents {
  readonly dam: AnimalId | undefined;
  readonly sire: AnimalId | undefined;
}

type Compared = Exclude<ListColumn, "id" | "why">;
const COMPARED = LIST_COLUMNS.filter((column): column is Compared => column !== "id" && column !== "why");

/**
 * Where a list says something else than the herd. `adds`: the herd knows nothing there. `changes`: it knows otherwise.
 * `by-hand`: it stands in the record of a birth, which a list does not touch.
 */
export interface Difference {
  readonly of: Compared;
  readonly sort: "adds" | "changes" | "by-hand";
  readonly here: string | undefined;
  readonly listed: string;
}

/** The entries of a goat that the herd did not know. */
export function factsOfNew(
  animal: AnimalId,
  goat: ListedGoat,
  sex: Sex,
  parents: RowParents,
  today: Day,
): readonly Fact[] {
  const body = {
    animal,
    sex,
    ...given({ ...goat, ...parents }, ["name", "tag", "chip", "born", "breed", "dam", "sire", "head"]),
  };
  return [
    { kind: "animal", on: today, body },
    ...kiddedFacts(animal, goat, today),
    ...leftFacts(animal, goat),
    ...noteFacts(animal, goat, today),
  ];
}

/**
 * Everything in which a row and the goat that it means differ. An empty cell says nothing, nor does "not sure", nor a "no" to
 * whether she has kidded. `kidded`: the herd's animals that have.
 */
export function differencesOf(
  known: Animal,
  goat: ListedGoat,
  parents: RowParents,
  kidded: ReadonlySet<AnimalId>,
): readonly Difference[] {
  const here = {
    ...known,
    sire: known.sires.length === 1 ? known.sires[0] : undefined,
    sex: known.sex === "unsure" ? undefined : known.sex,
    head: known.head?.head,
    kidded: kidded.has(known.id) ? "yes" : undefined,
    left: known.departure?.on ?? (known.bornAs === "dead" ? known.born : undefined),
    note: known.notes.some(({ text }) => text === goat.note) ? goat.note : undefined,
  };
  const sure = <T extends string>(word: T | undefined): T | undefined => (word === "unsure" ? undefined : word);
  const listed = {
    ...goat,
    ...parents,
    sex: sure(goat.sex),
    head: sure(goat.head),
    kidded: goat.kidded === "no" ? undefined : goat.kidded,
    left: goat.left?.on,
  };
  return COMPARED.flatMap((of): readonly Difference[] => {
    const [now, then] = [here[of], listed[of]];
    if (then === undefined || now === then) return [];
    return [
      {
        of,
        sort: isBirth(of, known, then) ? "by-hand" : now === undefined ? "adds" : "changes",
        here: now,
        listed: then,
      },
    ];
  });
}

/** Is it told by the kidding that the goat was born in? */
function isBirth(of: Difference["of"], known: Animal, listed: string): boolean {
  if (known.kidding === undefined) return false;
  if (of === "sire") return known.sires.length > 0 && !known.sires.some((sire) => sire === listed);
  return of === "born" || of === "dam";
}

/** The entries by which a known goat becomes what the list says of it; what stands in the record of its birth stays. */
export function changedFacts(
  known: Animal,
  goat: ListedGoat,
  differences: readonly Difference[],
  parents: RowParents,
  today: Day,
): readonly Fact[] {
  const changed = new Set(differences.filter(({ sort }) => sort !== "by-hand").map(({ of }) => of));
  const told = (["name", "tag", "chip", "born", "breed", "dam", "sire", "head"] as const).filter((of) =>
    changed.has(of),
  );
  const animal = known.id;
  const facts: Fact[] = [];
  if (told.length > 0 || changed.has("sex"))
    facts.push({
      kind: "animal",
      on: today,
      body: { animal, sex: goat.sex ?? known.sex, ...given({ ...goat, ...parents }, told) },
    });
  if (changed.has("kidded")) facts.push(...kiddedFacts(animal, goat, today));
  if (changed.has("left")) facts.push(...leftFacts(animal, goat));
  if (changed.has("note")) facts.push(...noteFacts(animal, goat, today));
  return facts;
}

type Told = Omit<BodyOf<"animal">, "animal" | "sex">;
type Telling = { readonly [K in keyof Told]: Told[K] | undefined };

/** What of these is known, as the body of an entry. */
const given = (from: Telling, keys: readonly (keyof Told)[]): Told =>
  Object.fromEntries(keys.flatMap((key) => (from[key] === undefined ? [] : [[key, from[key]]])));

const leftFacts = (animal: AnimalId, { left }: ListedGoat): readonly Fact[] =>
  left === undefined ? [] : [{ kind: "departure", on: left.on, body: { animal, why: left.why } }];

const kiddedFacts = (animal: AnimalId, { kidded }: ListedGoat, today: Day): readonly Fact[] =>
  kidded === "yes" ? [kiddedFact(animal, today)] : [];

const noteFacts = (animal: AnimalId, { note }: ListedGoat, today: Day): readonly Fact[] =>
  note === undefined ? [] : [{ kind: "note", on: today, body: { animal, text: note } }];
