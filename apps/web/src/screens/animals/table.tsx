import { weightIn } from "@pollard/base";
import type { AnimalLine } from "@pollard/advice";
import { memo, useEffect, useId, useMemo, useRef, useState } from "react";
import { Link } from "wouter";
import { readHiddenColumns, writeHiddenColumns } from "../../adapters/own-settings/table-columns.ts";
import { SexMark } from "../../drawings/marks.tsx";
import { useAsked, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { ManyAnswers } from "../../parts/answers/answers.tsx";
import { takeSearchWish } from "../../parts/frame/shortcuts.ts";
import { SortHead } from "../../parts/lists/sort-head.tsx";
import { sorted, sortingAfter, type Sorting } from "../../parts/lists/sorted.ts";
import { useMore } from "../../parts/lists/use-more.ts";
import { StatusChip } from "../../parts/status-chip.tsx";
import {
  type Column,
  COLUMNS,
  genesOf,
  NUMBERS,
  polledOf,
  rowsOf,
  siresOf,
  soughtGoats,
  type TableRow,
  valueOf,
  yearsOf,
} from "./table-model.ts";

/** The herd as a table at the desk: sorted by any column, narrowed by name, tag and year, its columns chosen. */
export function HerdTable({ goats }: { readonly goats: readonly AnimalLine[] }) {
  const s = useScreens();
  const today = useToday();
  const book = useAsked((answers) => answers.herdBook(today), [today]).value;
  const [sorting, setSorting] = useState<Sorting<Column>>({ by: "name", way: "up" });
  const [sought, setSought] = useState({ text: "", year: "" });
  const [hidden, setHidden] = useState(() => readHiddenColumns(localStorage));
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => takeSearchWish(field.current), []);
  const shown = useMemo(() => COLUMNS.filter((column) => column === "name" || !hidden.includes(column)), [hidden]);
  const all = useMemo(() => new Map(rowsOf(goats, book).map((row) => [row.goat, row])), [goats, book]);
  const rows = useMemo(() => {
    const fitting = soughtGoats(goats, sought).flatMap((goat) => all.get(goat) ?? []);
    return sorted(fitting, (row) => valueOf(row, sorting.by), sorting.way);
  }, [goats, sought, all, sorting]);
  const { drawn, end } = useMore(rows);
  return (
    <div className="stack">
      <div className="table-tools">
        <div className="field">
          <label htmlFor={`${id}-text`}>{s.herdTable.filter}</label>
          <input
            id={`${id}-text`}
            ref={field}
            data-search=""
            value={sought.text}
            autoComplete="off"
            onChange={(event) => setSought({ ...sought, text: event.target.value })}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-year`}>{s.herdTable.year}</label>
          <select
            id={`${id}-year`}
            value={sought.year}
            onChange={(event) => setSought({ ...sought, year: event.target.value })}
          >
            <option value="">{s.herdTable.anyYear}</option>
            {yearsOf(goats).map((year) => (
              <option key={year}>{year}</option>
            ))}
          </select>
        </div>
        <details className="why">
          <summary>{s.herdTable.choose}</summary>
          <ManyAnswers
            name="columns"
            legend={s.herdTable.choose}
            legendShown="unseen"
            shape="three"
            values={shown}
            choices={COLUMNS.filter((column) => column !== "name").map((column) => ({
              value: column,
              label: s.herdTable.columns[column],
            }))}
            onAnswers={(kept) => {
              const left = COLUMNS.filter((column) => !kept.includes(column));
              writeHiddenColumns(localStorage, left);
              setHidden(left);
            }}
          />
        </details>
      </div>
      <div className="wide-table">
        <table className="table herd-table" aria-rowcount={rows.length + 1}>
          <caption>{s.herdTable.caption(rows.length, goats.length)}</caption>
          <thead>
            <tr>
              {shown.map((column) => (
                <SortHead
                  key={column}
                  column={column}
                  name={column === "weight" ? s.herdTable.weightIn[weights.unit] : s.herdTable.columns[column]}
                  sorting={sorting}
                  onSort={(pressed) => setSorting(sortingAfter(sorting, pressed))}
                  {...(NUMBERS.has(column) ? { num: "num" as const } : {})}
                />
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, drawn).map((row, at) => (
              <Row key={row.goat.ref.id} row={row} shown={shown} index={at + 2} />
            ))}
          </tbody>
        </table>
        <div ref={end} />
      </div>
    </div>
  );
}

/** One goat; `index` is its place among all rows, the head being the first. */
const Row = memo(function Row(props: {
  readonly row: TableRow;
  readonly shown: readonly Column[];
  readonly index: number;
}) {
  const { row, shown, index } = props;
  return (
    <tr aria-rowindex={index}>
      {shown.map((column) =>
        column === "name" ? (
          <th key={column} scope="row">
            <Link href={`/animal/${row.goat.ref.id}`} className="cell-link">
              {words.label(row.goat.ref)}
            </Link>
          </th>
        ) : (
          <td key={column} className={classOf(column)}>
            <Cell row={row} column={column} />
          </td>
        ),
      )}
    </tr>
  );
});

const classOf = (column: Column): string =>
  NUMBERS.has(column) ? `${column} num` : column === "tag" || column === "born" ? `${column} whole` : column;

function Cell({ row, column }: { readonly row: TableRow; readonly column: Column }) {
  const s = useScreens();
  const { goat, book } = row;
  switch (column) {
    case "name":
      return words.label(goat.ref);
    case "tag":
      return goat.ref.tag;
    case "sex":
      return (
        <span className="with-mark">
          <SexMark sex={goat.ref.sex} />
          {s.animals.sex[goat.ref.sex]}
        </span>
      );
    case "born":
      return goat.born === undefined ? s.animal.unknown : `${s.season.shortDay(goat.born)} ${goat.born.slice(0, 4)}`;
    case "dam":
      return book?.dam && words.label(book.dam);
    case "sire": {
      const sires = siresOf(row);
      return sires.length > 1 ? s.herdTable.oneOf(sires.join(", ")) : sires[0];
    }
    case "head":
      return s.animals.heads[goat.head];
    case "genes": {
      const genes = genesOf(row);
      if (book?.genotype === undefined || genes === undefined) return null;
      const surety = s.herdTable.surety[book.genotype.surety];
      return book.genotype.surety === "open" ? surety : `${s.herdTable.genes[genes]}, ${surety}`;
    }
    case "chance": {
      const polled = polledOf(row);
      return polled && words.counted(polled);
    }
    case "inbreeding":
      return book && words.number(book.inbreeding, 3);
    case "weight":
      return book?.weight && words.number(weightIn(book.weight.kg, weights.unit), 1);
    case "kids":
      return book?.kids;
    case "status":
      if (goat.urgency !== undefined) return <StatusChip status={goat.urgency} word={s.today.groups[goat.urgency]} />;
      return book === undefined ? null : s.herdTable.where[book.where];
  }
}
