import type { AnimalLine } from "@pollard/advice";
import { type Day, daysFrom } from "@pollard/base";
import { byName } from "../../parts/lists/name-order.ts";

export const FILTERS = ["all", "kids", "does", "bucks", "gone"] as const;
export type Filter = (typeof FILTERS)[number];

/** Age up to which a goat counts as a kid on the list, days. Common practice, no source: about half a year. */
const KID_UNTIL_DAYS = 182;

/** The goats of a filter, kids youngest first, others by name or tag; those that have left only where they are asked for. */
export function shownGoats(goats: readonly AnimalLine[], filter: Filter, today: Day): readonly AnimalLine[] {
  const isKid = (goat: AnimalLine): boolean => goat.born !== undefined && daysFrom(goat.born, today) <= KID_UNTIL_DAYS;
  const fits = (goat: AnimalLine): boolean => {
    switch (filter) {
      case "all":
        return !goat.gone;
      case "gone":
        return goat.gone;
      case "kids":
        return !goat.gone && isKid(goat);
      case "does":
        return !goat.gone && !isKid(goat) && goat.ref.sex === "doe";
      case "bucks":
        return !goat.gone && !isKid(goat) && (goat.ref.sex === "buck" || goat.ref.sex === "wether");
    }
  };
  const shown = goats.filter(fits);
  if (filter !== "kids") return shown.toSorted((a, b) => byName(a.ref, b.ref));
  return shown.toSorted((a, b) =>
    a.born === b.born ? byName(a.ref, b.ref) : (a.born ?? "") < (b.born ?? "") ? 1 : -1,
  );
}
