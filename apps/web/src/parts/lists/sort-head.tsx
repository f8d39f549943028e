import { useScreens } from "../../house/use-house.tsx";
import type { Sorting } from "./sorted.ts";

/** The head of a column that sorts: its name is a button, how it is sorted stands beside it as a word and an arrow. */
export function SortHead<K extends string>(props: {
  readonly column: K;
  readonly name: string;
  readonly sorting: Sorting<K>;
  readonly onSort: (column: K) => void;
  readonly num?: "num";
}) {
  const s = useScreens();
  const { column, sorting } = props;
  const way = sorting.by === column ? sorting.way : undefined;
  return (
    <th
      scope="col"
      className={props.num}
      aria-sort={way === undefined ? "none" : way === "up" ? "ascending" : "descending"}
    >
      <button type="button" className="sort-key" onClick={() => props.onSort(column)}>
        {props.name}
        {way !== undefined && (
          <span className="sorted-way">
            {way === "up" ? "↑" : "↓"} {s.herdTable.ways[way]}
          </span>
        )}
      </button>
    </th>
  );
}
