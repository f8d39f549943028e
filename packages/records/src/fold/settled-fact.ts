import { type Day, unreachable } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Fact } from "../entry/entry-kinds.ts";
import type { Provenance } from "../herd.ts";
import type { EntryId, Stamp } from "../entry/ids.ts";

/** What an entry names an animal as. `self` = the animal whose entry it is; `subject` = something was done or seen. */
export type Role = "self" | "kid" | "dam" | "sire" | "subject";

export interface Named {
  readonly animal: AnimalId;
  readonly role: Role;
}

/** A fact after all its corrections, with the entry that it began with. */
export interface SettledFact {
  readonly fact: Fact;
  readonly from: Provenance;
  readonly named: readonly Named[];
}

/** Text order by code unit: the same on every device, whatever its language. */
export const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Order of writing. */
export const byStamp = (
  a: { readonly at: Stamp; readonly entry: EntryId },
  b: { readonly at: Stamp; readonly entry: EntryId },
): number => compareText(a.at, b.at) || compareText(a.entry, b.entry);

/** Order of happening: by day, and within a day by stamp. */
export const byDay = (a: Provenance, b: Provenance): number => compareText(a.on, b.on) || byStamp(a, b);

/** The day of a fact, and its time of day where the person gave one. */
export function dayAndTime(on: string): { readonly on: Day; readonly time: string | undefined } {
  return { on: on.slice(0, 10) as Day, time: on.length > 10 ? on.slice(11) : undefined };
}

/** The animals that a fact names, each with its role; the same animal may stand there twice. */
export function namedIn({ kind, body }: Fact): readonly Named[] {
  switch (kind) {
    case "animal":
      return [...as("self", body.animal), ...as("dam", body.dam), ...as("sire", body.sire)];
    case "service":
      return [...as("dam", body.doe), ...body.bucks.flatMap((buck) => as("sire", buck))];
    case "kidding":
      return [
        ...as("dam", body.dam),
        ...(body.bucks ?? []).flatMap((buck) => as("sire", buck)),
        ...body.kids.flatMap(({ kid }) => as("kid", kid)),
      ];
    case "heat":
    case "pregnancy-check":
    case "abortion":
      return as("dam", body.doe);
    case "care":
      return body.animals.flatMap((animal) => as("subject", animal));
    case "head-reading":
    case "disbudding":
    case "choice":
      return as("subject", body.kid);
    case "outcome":
    case "dna-test":
    case "trait":
    case "weight":
    case "move":
    case "departure":
    case "photo":
    case "note":
      return as("subject", body.animal);
    case "vet-day":
    case "setting":
      return [];
    default:
      return unreachable(kind, "namedIn");
  }
}

const as = (role: Role, animal: AnimalId | undefined): readonly Named[] =>
  animal === undefined ? [] : [{ animal, role }];
