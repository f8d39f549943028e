import type { TestWorthLine } from "@pollard/advice";
import { type ReactNode, useMemo } from "react";
import { Link } from "wouter";
import { useScreens, words } from "../../house/use-house.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { SortedTable } from "../../parts/lists/sorted-table.tsx";
import { resultsSaid, TEST_COLUMNS, type TestColumn, testValue } from "./model.ts";

/** What tests would be worth, as a table at the desk: the worthiest first, sorted by any column. */
export function TestsTable({ lines, caption }: { readonly lines: readonly TestWorthLine[]; readonly caption: string }) {
  const s = useScreens();
  const columns = useMemo(
    () =>
      TEST_COLUMNS.map((key) => ({
        key,
        name: s.tests.columns[key],
        cell: (line: TestWorthLine) => <Cell line={line} column={key} />,
        value: (line: TestWorthLine) => testValue(line, key),
        ...(key === "saves" || key === "price" ? { num: "num" as const } : {}),
      })),
    [s],
  );
  return (
    <SortedTable
      caption={caption}
      columns={columns}
      rows={lines}
      keyOf={(line) => line.animals.map(({ id }) => id).join(" ")}
      first={{ by: "saves", way: "down" }}
    />
  );
}

function Cell({ line, column }: { readonly line: TestWorthLine; readonly column: TestColumn }): ReactNode {
  const s = useScreens();
  if (column === "goat") return <TestedGoats line={line} />;
  if (column === "verdict") return s.tests.verdict[line.advice];
  if (line.advice === "known-already") return null;
  if (column === "settles") return resultsSaid(line) ?? s.tests.settlesNothing;
  return words.number(column === "saves" ? line.worth : line.price, 2);
}

/** Whom a test is of; each opens its page. */
export const TestedGoats = ({ line }: { readonly line: TestWorthLine }) => (
  <span className="test-goats">
    {line.animals.map((animal) => (
      <Link key={animal.id} href={`/animal/${animal.id}`} className="cell-link">
        <Named of={animal} />
      </Link>
    ))}
  </span>
);
