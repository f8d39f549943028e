import type { ReactNode } from "react";

/**
 * One drawing of ours on a 96 × 96 field: ink lines of one weight, hatching for bone, nothing that needs colour.
 *
 * With `label` it speaks for itself (`role="img"`); beside a word that already says it, leave the label out.
 */
export function Drawn({ label, children }: { readonly label?: string | undefined; readonly children: ReactNode }) {
  const voice = label === undefined ? { "aria-hidden": true } : { role: "img", "aria-label": label };
  return (
    <svg
      className="drawn"
      viewBox="0 0 96 96"
      fill="none"
      stroke="currentColor"
      strokeWidth={4}
      strokeLinecap="round"
      strokeLinejoin="round"
      focusable="false"
      {...voice}
    >
      {children}
    </svg>
  );
}

/** Bone, wherever it stands in a cut: slanted strokes under a line. `d` is the outline that holds them. */
export function Bone({ d, id }: { readonly d: string; readonly id: string }) {
  return (
    <>
      <clipPath id={id}>
        <path d={d} />
      </clipPath>
      <g clipPath={`url(#${id})`} strokeWidth={2.5}>
        {HATCH.map((x) => (
          <path key={x} d={`M${x} 100 L${x + 60} 16`} />
        ))}
      </g>
      <path d={d} />
    </>
  );
}

const HATCH = Array.from({ length: 17 }, (_, i) => -62 + i * 10);

/** A hair whorl: a spiral of `turns` turns out to `radius`, as a path. */
export function spiral(cx: number, cy: number, radius: number, turns: number): string {
  const steps = Math.round(turns * 14);
  const points = Array.from({ length: steps + 1 }, (_, i) => {
    const angle = (i / steps) * turns * 2 * Math.PI;
    const r = (i / steps) * radius;
    return `${(cx + r * Math.cos(angle)).toFixed(1)} ${(cy + r * Math.sin(angle)).toFixed(1)}`;
  });
  return `M${points.join(" L")}`;
}
