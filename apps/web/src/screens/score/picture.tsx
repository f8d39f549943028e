import { axisOfWholes } from "../../parts/pictures/plot-scales.ts";
import type { Ring } from "./model.ts";

/** The field in the picture's own units: a square with room for figures at its left and foot. */
const FIELD = { left: 60, top: 12, side: 260 } as const;
/** Room between the frame and none or all, so that the largest ring stays inside. */
const MARGIN = 22;
/** What all is: counts of twenty, as everywhere on the page. */
const ALL = 20;

/**
 * What was called against what came: a ring for each group of calls, its bar for what luck alone allows, and the slanted line on
 * which all would stand if everything came as called. A filled ring did not come as called.
 */
export function CallsPicture(props: {
  readonly rings: readonly Ring[];
  readonly label: string;
  readonly called: string;
  readonly came: string;
}) {
  const { left, top, side } = FIELD;
  const across = axisOfWholes(0, ALL, { from: left + MARGIN, to: left + side - MARGIN, most: 2 });
  const up = axisOfWholes(0, ALL, { from: top + side - MARGIN, to: top + MARGIN, most: 2 });
  const x = (share: number): number => across.place(share * ALL);
  const y = (share: number): number => up.place(share * ALL);
  return (
    <svg className="calls-picture" viewBox="0 0 340 330" role="img" aria-label={props.label} focusable="false">
      <rect x={left} y={top} width={side} height={side} fill="none" stroke="currentColor" strokeWidth={2} />
      <path d={`M${x(0)} ${y(0)} L${x(1)} ${y(1)}`} stroke="currentColor" strokeWidth={1.5} strokeDasharray="6 5" />
      {across.ticks.map((tick) => (
        <text key={tick} x={across.place(tick)} y={top + side + 20} textAnchor="middle" fill="currentColor">
          {tick}
        </text>
      ))}
      {up.ticks.map((tick) => (
        <text key={tick} x={left - 8} y={up.place(tick) + 5} textAnchor="end" fill="currentColor">
          {tick}
        </text>
      ))}
      <text className="axis" x={x(0.5)} y={top + side + 42} textAnchor="middle" fill="currentColor">
        {props.called}
      </text>
      <text className="axis" transform={`translate(16 ${y(0.5)}) rotate(-90)`} textAnchor="middle" fill="currentColor">
        {props.came}
      </text>
      {props.rings.map((ring) => (
        <g key={ring.called} stroke="currentColor" strokeWidth={2.5}>
          <path d={`M${x(ring.called)} ${y(ring.low)} V${y(ring.high)}`} />
          <path d={`M${x(ring.called) - 6} ${y(ring.low)} h12 M${x(ring.called) - 6} ${y(ring.high)} h12`} />
          <circle
            cx={x(ring.called)}
            cy={y(ring.came)}
            r={ring.radius}
            className={ring.verdict === "as-called" ? "hollow" : "filled"}
          />
        </g>
      ))}
    </svg>
  );
}
