import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { useScreens, words } from "../../house/use-house.tsx";
import type { Family, FamilySymbol } from "./family.ts";
import type { PedigreeLayout, Placed, Stroke } from "./layout.ts";
import { roman, stripsOf, symbolAfter } from "./model.ts";
import { cut, symbolSaid } from "./said.ts";
import { sampleOf, Symbol, SymbolDefs } from "./symbol.tsx";

/** Room at the left for the generations' numbers, and at the right for the last name. */
const MARGIN = 44;

/**
 * The pedigree in a frame that scrolls: drag it, turn the wheel, or walk it with the arrow keys; one stop for Tab.
 *
 * `zoom` is what share of its own size it is shown in.
 */
export function PedigreeDrawing(props: {
  readonly family: Family;
  readonly layout: PedigreeLayout;
  readonly zoom: number;
  readonly label: string;
  readonly onOpen: (symbol: FamilySymbol) => void;
  readonly onZoom: (step: "bigger" | "smaller" | "fit") => void;
}) {
  const { family, layout, zoom, onZoom } = props;
  const defs = useId();
  const frame = useRef<HTMLDivElement>(null);
  const first = family.focus ?? layout.placed[0]?.id;
  const [at, setAt] = useState(first);
  const stop = at !== undefined && family.symbols.has(at) ? at : first;
  const width = layout.width + 2 * MARGIN;
  useEffect(() => {
    bringIntoView(frame.current, first);
  }, [first]);
  useEffect(() => dragging(frame.current, onZoom), [onZoom]);
  const press = (event: KeyboardEvent, placed: Placed): void => {
    const symbol = family.symbols.get(placed.id);
    if (event.ctrlKey || event.metaKey || event.altKey || symbol === undefined) return;
    const zoomed = ZOOM_KEYS[event.key];
    const next = symbolAfter(event, placed.id, family, layout);
    if (event.key !== "Enter" && event.key !== " " && zoomed === undefined && next === undefined) return;
    event.preventDefault();
    if (event.key === "Enter" || event.key === " ") props.onOpen(symbol);
    else if (zoomed !== undefined) onZoom(zoomed);
    else if (next !== undefined) {
      setAt(next);
      const there = frame.current?.querySelector<SVGElement>(`[data-symbol="${CSS.escape(next)}"]`);
      there?.focus();
      there?.scrollIntoView({ block: "nearest", inline: "nearest" });
    }
  };
  return (
    <div className="pedigree-frame" ref={frame}>
      <Strips of={`${defs}-whole`} width={width} height={layout.height} />
      <svg
        id={`${defs}-whole`}
        className="pedigree whole"
        viewBox={`${-MARGIN} 0 ${width} ${layout.height}`}
        width={width * zoom}
        height={layout.height * zoom}
        // oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- a drawing whose parts are links has no tag of its own
        role="group"
        aria-label={props.label}
        focusable="false"
      >
        <SymbolDefs id={defs} />
        {layout.rows.map((y, i) => (
          <text key={y} className="generation" x={-MARGIN + 4} y={y + 6} aria-hidden="true">
            {roman(i + 1)}
          </text>
        ))}
        <Lines layout={layout} />
        {layout.placed.map((placed) => (
          <Node
            key={placed.id}
            placed={placed}
            family={family}
            defs={defs}
            tab={placed.id === stop ? 0 : -1}
            onFocus={() => setAt(placed.id)}
            onOpen={props.onOpen}
            onPress={press}
          />
        ))}
        {layout.years.map(({ x, y, said }) => (
          <text key={`${x} ${y}`} className="years" x={x} y={y} aria-hidden="true">
            {said}
          </text>
        ))}
        {layout.chances.map(({ x, y, counted }) => (
          <text key={`${x} ${y}`} className="chance" x={x} y={y} aria-hidden="true">
            {words.counted(counted)}
          </text>
        ))}
      </svg>
    </div>
  );
}

/** The drawing on paper: one strip below the other where it is too wide for one that can be read. */
function Strips({ of, width, height }: { readonly of: string; readonly width: number; readonly height: number }) {
  return (
    <div className="strips" aria-hidden="true">
      {stripsOf(width).map(({ from, width: strip }) => (
        <svg key={from} className="pedigree" viewBox={`${from - MARGIN} 0 ${strip} ${height}`} focusable="false">
          <use href={`#${of}`} x={-MARGIN} width={width} height={height} />
        </svg>
      ))}
    </div>
  );
}

const ZOOM_KEYS: Readonly<Record<string, "bigger" | "smaller" | "fit">> = {
  "+": "bigger",
  "=": "bigger",
  "-": "smaller",
  "0": "fit",
};

function Lines({ layout }: { readonly layout: PedigreeLayout }) {
  return (
    <g aria-hidden="true">
      {layout.strokes.map((stroke) => (
        <path
          key={`${stroke.kind} ${pathOf(stroke.points)}`}
          className={`stroke ${stroke.kind}`}
          d={pathOf(drawnAs(stroke))}
        />
      ))}
      {layout.strokes
        .filter(({ kind }) => kind === "related")
        .map((stroke) => (
          <path key={pathOf(stroke.points)} className="stroke plain" d={pathOf(beside(stroke.points, -3))} />
        ))}
      {layout.joints.map(([x, y]) => (
        <circle key={`${x} ${y}`} cx={x} cy={y} r={3} fill="var(--ink)" />
      ))}
    </g>
  );
}

