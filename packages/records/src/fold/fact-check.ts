import { unreachable } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type BodyOf, canBe } from "../entry/entry-kinds.ts";
import type { HerdProblem, Kidding, Provenance, Service, VetDay } from "../herd.ts";
import type { SettledFact } from "./settled-fact.ts";
import type { ParentLink, Sketch } from "./sketch.ts";

/** The animals as their own entries tell them. */
export type Sketches = (id: AnimalId) => Sketch | undefined;

/** What one fact adds to the herd, once the animals that it names have been looked at. */
export interface FactCheck {
  /** `no` where it cannot have been so: it stays in the history and in no list of the herd. */
  readonly usable: "yes" | "no";
  readonly service?: Service;
  readonly kidding?: Kidding;
  readonly vetDay?: VetDay;
  readonly problems: readonly HerdProblem[];
}

/** Can the animal that a link names be what the link says? */
export const canBeParent = ({ parent, role }: Pick<ParentLink, "parent" | "role">, sketches: Sketches): boolean =>
  canBe(role, sketches(parent)?.sex);

/**
 * What one fact adds to the herd, and what in it makes no sense beside what is known of the animals it names.
 *
 * Nothing is used that would give an age below zero or a sire that is a doe. What happened after an animal left is used
 * all the same: the day it left may be the wrong one, and a buyer may have told.
 */
export function checkFact({ fact, from }: SettledFact, sketches: Sketches): FactCheck {
  switch (fact.kind) {
    case "service":
      return checkService(fact.body, from, sketches);
    case "kidding":
      return checkKidding(fact.body, from, sketches);
    case "vet-day":
      return { usable: "yes", vetDay: { ...from, vet: fact.body.vet }, problems: [] };
    case "head-reading":
    case "disbudding":
    case "choice":
      return checkSubject(fact.body.kid, "with-departure", from, sketches);
    case "weight":
    case "move":
      return checkSubject(fact.body.animal, "with-departure", from, sketches);
    case "heat":
    case "pregnancy-check":
    case "abortion":
      return checkDoe(fact.body.doe, from, sketches);
    case "care":
      return checkCare(fact.body, from, sketches);
    case "outcome":
    case "trait":
      return checkSubject(fact.body.animal, "with-life", from, sketches);
    case "dna-test":
    case "photo":
    case "departure":
      return checkSubject(fact.body.animal, "never", from, sketches);
    case "animal":
    case "note":
    case "setting":
      return { usable: "yes", problems: [] };
    default:
      return unreachable(fact, "checkFact");
  }
}

/**
 * How long a kind of fact can go on being true of an animal: while it is here, while it lives (a buyer may tell what
 * grew), or always (a laboratory may be late, semen may be kept).
 */
type Ends = "with-departure" | "with-life" | "never";

const none: readonly HerdProblem[] = [];

function beforeBirth(animal: AnimalId, { entry, on }: Provenance, sketches: Sketches): readonly HerdProblem[] {
  const born = sketches(animal)?.born;
  return born !== undefined && on < born ? [{ code: "before-birth", entry, animal, on, born }] : none;
}

function afterDeparture(animal: AnimalId, ends: Ends, from: Provenance, sketches: Sketches): readonly HerdProblem[] {
  const departure = sketches(animal)?.departure;
  if (!departure || from.on <= departure.on || departure.why === "lent" || ends === "never") return none;
  const dead = departure.why === "died" || departure.why === "slaughtered";
  if (ends === "with-life" && !dead) return none;
  return [{ code: "after-departure", entry: from.entry, animal, on: from.on, left: departure.on }];
}

function checkSubject(animal: AnimalId, ends: Ends, from: Provenance, sketches: Sketches): FactCheck {
  const early = beforeBirth(animal, from, sketches);
  const problems = [...early, ...afterDeparture(animal, ends, from, sketches)];
  return { usable: early.length > 0 ? "no" : "yes", problems };
}

