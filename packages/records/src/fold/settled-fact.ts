import { type Day, unreachable } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Fact } from "../entry-kinds.ts";
import type { Provenance } from "../herd.ts";
import type { EntryId, Stamp } from "../ids.ts";

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
  const as = (role: Role) => (animal: AnimalId) => ({ animal, role });
  const all = (role: Role, ...animals: readonly (AnimalId | undefined)[]) =>
    animals.flatMap((animal) => (animal === undefined ? [] : [as(role)(animal)]));
  switch (kind) {
    case "animal":
      return [...all("self", body.animal), ...all("dam", body.dam), ...all("sire", body.sire)];
    case "service":
      return [...all("dam", body.doe), ...all("sire", ...body.bucks)];
    case "kidding":
      return [
        ...all("dam", body.dam),
        ...all("sire", ...(body.bucks ?? [])),
        ...all("kid", ...body.kids.map(({ kid }) => kid)),
      ];
    case "head-reading":
    case "disbudding":
    case "choice":
      return all("subject", body.kid);
    case "outcome":
    case "dna-test":
    case "trait":
    case "weight":
    case "departure":
    case "note":
      return all("subject", body.animal);
    case "vet-day":
    case "setting":
      return [];
    default:
      return unreachable(kind, "namedIn");
  }
}
