import type { HerdBookLine } from "@pollard/advice";
import type { FamilySymbol } from "./family.ts";
import { type Fill, fillOf } from "./model.ts";

/** Half of a symbol's side, in the drawing's own units. */
const HALF = 20;

type Shape = "square" | "circle" | "diamond";
const SHAPES: Readonly<Record<HerdBookLine["sex"], Shape>> = {
  buck: "square",
  wether: "square",
  doe: "circle",
  intersex: "diamond",
  unsure: "diamond",
};

/** Outlines and hatchings that the symbols of one drawing share. `id` keeps two drawings on one page apart. */
export function SymbolDefs({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={`${id}-wide`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0 V9" stroke="var(--ink)" strokeWidth="2" />
      </pattern>
      <pattern id={`${id}-close`} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <path d="M0 0 V4" stroke="var(--ink)" strokeWidth="4.4" />
      </pattern>
      {(["square", "circle", "diamond"] as const).map((shape) => (
        <clipPath key={shape} id={`${id}-${shape}`}>
          <Outline shape={shape} />
        </clipPath>
      ))}
    </defs>
  );
}

function Outline({ shape }: { readonly shape: Shape }) {
  if (shape === "circle") return <circle r={HALF} />;
  return <path d={shape === "square" ? "M-20 -20 H20 V20 H-20 Z" : "M0 -23 L23 0 L0 23 L-23 0 Z"} />;
}

/** How a symbol stands in the key, where it is of no animal. */
export interface Sample {
  readonly sex: FamilySymbol["sex"];
  readonly fill: Fill | { readonly way: "none" };
  readonly where?: HerdBookLine["where"];
  readonly many?: number;
  readonly unknown?: "unknown";
  readonly lost?: "lost";
}

export const sampleOf = ({ kind, sex, lines }: FamilySymbol): Sample => ({
  sex,
  fill: kind === "unknown" || kind === "lost" ? { way: "none" } : fillOf(lines[0]),
  where: lines[0]?.where ?? "here",
  ...(kind === "like-kids" ? { many: lines.length } : {}),
  ...(kind === "unknown" ? { unknown: "unknown" as const } : {}),
  ...(kind === "lost" ? { lost: "lost" as const } : {}),
});

/**
 * One symbol about its own middle: shape for sex, filling for genotype, a slash for dead, a number for so many alike; a small
 * triangle for kids lost before their time.
 */
export function Symbol({ of, id }: { readonly of: Sample; readonly id: string }) {
  if (of.lost !== undefined)
    return <path d={`M0 ${-HALF} L14 4 H-14 Z`} fill="var(--page)" stroke="var(--ink)" strokeWidth={2.5} />;
  const shape = SHAPES[of.sex];
  const dead = of.where === "dead" || of.where === "born-dead";
  return (
    <g>
      <g clipPath={`url(#${id}-${shape})`}>
        <rect x={-24} y={-24} width={48} height={48} fill="var(--page)" />
        <Filling fill={of.fill} id={id} />
      </g>
      <g
        fill="none"
        stroke="var(--ink)"
        strokeWidth={2.5}
        {...(of.unknown === undefined ? {} : { strokeDasharray: "5 4" })}
      >
        <Outline shape={shape} />
      </g>
      {of.sex === "wether" && <path d="M-20 26 H20" stroke="var(--ink)" strokeWidth={3} />}
      {of.sex === "intersex" && <path d="M0 -23 V23" stroke="var(--ink)" strokeWidth={2.5} />}
      {dead && <path d="M-27 27 L27 -27" className="halo" strokeWidth={6} />}
      {dead && <path d="M-27 27 L27 -27" stroke="var(--ink)" strokeWidth={2.5} />}
      {(of.many !== undefined || of.unknown !== undefined || of.fill.way === "not-shown") && (
        <text className="inside" y={7} textAnchor="middle">
          {of.many ?? "?"}
        </text>
      )}
    </g>
  );
}

function Filling({ fill, id }: { readonly fill: Sample["fill"]; readonly id: string }) {
  if (fill.way === "known") {
    if (fill.genotype === "PP") return null;
    return <rect x={fill.genotype === "Pp" ? 0 : -24} y={-24} width={48} height={48} fill="var(--ink)" />;
  }
  if (fill.way !== "inferred") return null;
  const none = 2 * HALF * fill.pp;
  const one = 2 * HALF * fill.Pp;
  return (
    <>
      <rect x={-24} y={HALF - none} width={48} height={none + 4} fill={`url(#${id}-close)`} />
      <rect x={-24} y={HALF - none - one} width={48} height={one} fill={`url(#${id}-wide)`} />
      {none > 1 && <path d={`M-24 ${HALF - none} H24`} stroke="var(--ink)" strokeWidth={1.5} />}
      {one > 1 && <path d={`M-24 ${HALF - none - one} H24`} stroke="var(--ink)" strokeWidth={1.5} />}
    </>
  );
}
