import type { AnimalRef } from "@pollard/advice";
import { useId } from "react";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import type { SeasonModel } from "../../worker/season-answers.ts";
import { dayLabels } from "./day-labels.ts";
import { type Timeline, timelineOf } from "./model.ts";

/** Height of a row, of the weeks in the head, of a row of vet days above them, and width of the whole, in units of the drawing. */
const ROW = 26;
const WEEKS = 32;
const DAYS = 22;
const WIDTH = 1040;
/** Room for the widest day, and as much at the right end, where the last one stands. */
const DAY_ROOM = 56;
/** Width of a letter of a name at most, and of what stands beside it. */
const LETTER = 8.8;
const BESIDE = 22;

/** What lies ahead, day by day, for the desk: windows of does and kids, and the vet days across them; the same as a table. */
export function SeasonTimeline({ model }: { readonly model: SeasonModel }) {
  const s = useScreens();
  const line = timelineOf(model);
  if (line === undefined) return null;
  const does = line.rows.filter(({ likely }) => likely !== undefined).length;
  const said = s.season.timelineSaid(does, line.rows.length - does, line.visits.length);
  return (
    <section className="part desk-only">
      <h2>{s.season.timeline}</h2>
      <figure className="stack tight">
        <Drawing line={line} names={namesOf(model)} label={said} />
        <figcaption className="timeline-key">
          <Key kind="watch" word={s.season.key.watch} />
          <Key kind="likely" word={s.season.key.likely} />
          <Key kind="window" word={s.season.key.window} />
          <Key kind="agreed" word={s.season.key.agreed} />
          <Key kind="proposed" word={s.season.key.proposed} />
        </figcaption>
        {line.more > 0 && <p>{s.season.timelineMore(line.more)}</p>}
      </figure>
      <details className="why">
        <summary>{s.season.timelineTable}</summary>
        <SameAsTable model={model} />
      </details>
    </section>
  );
}

const namesOf = ({ due, kids }: SeasonModel): ReadonlyMap<string, AnimalRef> =>
  new Map([...due.map(({ expected }) => expected.doe), ...kids.map(({ kid }) => kid)].map((ref) => [ref.id, ref]));

