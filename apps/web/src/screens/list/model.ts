import type { AnimalId } from "@pollard/genetics";
import type { ColumnMap, DayOrder, ListColumn, ListWishes, ParentChoice } from "@pollard/records";

/** What the keeper has said about a list so far. */
export interface ListSaid {
  readonly columns: ColumnMap;
  readonly days?: DayOrder;
  readonly otherwise: "doe" | "buck" | "none";
  readonly parents: ParentChoice;
}

export const firstSaid = (columns: ColumnMap): ListSaid => ({ columns, otherwise: "none", parents: "gone" });

/** Is there no column by which a goat could be told from another, so that every row is nameless? */
export const callsNobody = (columns: ColumnMap): "nobody" | "goats" =>
  columns.some((column) => column === "name" || column === "tag" || column === "chip" || column === "id")
    ? "goats"
    : "nobody";

/** The columns with one of them holding something else; what holds a thing twice holds it here only. */
export const withColumn = (columns: ColumnMap, at: number, column: ListColumn | undefined): ColumnMap =>
  columns.map((each, place) => (place === at ? column : each === column ? undefined : each));

export const wishesIn = ({ columns, days, otherwise, parents }: ListSaid): ListWishes => ({
  columns,
  parents,
  ...(days === undefined ? {} : { days }),
  ...(otherwise === "none" ? {} : { otherwise }),
});

/** The goats that are to be changed, with this one ticked or unticked. */
export const toggled = (agreed: readonly AnimalId[], animal: AnimalId): readonly AnimalId[] =>
  agreed.includes(animal) ? agreed.filter((each) => each !== animal) : [...agreed, animal];
