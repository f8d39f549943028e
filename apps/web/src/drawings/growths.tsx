import { unreachable } from "@pollard/base";
import type { Growth, KnobShape } from "@pollard/husbandry";
import { useId } from "react";
import { Bone, Drawn } from "./drawn.tsx";
import { NoFindingDrawing } from "./head-signs.tsx";
import { CrownFromAbove } from "./heads.tsx";

interface Labelled {
  readonly label?: string | undefined;
}

/** What grew where a horn would, as a cut from the side: hair, bone (hatched) and what stands on it. */
export function GrowthDrawing({ growth, label }: Labelled & { readonly growth: Growth }) {
  const id = useId();
  switch (growth) {
    case "nothing":
      return (
        <Drawn label={label}>
          <path d="M10 60 l6 -9 M26 57 l6 -9 M42 56 l6 -9 M58 57 l6 -9 M74 60 l6 -9" strokeWidth={3} />
          <Bone id={id} d="M4 72 C28 66 68 66 92 72 V92 H4 Z" />
        </Drawn>
      );
    case "knob":
      return (
        <Drawn label={label}>
          <path d="M14 54 l4 -9 M30 36 l3 -9 M47 29 l1 -9 M65 36 l-3 -9 M82 54 l-4 -9" strokeWidth={3} />
          <Bone id={id} d="M4 74 C14 72 20 64 26 54 C34 40 62 40 70 54 C76 64 82 72 92 74 V92 H4 Z" />
        </Drawn>
      );
    case "scur":
      return (
        <Drawn label={label}>
          <path
            d="M38 57 C34 46 37 37 45 31 C50 27 57 28 60 24 C60 34 57 40 55 45 C53 50 55 53 57 58"
            fill="currentColor"
          />
          <path d="M32 64 h8 M46 64 h6 M58 64 h8" strokeWidth={3.5} />
          <Bone id={id} d="M4 76 C28 71 68 71 92 76 V92 H4 Z" />
        </Drawn>
      );
    case "horn":
      return (
        <Drawn label={label}>
          <path d="M30 70 C28 44 38 18 70 5 C62 20 62 40 66 70" />
          <path d="M31 56 C42 60 54 60 65 56 M34 42 C44 46 54 46 63 42 M41 29 C48 32 55 32 62 29" strokeWidth={3.5} />
          <Bone id={id} d="M4 76 C18 74 28 72 32 70 H64 C68 72 78 74 92 76 V92 H4 Z" />
        </Drawn>
      );
    case "soft-lump":
      return (
        <Drawn label={label}>
          <path
            d="M24 68 C16 56 28 46 34 48 C34 36 52 32 56 42 C68 38 78 50 72 68"
            strokeDasharray="8 7"
            strokeWidth={5}
          />
          <path d="M36 60 v0.5 M46 52 v0.5 M48 63 v0.5 M59 57 v0.5 M64 64 v0.5" strokeWidth={6} />
          <Bone id={id} d="M4 76 C28 72 68 72 92 76 V92 H4 Z" />
        </Drawn>
      );
    case "unsure":
      return <NoFindingDrawing finding="unsure" label={label} />;
    default:
      return unreachable(growth, "GrowthDrawing");
  }
}

/** Bony knobs of a polled head from about three months, from above with the nose away. */
export function KnobDrawing({ shape, label }: Labelled & { readonly shape: KnobShape }) {
  switch (shape) {
    case "rounded-apart":
      return (
        <Drawn label={label}>
          <CrownFromAbove />
          <circle cx={34} cy={52} r={8.5} fill="currentColor" />
          <circle cx={62} cy={52} r={8.5} fill="currentColor" />
        </Drawn>
      );
    case "beans-in-v":
      return (
        <Drawn label={label}>
          <CrownFromAbove />
          <path d="M43.5 38 L35 64 M52.5 38 L61 64" strokeWidth={12} />
        </Drawn>
      );
    case "unsure":
      return <NoFindingDrawing finding="unsure" label={label} />;
    default:
      return unreachable(shape, "KnobDrawing");
  }
}
