import { useScreens } from "../../house/use-house.tsx";
import { type Dot, dotCounts, placeOfDot } from "./model.ts";

/** Room of one dot, between two places that hold several dots side by side, and under the line for words. */
const CELL = 16;
const BETWEEN = 10;
const AXIS = 24;

/**
 * Twenty equally likely cases as dots over a line of places. `label` is the sentence beside it; `marks` are written under the
 * line; `across` dots stand side by side in one place.
 */
export function TwentyDots(props: {
  readonly dots: readonly Dot[];
  readonly span: number;
  readonly across: number;
  readonly marks: readonly { readonly at: number; readonly text: string }[];
  readonly label: string;
}) {
  const { dots, span, across } = props;
  const place = across * CELL + (across > 1 ? BETWEEN : 0);
  const width = Math.max(span * place, NARROWEST);
  const spots = dots.map((dot) => placeOfDot(dot, across));
  const height = Math.max(1, ...spots.map(({ up }) => up + 1)) * CELL;
  return (
    <svg
      className="twenty"
      viewBox={`0 0 ${width} ${height + AXIS}`}
      width={width}
      height={height + AXIS}
      role="img"
      aria-label={props.label}
      focusable="false"
    >
      {spots.map(({ at, along, up }) => (
        <circle
          key={`${at}-${along}-${up}`}
          cx={at * place + (across > 1 ? BETWEEN / 2 : 0) + (along + 0.5) * CELL}
          cy={height - (up + 0.5) * CELL}
          r={CELL * 0.4}
          fill="currentColor"
        />
      ))}
      <path d={`M0 ${height + 2} H${width}`} stroke="currentColor" strokeWidth={2} />
      {props.marks.map(({ at, text }) => (
        <text
          key={at}
          x={(at + 0.5) * place}
          y={height + AXIS - 4}
          textAnchor={text.length <= 2 ? "middle" : at === 0 ? "start" : at >= span - 2 ? "end" : "middle"}
          dx={text.length <= 2 ? 0 : at === 0 ? -place / 2 : at >= span - 2 ? place / 2 : 0}
          fontSize={15}
          fontWeight={700}
        >
          {text}
        </text>
      ))}
    </svg>
  );
}

/** Narrowest drawing, so that the words under it have room. */
const NARROWEST = 150;

/** The same dots as a table, one tap away. */
export function DotFigures(props: {
  readonly dots: readonly Dot[];
  readonly of: string;
  readonly nameOf: (at: number) => string;
}) {
  const s = useScreens();
  return (
    <details className="why">
      <summary>{s.plots.figures}</summary>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">{props.of}</th>
            <th scope="col" className="num">
              {s.plots.ofTwenty}
            </th>
          </tr>
        </thead>
        <tbody>
          {dotCounts(props.dots).map(({ at, dots }) => (
            <tr key={at}>
              <th scope="row">{props.nameOf(at)}</th>
              <td className="num">{dots}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
