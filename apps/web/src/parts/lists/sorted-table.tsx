import { type ReactNode, useMemo, useState } from "react";
import { useScreens } from "../../house/use-house.tsx";
import { SortHead } from "./sort-head.tsx";
import { sorted, sortingAfter, type Sorting } from "./sorted.ts";

/** A column of a table at the desk: its heading with the unit, how a row stands in it, and by what it sorts. */
export interface TableColumn<R, K extends string> {
  readonly key: K;
  readonly name: string;
  /** Figures stand right-aligned. */
  readonly num?: "num";
  readonly cell: (row: R) => ReactNode;
  readonly value: (row: R) => string | number | undefined;
}

/**
 * Rows at the desk, the first column naming each; headings sort them where `first` says how they begin.
 *
 * Without it, or with one row, they stand as they are given.
 */
export function SortedTable<R, K extends string>(props: {
  readonly caption?: string;
  readonly columns: readonly TableColumn<R, K>[];
  readonly rows: readonly R[];
  readonly keyOf: (row: R) => string;
  readonly first?: Sorting<K>;
}) {
  const s = useScreens();
  const { columns, rows } = props;
  const [chosen, setSorting] = useState(props.first);
  const sorting = rows.length > 1 ? chosen : undefined;
  const caption = [props.caption, sorting && s.herdTable.sortHint].filter((said) => said !== undefined).join(" ");
  const inOrder = useMemo(() => {
    const by = columns.find(({ key }) => key === sorting?.by);
    return by === undefined || sorting === undefined ? rows : sorted(rows, by.value, sorting.way);
  }, [columns, rows, sorting]);
  return (
    <div className="wide-table">
      <table className="table sorted-table">
        {caption !== "" && <caption>{caption}</caption>}
        <thead>
          <tr>
            {columns.map(({ key, name, num }) =>
              sorting === undefined ? (
                <th key={key} scope="col" className={num}>
                  {name}
                </th>
              ) : (
                <SortHead
                  key={key}
                  column={key}
                  name={name}
                  sorting={sorting}
                  onSort={(pressed) => setSorting(sortingAfter(sorting, pressed))}
                  {...(num === undefined ? {} : { num })}
                />
              ),
            )}
          </tr>
        </thead>
        <tbody>
          {inOrder.map((row) => (
            <tr key={props.keyOf(row)}>
              {columns.map(({ key, num, cell }, at) =>
                at === 0 ? (
                  <th key={key} scope="row">
                    {cell(row)}
                  </th>
                ) : (
                  <td key={key} className={num === undefined ? key : `${key} ${num}`}>
                    {cell(row)}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
