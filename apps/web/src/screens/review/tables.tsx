import type { LearntOfParent, ReviewModel, Surprise } from "@pollard/advice";
import { type ReactNode, useMemo } from "react";
import { Link } from "wouter";
import { useScreens, words } from "../../house/use-house.tsx";
import { reviews as said } from "../../house/wording-later.ts";
import { Named } from "../../parts/lists/lines.tsx";
import type { Sorting } from "../../parts/lists/sorted.ts";
import { SortedTable } from "../../parts/lists/sorted-table.tsx";
import {
  learntValue,
  likeliest,
  seenLines,
  type SeenColumn,
  type SeenLine,
  seenValue,
  sireLines,
  surpriseValue,
} from "./table-model.ts";

type Season = Extract<ReviewModel, { kind: "season" }>;
type Row<T> = (row: T) => ReactNode;
const num = "num" as const;

/** The season at the desk: what was counted, then what was seen beside what was to be expected, as tables that sort. */
export function SeasonTables({ season }: { readonly season: Season }) {
  const s = useScreens();
  const all = useMemo(() => seenLines(season), [season]);
  const bySire = useMemo(() => sireLines(season), [season]);
  return (
    <>
      <ul className="plain-lines">
        {said.counts(season).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <section className="part">
        <h2>{s.review.against}</h2>
        <SeenTable lines={all} what={s.review.columns.what} seen={s.review.columns.seen} />
      </section>
      {bySire.length > 0 && (
        <section className="part">
          <h2>{s.review.sires}</h2>
          <SeenTable
            lines={bySire}
            what={s.review.columns.buck}
            seen={s.review.columns.horned}
            first={{ by: "of", way: "down" }}
          />
        </section>
      )}
      <section className="part">
        <h2>{s.review.surprises}</h2>
        {season.surprises.length === 0 ? <p>{s.review.noSurprise}</p> : <SurpriseTable surprises={season.surprises} />}
      </section>
      <section className="part">
        <h2>{s.review.learnt}</h2>
        {season.learnt.length === 0 ? <p>{s.review.nothingLearnt}</p> : <LearntTable learnt={season.learnt} />}
      </section>
    </>
  );
}

const nameOf = ({ of }: SeenLine): string => (typeof of === "string" ? said.what[of] : words.label(of));

function SeenTable(props: {
  readonly lines: readonly SeenLine[];
  readonly what: string;
  readonly seen: string;
  readonly first?: Sorting<SeenColumn | "what">;
}) {
  const s = useScreens();
  const columns = useMemo(() => {
    const heads = s.review.columns;
    const figure = (key: SeenColumn, name: string, cell: Row<SeenLine>) => ({
      key,
      name,
      cell,
      value: (line: SeenLine) => seenValue(line, key),
      ...(key === "verdict" ? {} : { num }),
    });
    const known =
      (cell: Row<SeenLine>): Row<SeenLine> =>
      (line) =>
        line.seen.of === 0 ? null : cell(line);
    return [
      { key: "what" as const, name: props.what, cell: nameOf, value: nameOf },
      figure(
        "seen",
        props.seen,
        known(({ seen }) => seen.seen),
      ),
      figure("of", heads.of, ({ seen }) => seen.of),
      figure(
        "expected",
        heads.expected,
        known(({ seen }) => said.range(seen)),
      ),
      figure("verdict", heads.verdict, ({ seen }) =>
        seen.of === 0 ? s.review.nothingYet : said.verdict[seen.verdict],
      ),
    ];
  }, [s, props.what, props.seen]);
  return (
    <SortedTable
      columns={columns}
      rows={props.lines}
      keyOf={nameOf}
      {...(props.first === undefined ? {} : { first: props.first })}
    />
  );
}

function SurpriseTable({ surprises }: { readonly surprises: readonly Surprise[] }) {
  const s = useScreens();
  const columns = useMemo(() => {
    const cells = {
      kid: ({ kid }: Surprise) => (
        <Link href={`/animal/${kid.id}`} className="cell-link">
          <Named of={kid} />
        </Link>
      ),
      head: ({ head }: Surprise) => s.review.heads[head],
      chance: ({ expected }: Surprise) => said.oneIn(expected),
      because: ({ explanations }: Surprise) => said.explanations(explanations).join(" "),
    };
    return (["kid", "head", "chance", "because"] as const).map((key) => ({
      key,
      name: s.review.columns[key],
      cell: cells[key],
      value: (surprise: Surprise) => surpriseValue(surprise, key),
    }));
  }, [s]);
  return (
    <SortedTable columns={columns} rows={surprises} keyOf={({ kid }) => kid.id} first={{ by: "chance", way: "up" }} />
  );
}

function LearntTable({ learnt }: { readonly learnt: readonly LearntOfParent[] }) {
  const s = useScreens();
  const columns = useMemo(() => {
    const cells = {
      goat: ({ animal }: LearntOfParent) => (
        <Link href={`/animal/${animal.id}`} className="cell-link">
          <Named of={animal} />
        </Link>
      ),
      before: ({ before }: LearntOfParent) => likeliest(before),
      now: ({ now }: LearntOfParent) => likeliest(now),
      moved: ({ moved }: LearntOfParent) => words.number(moved, 2),
    };
    return (["goat", "before", "now", "moved"] as const).map((key) => ({
      key,
      name: s.review.columns[key],
      cell: cells[key],
      value: (one: LearntOfParent) => learntValue(one, key),
      ...(key === "moved" ? { num } : {}),
    }));
  }, [s]);
  return (
    <SortedTable
      columns={columns}
      rows={learnt}
      keyOf={({ animal }) => animal.id}
      first={{ by: "moved", way: "down" }}
    />
  );
}