const drawnAs = ({ kind, points }: Stroke): Stroke["points"] => (kind === "related" ? beside(points, 3) : points);

/** The line moved aside, across its own direction. */
const beside = (points: Stroke["points"], by: number): Stroke["points"] => {
  const upright = points[0]?.[0] === points[1]?.[0];
  return points.map(([x, y]) => (upright ? [x + by, y] : [x, y + by]));
};
const pathOf = (points: Stroke["points"]): string => `M${points.map(([x, y]) => `${round(x)} ${round(y)}`).join(" L")}`;
const round = (n: number): number => Math.round(n * 10) / 10;

function Node(props: {
  readonly placed: Placed;
  readonly family: Family;
  readonly defs: string;
  readonly tab: 0 | -1;
  readonly onFocus: () => void;
  readonly onOpen: (symbol: FamilySymbol) => void;
  readonly onPress: (event: KeyboardEvent, placed: Placed) => void;
}) {
  const s = useScreens();
  const { placed, family } = props;
  const symbol = family.symbols.get(placed.id);
  if (symbol === undefined) return null;
  const isFocus = family.focus === placed.id;
  const [line] = symbol.lines;
  const number = `${roman(placed.row)}-${placed.number}`;
  const said = `${number}. ${symbolSaid(s, symbol)}${isFocus ? ` ${s.pedigree.inQuestion}` : ""}`;
  const small = line?.where === "born-dead" ? s.pedigree.stillborn : line?.where === "gone" ? s.pedigree.gone : "";
  return (
    <g
      // oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- Enter may also open like kids in place, which no address names
      role="link"
      className="symbol"
      data-symbol={placed.id}
      tabIndex={props.tab}
      aria-label={said}
      transform={`translate(${round(placed.x)} ${round(placed.y)})`}
      onFocus={props.onFocus}
      onClick={() => props.onOpen(symbol)}
      onKeyDown={(event) => props.onPress(event, placed)}
    >
      <rect className="ring" x={-44} y={-28} width={88} height={88} />
      <Symbol of={sampleOf(symbol)} id={props.defs} />
      {/* From above: at the side below stands the name of whoever is to the left. */}
      {isFocus && <path className="arrow" d="M-42 -36 L-21 -19 M-32 -18 L-21 -19 L-24 -30" />}
      {line !== undefined && symbol.kind === "animal" && (
        <text className="name" y={35} textAnchor="middle">
          {cut(line.ref.name ?? line.ref.tag ?? words.label(line.ref))}
        </text>
      )}
      <text className="small" y={50} textAnchor="middle">
        {[String(placed.number), small].filter((part) => part !== "").join(" ")}
      </text>
    </g>
  );
}

/** Scrolls the frame, never the page, to the goat in question, or to the first. */
function bringIntoView(frame: HTMLDivElement | null, goat: string | undefined): void {
  if (frame === null || goat === undefined) return;
  const symbol = frame.querySelector(`[data-symbol="${CSS.escape(goat)}"]`);
  if (symbol === null) return;
  const [inner, outer] = [symbol.getBoundingClientRect(), frame.getBoundingClientRect()];
  frame.scrollLeft += inner.left - outer.left - outer.width / 2 + inner.width / 2;
  frame.scrollTop += inner.top - outer.top - outer.height / 2 + inner.height / 2;
}

/** Drags the drawing with a mouse and zooms by the wheel with Ctrl held; fingers scroll by themselves. Gives back how to stop. */
function dragging(
  frame: HTMLDivElement | null,
  onZoom: (step: "bigger" | "smaller") => void,
): (() => void) | undefined {
  if (frame === null) return undefined;
  let from: { readonly x: number; readonly y: number; readonly left: number; readonly top: number } | undefined;
  const down = (event: PointerEvent): void => {
    if (event.pointerType === "mouse" && event.button === 0)
      from = { x: event.clientX, y: event.clientY, left: frame.scrollLeft, top: frame.scrollTop };
  };
  const move = (event: PointerEvent): void => {
    if (from === undefined) return;
    frame.scrollLeft = from.left - (event.clientX - from.x);
    frame.scrollTop = from.top - (event.clientY - from.y);
  };
  const up = (): void => {
    from = undefined;
  };
  const wheel = (event: WheelEvent): void => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    onZoom(event.deltaY < 0 ? "bigger" : "smaller");
  };
  frame.addEventListener("pointerdown", down);
  window.addEventListener("pointermove", move);
  window.addEventListener("pointerup", up);
  frame.addEventListener("wheel", wheel, { passive: false });
  return () => {
    frame.removeEventListener("pointerdown", down);
    window.removeEventListener("pointermove", move);
    window.removeEventListener("pointerup", up);
    frame.removeEventListener("wheel", wheel);
  };
}