/** What only a doe can have: heats, pregnancies, losses. */
function checkDoe(doe: AnimalId, from: Provenance, sketches: Sketches): FactCheck {
  const { usable, problems } = checkSubject(doe, "with-departure", from, sketches);
  if (canBeParent({ parent: doe, role: "dam" }, sketches)) return { usable, problems };
  return { usable: "no", problems: [{ code: "dam-is-no-doe", entry: from.entry, animal: doe, dam: doe }, ...problems] };
}

/** Care of several animals at once: each that can have had it has had it. */
function checkCare({ animals, until }: BodyOf<"care">, from: Provenance, sketches: Sketches): FactCheck {
  const checks = [...new Set(animals)].map((animal) => checkSubject(animal, "with-departure", from, sketches));
  const { entry, on } = from;
  const ends =
    until !== undefined && until < on ? [{ code: "ends-before-it-starts", entry, on, until } as const] : none;
  return {
    usable: checks.every(({ usable }) => usable === "no") ? "no" : "yes",
    problems: [...checks.flatMap(({ problems }) => problems), ...ends],
  };
}

function checkService(body: BodyOf<"service">, from: Provenance, sketches: Sketches): FactCheck {
  const { doe, way } = body;
  const { entry, on } = from;
  const until = body.until ?? on;
  const named = [...new Set(body.bucks)];
  const early = named.filter((buck) => beforeBirth(buck, from, sketches).length > 0);
  const notBucks = named.filter((buck) => !canBeParent({ parent: buck, role: "sire" }, sketches));
  const bucks = named.filter((buck) => !early.includes(buck) && !notBucks.includes(buck));
  const noDoe = !canBeParent({ parent: doe, role: "dam" }, sketches);
  const doeEarly = beforeBirth(doe, from, sketches);
  const problems: readonly HerdProblem[] = [
    ...(noDoe ? [{ code: "dam-is-no-doe", entry, animal: doe, dam: doe } as const] : none),
    ...notBucks.map((sire) => ({ code: "sire-is-no-buck", entry, animal: doe, sire }) as const),
    ...doeEarly,
    ...early.flatMap((buck) => beforeBirth(buck, from, sketches)),
    ...afterDeparture(doe, "with-departure", from, sketches),
    ...bucks.flatMap((buck) =>
      afterDeparture(buck, way === "insemination" ? "never" : "with-departure", from, sketches),
    ),
    ...(until < on ? [{ code: "ends-before-it-starts", entry, on, until } as const] : none),
  ];
  if (noDoe || doeEarly.length > 0 || bucks.length === 0) return { usable: "no", problems };
  return { usable: "yes", service: { ...from, doe, bucks, way, until: until < on ? on : until }, problems };
}

function checkKidding(body: BodyOf<"kidding">, from: Provenance, sketches: Sketches): FactCheck {
  const { dam } = body;
  const { entry } = from;
  const kids = [...new Set(body.kids.map(({ kid }) => kid))].filter((kid) => sketches(kid)?.kidding === entry);
  const animal = body.kids[0]?.kid ?? dam;
  const noDoe = !canBeParent({ parent: dam, role: "dam" }, sketches);
  const notBucks = [...new Set(body.bucks)].filter((sire) => !canBeParent({ parent: sire, role: "sire" }, sketches));
  const problems: readonly HerdProblem[] = [
    ...(noDoe ? [{ code: "dam-is-no-doe", entry, animal, dam } as const] : none),
    ...notBucks.map((sire) => ({ code: "sire-is-no-buck", entry, animal, sire }) as const),
    // A dam younger than her kids is told of each kid, as `older-than-parent`.
    ...(kids.length === 0 ? beforeBirth(dam, from, sketches) : none),
    ...afterDeparture(dam, "with-departure", from, sketches),
  ];
  return noDoe ? { usable: "yes", problems } : { usable: "yes", kidding: { ...from, dam, kids }, problems };
}
