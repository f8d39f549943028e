import type { Counted } from "@pollard/advice";
import { useId } from "react";

/**
 * A chance counted out: filled squares stand for kids that grow horns, hollow ones for kids that stay hornless.
 *
 * Filled from the bottom left, in one block, so that it reads in grey and on paper. `label` is the same as the sentence
 * beside it.
 */
export function CountedSquares({ counted, label }: { readonly counted: Counted; readonly label: string }) {
  const perRow = counted.of === 4 ? 4 : counted.of === 100 ? 20 : 10;
  const rows = counted.of / perRow;
  const size = counted.of === 100 ? 14 : 26;
  const gap = counted.of === 100 ? 3 : 5;
  const width = perRow * (size + gap);
  const height = rows * (size + gap);
  return (
    <svg
      className="squares"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={label}
      focusable="false"
    >
      {Array.from({ length: counted.of }, (_, at) => {
        const x = (at % perRow) * (size + gap) + 1.5;
        const y = height - (Math.floor(at / perRow) + 1) * (size + gap) + 1.5;
        return (
          <rect
            key={at}
            x={x}
            y={y}
            width={size - 1}
            height={size - 1}
            fill={at < counted.count ? "currentColor" : "none"}
            stroke="currentColor"
            strokeWidth={counted.of === 100 ? 1.5 : 2}
          />
        );
      })}
    </svg>
  );
}

/** How far one fact leans, from hornless (left) to horns (right): a bar from the middle. Natural log-odds. */
export function Lean({ logOdds }: { readonly logOdds: number }) {
  const hatch = useId();
  const reach = Math.max(-FULL, Math.min(FULL, logOdds)) / FULL;
  const x = reach < 0 ? 100 + reach * 96 : 100;
  return (
    <svg className="scale" viewBox="0 0 200 20" preserveAspectRatio="none" aria-hidden="true" focusable="false">
      <defs>
        <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0 V6" stroke="currentColor" strokeWidth="3" />
        </pattern>
      </defs>
      <path d="M2 10 H198" stroke="currentColor" strokeWidth="1" />
      <rect
        x={x}
        y={4}
        width={Math.abs(reach) * 96}
        height={12}
        fill={reach < 0 ? `url(#${hatch})` : "currentColor"}
        stroke="currentColor"
        strokeWidth="1.5"
      />
      <path d="M100 0 V20" stroke="currentColor" strokeWidth="3" />
    </svg>
  );
}

/** A lean that fills the bar: odds of 100 to one. */
const FULL = Math.log(100);
