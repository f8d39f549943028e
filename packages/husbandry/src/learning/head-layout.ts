import { present } from "@pollard/base";
import {
  HEAD_ROW_NAMES,
  HEAD_ROWS,
  type HeadChances,
  type HeadRow,
  SEE_ROW_NAMES,
  type SeeRow,
} from "../heads/head-tables.ts";

/** How many heads are behind each value of each row, for everybody and for readers apart. Parts of heads add up. */
export interface HeadCounts {
  readonly rows: Readonly<Record<HeadRow, readonly number[]>>;
  readonly readers: ReadonlyMap<string, Readonly<Record<SeeRow, readonly number[]>>>;
}

/**
 * Where the rows stand when all of them are laid end to end in one list: everybody's, then those of each reader apart.
 *
 * Learning goes through every kid some hundred times; in one list a chance and its count are found by the same number.
 */
export interface HeadLayout {
  readonly size: number;
  /** The first place of a row: the reader's own, if that reader is laid out apart. */
  readonly at: (row: HeadRow, reader?: string) => number;
  flat(chances: HeadChances): Float64Array;
  counts(flat: Float64Array): HeadCounts;
}

/** One value for each of these rows. */
export const eachRow = <Row extends HeadRow, T>(names: readonly Row[], of: (row: Row) => T): Record<Row, T> =>
  Object.fromEntries(names.map((row) => [row, of(row)])) as Record<Row, T>;

/** The layout in which these readers are kept apart from everybody else. */
export function headLayout(apart: Iterable<string>): HeadLayout {
  let size = 0;
  const placed = <Row extends HeadRow>(names: readonly Row[]) =>
    new Map<HeadRow, number>(
      names.map((row) => {
        const place = size;
        size += HEAD_ROWS[row].length;
        return [row, place];
      }),
    );
  const shared = placed(HEAD_ROW_NAMES);
  const own = new Map([...apart].map((reader) => [reader, placed(SEE_ROW_NAMES)]));
  const at = (row: HeadRow, reader?: string): number =>
    (reader === undefined ? undefined : own.get(reader)?.get(row)) ?? present(shared.get(row), row);
  return {
    size,
    at,
    flat: (chances) => {
      const list = new Float64Array(size);
      for (const row of HEAD_ROW_NAMES) list.set(chances.row(row), at(row));
      for (const reader of own.keys())
        for (const row of SEE_ROW_NAMES) list.set(chances.row(row, reader), at(row, reader));
      return list;
    },
    counts: (list) => {
      const part = (row: HeadRow, reader?: string): readonly number[] => {
        const from = at(row, reader);
        return [...list.subarray(from, from + HEAD_ROWS[row].length)];
      };
      return {
        rows: eachRow(HEAD_ROW_NAMES, (row) => part(row)),
        readers: new Map([...own.keys()].map((r) => [r, eachRow(SEE_ROW_NAMES, (row) => part(row, r))])),
      };
    },
  };
}
