import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { BodyOf, FactKind, Sex } from "../entry/entry-kinds.ts";
import type { Animal, HerdProblem, Provenance } from "../herd.ts";
import type { EntryId, Stamp } from "../entry/ids.ts";
import { byDay, byStamp, type Role, type SettledFact } from "./settled-fact.ts";

/** A parent as an entry names it, before anyone has asked whether it can be one. */
export interface ParentLink {
  readonly parent: AnimalId;
  readonly role: "dam" | "sire";
  readonly entry: EntryId;
  readonly at: Stamp;
  /** The kind of entry that names it. */
  readonly told: "kidding" | "animal";
}

/** What an animal's own entries say of it, without a look at any other animal. */
export interface Sketch
  extends Pick<
    Animal,
    | "id"
    | "entry"
    | "name"
    | "tag"
    | "chip"
    | "mark"
    | "sex"
    | "born"
    | "bornAs"
    | "breed"
    | "kidding"
    | "head"
    | "departure"
  > {
  /** The dam first, then each sire that is named. */
  readonly parents: readonly ParentLink[];
  /** The entry that gave the tag. */
  readonly tagged: Provenance | undefined;
  readonly problems: readonly HerdProblem[];
}

type FactOf<K extends FactKind> = SettledFact & { readonly fact: { readonly kind: K; readonly body: BodyOf<K> } };
type Told = FactOf<"animal">;
type Birth = FactOf<"kidding"> & { readonly kid: BodyOf<"kidding">["kids"][number] };

const isOf =
  <K extends FactKind>(kind: K) =>
  (fact: SettledFact): fact is FactOf<K> =>
    fact.fact.kind === kind;

/**
 * What is said of one animal by the entries that name it; `undefined` where none does.
 *
 * A kidding tells birth, dam and sires. `animal` entries add to it in the order of writing: the last name, tag, mark, sex
 * and breed count. They may name the sire where the kidding named none, or one of the several it named. An animal that is only
 * named by others is known by its role: a placeholder, so that the pedigree holds, and a problem, so that it is not forgotten.
 */
export function sketchOf(id: AnimalId, naming: readonly SettledFact[], today: Day): Sketch | undefined {
  const facts = [...naming].sort((a, b) => byStamp(a.from, b.from));
  const first = facts[0];
  if (!first) return undefined;
  const [birth, ...again] = facts.filter(isOf("kidding")).flatMap((fact) => birthsIn(fact, id));
  const told = facts.filter(isOf("animal")).filter(({ fact }) => fact.body.animal === id);
  const problems: HerdProblem[] = [];
  if (!birth && told.length === 0) problems.push({ code: "unknown-animal", entry: first.from.entry, animal: id });
  const contradicting = birth ? [...again, ...told.filter((fact) => contradicts(fact, birth))] : [];
  for (const { from } of contradicting)
    problems.push({ code: "born-twice", entry: from.entry, animal: id, first: birth?.from.entry ?? from.entry });
  const { born, unborn } = bornIn(birth, told, today);
  if (unborn) problems.push({ code: "in-the-future", entry: unborn.entry, on: unborn.born, today });
  const tag = told.findLast(({ fact }) => fact.body.tag !== undefined);
  const head = told.findLast(({ fact }) => fact.body.head !== undefined);
  return {
    id,
    entry: (birth ?? told[0] ?? first).from.entry,
    name: told.findLast(({ fact }) => fact.body.name !== undefined)?.fact.body.name ?? birth?.kid.name,
    tag: tag?.fact.body.tag ?? birth?.kid.tag,
    tagged: tag?.from ?? (birth?.kid.tag === undefined ? undefined : birth.from),
    chip: told.findLast(({ fact }) => fact.body.chip !== undefined)?.fact.body.chip,
    mark: told.findLast(({ fact }) => fact.body.mark !== undefined)?.fact.body.mark ?? birth?.kid.mark,
    sex: told.at(-1)?.fact.body.sex ?? birth?.kid.sex ?? sexByRole(id, facts),
    born,
    bornAs: birth?.kid.born,
    breed: told.findLast(({ fact }) => fact.body.breed !== undefined)?.fact.body.breed,
    kidding: birth?.from.entry,
    head: head?.fact.body.head === undefined ? undefined : { ...head.from, head: head.fact.body.head },
    departure: lastDeparture(facts, born),
    parents: parentsIn(birth, told),
    problems,
  };
}

/** The animal's births in one kidding; more than one only where it was listed twice. */
const birthsIn = (fact: FactOf<"kidding">, id: AnimalId): readonly Birth[] =>
  fact.fact.body.kids.filter(({ kid }) => kid === id).map((kid) => ({ ...fact, kid }));

/** Does an `animal` entry tell of another birth than the kidding did? */
function contradicts({ fact }: Told, birth: Birth): boolean {
  const { born, dam, sire } = fact.body;
  const bucks = birth.fact.body.bucks ?? [];
  const otherSire = sire !== undefined && bucks.length > 0 && !bucks.includes(sire);
  return (
    otherSire || (born !== undefined && born !== birth.from.on) || (dam !== undefined && dam !== birth.fact.body.dam)
  );
}

/** The day of birth; a day that is still to come is none, and is handed back as `unborn`. */
function bornIn(birth: Birth | undefined, told: readonly Told[], today: Day) {
  const last = told.findLast(({ fact }) => fact.body.born !== undefined);
  const born = birth?.from.on ?? last?.fact.body.born;
  if (birth || last === undefined || born === undefined || born <= today) return { born, unborn: undefined };
  return { born: undefined, unborn: { entry: last.from.entry, born } };
}

/** Dam and sires: the kidding's, with the sire of a later `animal` entry where it agrees or where the kidding named none. */
function parentsIn(birth: Birth | undefined, told: readonly Told[]): readonly ParentLink[] {
  const agreeing = birth ? told.filter((fact) => !contradicts(fact, birth)) : told;
  const dam = agreeing.findLast(({ fact }) => fact.body.dam !== undefined);
  const sire = agreeing.findLast(({ fact }) => fact.body.sire !== undefined);
  const link = (role: "dam" | "sire", source: Told | Birth | undefined, parent: AnimalId | undefined): ParentLink[] =>
    source && parent !== undefined
      ? [{ parent, role, entry: source.from.entry, at: source.from.at, told: source.fact.kind }]
      : [];
  return [
    ...(birth ? link("dam", birth, birth.fact.body.dam) : link("dam", dam, dam?.fact.body.dam)),
    ...(sire
      ? link("sire", sire, sire.fact.body.sire)
      : [...new Set(birth?.fact.body.bucks)].flatMap((buck) => link("sire", birth, buck))),
  ];
}

function lastDeparture(facts: readonly SettledFact[], born: Day | undefined): Animal["departure"] {
  const last = facts
    .filter(isOf("departure"))
    .filter(({ from }) => born === undefined || from.on >= born)
    .sort((a, b) => byDay(a.from, b.from))
    .at(-1);
  return last && { ...last.from, why: last.fact.body.why, to: last.fact.body.to };
}

/** What an animal that was never entered must be, by what it is named as. */
function sexByRole(id: AnimalId, facts: readonly SettledFact[]): Sex {
  const roles = new Set<Role>(
    facts.flatMap(({ named }) => named.filter(({ animal }) => animal === id).map((n) => n.role)),
  );
  if (roles.has("dam") === roles.has("sire")) return "unsure";
  return roles.has("dam") ? "doe" : "buck";
}
