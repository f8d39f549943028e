import { area, line } from "d3-shape";
import { useId } from "react";
import { axisFromZero, axisOfWholes } from "./plot-scales.ts";

const ROOM = { width: 340, height: 190, left: 44, right: 14, top: 12, bottom: 44 } as const;

/** One step of a band: the middle, and the ends between which nine in ten lie. */
export interface BandStep {
  readonly at: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** A hatched band with its middle over whole steps; `most` is the top of the axis, the same for plots side by side. */
export function BandPlot(props: {
  readonly steps: readonly BandStep[];
  readonly most: number;
  readonly label: string;
  readonly across: string;
  readonly up: string;
}) {
  const hatch = useId();
  const first = props.steps[0]?.at ?? 0;
  const last = props.steps.at(-1)?.at ?? first;
  const x = axisOfWholes(first, last, { from: ROOM.left + 8, to: ROOM.width - ROOM.right, most: 6 });
  const y = axisFromZero(props.most, { from: ROOM.height - ROOM.bottom, to: ROOM.top });
  const band = area<BandStep>(
    ({ at }) => x.place(at),
    ({ low }) => y.place(low),
    ({ high }) => y.place(high),
  );
  const middle = line<BandStep>(
    ({ at }) => x.place(at),
    (step) => y.place(step.middle),
  );
  return (
    <svg
      className="plot"
      viewBox={`0 0 ${ROOM.width} ${ROOM.height}`}
      role="img"
      aria-label={props.label}
      focusable="false"
    >
      <defs>
        <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0 V6" stroke="var(--ink)" strokeWidth="1.4" />
        </pattern>
      </defs>
      <PlotFrame x={x} y={y} across={props.across} up={props.up} />
      <path d={band(props.steps) ?? ""} fill={`url(#${hatch})`} stroke="var(--ink)" strokeWidth={1} />
      <path d={middle(props.steps) ?? ""} className="plot-line" />
      {props.steps.map((step) => (
        <circle key={step.at} cx={x.place(step.at)} cy={y.place(step.middle)} r={4} fill="var(--ink)" />
      ))}
    </svg>
  );
}

/** One weight on a growth curve. */
export interface CurvePoint {
  readonly at: number;
  readonly value: number;
  readonly mark: "filled" | "open";
}

/** Points over time, joined: filled what was measured, open what was guessed. */
export function CurvePlot(props: {
  readonly points: readonly CurvePoint[];
  readonly label: string;
  readonly across: string;
  readonly up: string;
}) {
  const x = axisFromZero(Math.max(...props.points.map(({ at }) => at)), {
    from: ROOM.left + 8,
    to: ROOM.width - ROOM.right,
    whole: "whole",
  });
  const y = axisFromZero(Math.max(...props.points.map(({ value }) => value)), {
    from: ROOM.height - ROOM.bottom,
    to: ROOM.top,
  });
  const curve = line<CurvePoint>(
    ({ at }) => x.place(at),
    ({ value }) => y.place(value),
  );
  return (
    <svg
      className="plot"
      viewBox={`0 0 ${ROOM.width} ${ROOM.height}`}
      role="img"
      aria-label={props.label}
      focusable="false"
    >
      <PlotFrame x={x} y={y} across={props.across} up={props.up} />
      <path d={curve(props.points) ?? ""} className="plot-line" />
      {props.points.map(({ at, value, mark }) => (
        <circle
          key={`${at} ${value}`}
          cx={x.place(at)}
          cy={y.place(value)}
          r={5}
          fill={mark === "filled" ? "var(--ink)" : "var(--page)"}
          stroke="var(--ink)"
          strokeWidth={2}
        />
      ))}
    </svg>
  );
}

function PlotFrame(props: {
  readonly x: ReturnType<typeof axisFromZero>;
  readonly y: ReturnType<typeof axisFromZero>;
  readonly across: string;
  readonly up: string;
}) {
  const foot = ROOM.height - ROOM.bottom;
  return (
    <g>
      {props.y.ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${ROOM.left} ${props.y.place(tick)} H${ROOM.width - ROOM.right}`} className="plot-rule" />
          <text x={ROOM.left - 6} y={props.y.place(tick) + 5} textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      {props.x.ticks.map((tick) => (
        <text key={tick} x={props.x.place(tick)} y={foot + 18} textAnchor="middle">
          {tick}
        </text>
      ))}
      <path d={`M${ROOM.left} ${ROOM.top} V${foot} H${ROOM.width - ROOM.right}`} className="plot-axis" />
      <text x={ROOM.width - ROOM.right} y={foot + 37} textAnchor="end" className="plot-word">
        {props.across}
      </text>
      <text x={ROOM.left} y={foot + 37} className="plot-word">
        {props.up}
      </text>
    </g>
  );
}