function Drawing(props: {
  readonly line: Timeline;
  readonly names: ReadonlyMap<string, AnimalRef>;
  readonly label: string;
}) {
  const s = useScreens();
  const hatch = useId();
  const { line } = props;
  const labels = line.rows.map(({ id }) => {
    const ref = props.names.get(id);
    return ref === undefined ? "" : cut(words.label(ref));
  });
  const names = BESIDE + LETTER * Math.max(...labels.map((label) => label.length), s.frame.today.length);
  const dayWidth = (WIDTH - names - DAY_ROOM) / line.span;
  const x = (at: number): number => names + at * dayWidth;
  const height = line.rows.length * ROW + 8;
  const everyWeek = Math.ceil(DAY_ROOM / (7 * dayWidth));
  const above = dayLabels(
    line.visits.map(({ at }) => x(at + 0.5)),
    DAY_ROOM,
  );
  const dayRows = 1 + Math.max(0, ...above.map(({ row }) => row));
  const head = dayRows * DAYS + WEEKS;
  /** Where the mark of a vet day begins: under its word. */
  const under = (visit: number): number => (dayRows - (above[visit]?.row ?? 0)) * DAYS;
  const marks = (from: number, to: number, visitFrom: (visit: number) => number) => (
    <>
      {line.weeks.map(({ day, at }) => (
        <path key={day} className="faint" d={`M${x(at)} ${from} V${to}`} />
      ))}
      <path d={`M${x(0)} ${from} V${to}`} stroke="currentColor" strokeWidth={2} />
      {line.visits.map(({ day, at, state }, visit) => (
        <path
          key={day}
          d={`M${x(at + 0.5)} ${visitFrom(visit)} V${to}`}
          stroke="currentColor"
          strokeWidth={4}
          strokeDasharray={state === "agreed" ? undefined : "9 6"}
        />
      ))}
    </>
  );
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a long season scrolls, and the keys have to reach it
    <section className="timeline-frame" tabIndex={0} aria-label={s.season.timeline}>
      {/* The days stay in sight while the rows go by. */}
      <svg className="timeline head" viewBox={`0 0 ${WIDTH} ${head}`} aria-hidden="true" focusable="false">
        {marks(dayRows * DAYS, head, under)}
        <text x={x(0) - 8} y={head - 12} fontSize={15} fontWeight={700} textAnchor="end">
          {s.frame.today}
        </text>
        {line.weeks.map(
          ({ day, at }, i) =>
            i % everyWeek === 0 &&
            !line.visits.some((visit) => visit.at + 0.5 >= at && x(visit.at + 0.5) < x(at) + DAY_ROOM) && (
              <text key={day} x={x(at) + 3} y={head - 12} fontSize={14}>
                {s.season.shortDay(day)}
              </text>
            ),
        )}
        {line.visits.map(({ day, at }, visit) => (
          <text
            key={day}
            x={x(at + 0.5)}
            y={under(visit) - 6}
            fontSize={15}
            fontWeight={700}
            textAnchor={above[visit]?.anchor}
          >
            {s.season.shortDay(day)}
          </text>
        ))}
      </svg>
      <svg
        className="timeline"
        viewBox={`0 0 ${WIDTH} ${height}`}
        role="img"
        aria-label={props.label}
        focusable="false"
      >
        <defs>
          <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <path d="M0 0 V6" stroke="currentColor" strokeWidth="2.5" />
          </pattern>
        </defs>
        {line.rows.map(({ id, from, to, likely }, row) => {
          const y = row * ROW;
          return (
            <g key={id}>
              <text x={names - 10} y={y + 18} fontSize={15} fontWeight={700} textAnchor="end">
                {labels[row]}
              </text>
              <rect
                x={x(from)}
                y={y + 5}
                width={(to - from + 1) * dayWidth}
                height={ROW - 10}
                fill={likely === undefined ? `url(#${hatch})` : "none"}
                stroke="currentColor"
                strokeWidth={2}
              />
              {likely !== undefined && (
                <rect x={x(likely)} y={y + 5} width={Math.max(6, dayWidth)} height={ROW - 10} fill="currentColor" />
              )}
            </g>
          );
        })}
        {marks(0, height, () => 0)}
      </svg>
    </section>
  );
}

/** Stands in a cell of the table that has nothing to say. */
const NOTHING = "–";
/** Longest name that stands beside a row, letters. */
const NAME_ROOM = 19;
const cut = (name: string): string => (name.length > NAME_ROOM ? `${name.slice(0, NAME_ROOM - 1)}…` : name);

type KeyKind = "watch" | "likely" | "window" | "agreed" | "proposed";

function Key({ kind, word }: { readonly kind: KeyKind; readonly word: string }) {
  return (
    <span className="key-line">
      <span className={`time-key ${kind}`} aria-hidden="true" />
      {word}
    </span>
  );
}

function SameAsTable({ model }: { readonly model: SeasonModel }) {
  const s = useScreens();
  const today = useToday();
  const said = (day: Parameters<typeof words.day>[0] | undefined): string =>
    day === undefined ? "" : capital(words.day(day, today));
  return (
    <table className="table">
      <thead>
        <tr>
          {(["who", "what", "from", "likely", "to"] as const).map((column) => (
            <th key={column} scope="col">
              {s.season.columns[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {model.plan.visits.map(({ day, state }) => (
          <tr key={day}>
            <th scope="row">{said(day)}</th>
            <td>{s.season.key[state]}</td>
            <td>{said(day)}</td>
            <td>{NOTHING}</td>
            <td>{said(day)}</td>
          </tr>
        ))}
        {model.kids.map(({ kid, born, end }) => (
          <tr key={kid.id}>
            <th scope="row">{words.label(kid)}</th>
            <td>{s.season.rows.kid}</td>
            <td>{said(born)}</td>
            <td>{NOTHING}</td>
            <td>{said(end)}</td>
          </tr>
        ))}
        {model.due.map(({ expected: { doe, days } }) => (
          <tr key={doe.id}>
            <th scope="row">{words.label(doe)}</th>
            <td>{s.season.rows.doe}</td>
            <td>{said(days?.from)}</td>
            <td>{said(days?.likely)}</td>
            <td>{said(days?.to)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
