import { oncePer } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Animal, Herd, Kidding, Service } from "./herd.ts";

// Each list is looked through once: the next herd mostly has the very same list.
const byEntry = oncePer(
  (kiddings: readonly Kidding[]) => new Map(kiddings.toReversed().map((kidding) => [kidding.entry, kidding])),
);
const byDam = oncePer((kiddings: readonly Kidding[]) => grouped(kiddings, ({ dam }) => dam));
const byDoe = oncePer((services: readonly Service[]) => grouped(services, ({ doe }) => doe));

/** The kidding that an animal was born in; `undefined` where its birth is not on record. */
export const kiddingOf = (
  { kiddings }: Pick<Herd, "kiddings">,
  { kidding }: Pick<Animal, "kidding">,
): Kidding | undefined => (kidding === undefined ? undefined : byEntry(kiddings).get(kidding));

/** The kids of the birth that an animal was born in, itself among them; none where its birth is not on record. */
export const bornTogether = (
  herd: Pick<Herd, "animals" | "kiddings">,
  animal: Pick<Animal, "kidding">,
): readonly Animal[] => (kiddingOf(herd, animal)?.kids ?? []).flatMap((id) => herd.animals.get(id) ?? []);

/** A doe's kiddings, in the order of the herd's: by day, then stamp. */
export const kiddingsOf = ({ kiddings }: Pick<Herd, "kiddings">, dam: AnimalId): readonly Kidding[] =>
  byDam(kiddings).get(dam) ?? [];

/** A doe's services, in the order of the herd's: by day, then stamp. */
export const servicesOf = ({ services }: Pick<Herd, "services">, doe: AnimalId): readonly Service[] =>
  byDoe(services).get(doe) ?? [];

function grouped<T>(list: readonly T[], ofWhom: (item: T) => AnimalId): ReadonlyMap<AnimalId, readonly T[]> {
  const groups = new Map<AnimalId, T[]>();
  for (const item of list) {
    const group = groups.get(ofWhom(item));
    if (group) group.push(item);
    else groups.set(ofWhom(item), [item]);
  }
  return groups;
}
