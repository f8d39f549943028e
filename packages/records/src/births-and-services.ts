import type { AnimalId } from "@pollard/genetics";
import type { EntryId } from "./entry/ids.ts";
import type { Animal, Herd, Kidding, Service } from "./herd.ts";

/** What each list of kiddings or services was looked through for, once: the next herd mostly has the very same list. */
const BY_ENTRY = new WeakMap<readonly Kidding[], ReadonlyMap<EntryId, Kidding>>();
const BY_DAM = new WeakMap<readonly Kidding[], ReadonlyMap<AnimalId, readonly Kidding[]>>();
const BY_DOE = new WeakMap<readonly Service[], ReadonlyMap<AnimalId, readonly Service[]>>();

/** The kidding that an animal was born in; `undefined` where its birth is not on record. */
export function kiddingOf(
  { kiddings }: Pick<Herd, "kiddings">,
  { kidding }: Pick<Animal, "kidding">,
): Kidding | undefined {
  if (kidding === undefined) return undefined;
  const known = BY_ENTRY.get(kiddings) ?? new Map(kiddings.toReversed().map((k) => [k.entry, k]));
  BY_ENTRY.set(kiddings, known);
  return known.get(kidding);
}

/** A doe's kiddings, in the order of the herd's: by day, then stamp. */
export function kiddingsOf({ kiddings }: Pick<Herd, "kiddings">, dam: AnimalId): readonly Kidding[] {
  const known = BY_DAM.get(kiddings) ?? grouped(kiddings, (k) => k.dam);
  BY_DAM.set(kiddings, known);
  return known.get(dam) ?? [];
}

/** A doe's services, in the order of the herd's: by day, then stamp. */
export function servicesOf({ services }: Pick<Herd, "services">, doe: AnimalId): readonly Service[] {
  const known = BY_DOE.get(services) ?? grouped(services, (s) => s.doe);
  BY_DOE.set(services, known);
  return known.get(doe) ?? [];
}

function grouped<T>(list: readonly T[], ofWhom: (item: T) => AnimalId): ReadonlyMap<AnimalId, readonly T[]> {
  const groups = new Map<AnimalId, T[]>();
  for (const item of list) {
    const group = groups.get(ofWhom(item));
    if (group) group.push(item);
    else groups.set(ofWhom(item), [item]);
  }
  return groups;
}
