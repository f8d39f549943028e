import type { BudFeel, Crown, NoFinding, SkinHold, Whorl } from "@pollard/husbandry";
import { unreachable } from "@pollard/base";
import { useId } from "react";
import { Bone, Drawn, spiral } from "./drawn.tsx";
import { CrownFromAbove, Face, HeadFromAbove } from "./heads.tsx";

interface Labelled {
  readonly label?: string | undefined;
}

/** Which side of the head is meant: the side asked about is filled. */
export function SideDrawing({ side, label }: Labelled & { readonly side: "left" | "right" | "both" }) {
  const left = side !== "right";
  const right = side !== "left";
  return (
    <Drawn label={label}>
      <HeadFromAbove />
      <circle cx={38} cy={56} r={5.5} fill={left ? "currentColor" : "none"} />
      <circle cx={58} cy={56} r={5.5} fill={right ? "currentColor" : "none"} />
    </Drawn>
  );
}

/** The answer "could not tell" (a question mark in a broken ring) and "did not look" (a closed eye). */
export function NoFindingDrawing({ finding, label }: Labelled & { readonly finding: NoFinding }) {
  return (
    <Drawn label={label}>
      {finding === "unsure" ? (
        <>
          <circle cx={48} cy={48} r={38} strokeDasharray="9 9" />
          <path d="M36 38 C36 24 60 24 60 38 C60 48 48 47 48 58" strokeWidth={6} />
          <path d="M48 71 v1" strokeWidth={8} />
        </>
      ) : (
        <>
          <path d="M10 44 C28 66 68 66 86 44" strokeWidth={5} />
          <path d="M22 54 l-7 10 M39 61 l-3 12 M57 61 l3 12 M74 54 l7 10" strokeWidth={5} />
        </>
      )}
    </Drawn>
  );
}

/** The bud under a fingertip, as a cut through skin and bone: nothing, a low bump, a point, the tip out. */
export function BudFeelDrawing({ finding, label }: Labelled & { readonly finding: BudFeel }) {
  const id = useId();
  switch (finding) {
    case "nothing":
      return (
        <Drawn label={label}>
          <path d="M4 56 C28 48 68 48 92 56" strokeWidth={5} />
          <Bone id={id} d="M4 72 C28 64 68 64 92 72 V92 H4 Z" />
          <Fingertip x={48} y={0} />
        </Drawn>
      );
    case "rounded":
      return (
        <Drawn label={label}>
          <path d="M4 61 C18 59 24 55 30 49 C38 40 58 40 66 49 C72 55 78 59 92 61" strokeWidth={5} />
          <Bone id={id} d="M4 77 C20 75 26 70 33 63 C40 56 56 56 63 63 C70 70 76 75 92 77 V92 H4 Z" />
          <Fingertip x={48} y={-4} />
        </Drawn>
      );
    case "pointed":
      return (
        <Drawn label={label}>
          <path d="M4 60 C24 58 32 50 38 36 L45 21 Q48 15 51 21 L58 36 C64 50 72 58 92 60" strokeWidth={5} />
          <Bone id={id} d="M4 76 C26 74 36 66 41 52 L46 38 Q48 34 50 38 L55 52 C60 66 70 74 92 76 V92 H4 Z" />
        </Drawn>
      );
    case "tip-through":
      return (
        <Drawn label={label}>
          <path d="M4 60 C20 58 28 54 33 45 M63 45 C68 54 76 58 92 60" strokeWidth={5} />
          <path d="M36 47 L45 13 Q48 5 51 13 L60 47 Z" fill="currentColor" />
          <Bone id={id} d="M4 76 C24 74 32 68 36 58 H60 C64 68 72 74 92 76 V92 H4 Z" />
        </Drawn>
      );
    default:
      return unreachable(finding, "BudFeelDrawing");
  }
}

/** A fingertip from above the skin; `y` 0 is one that rests on a flat head. */
function Fingertip({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <g transform={`translate(${x} ${y})`} strokeWidth={3}>
      <path d="M-11 6 V28 C-11 41 11 41 11 28 V6" />
      <path d="M-5 26 C-5 33 5 33 5 26" />
    </g>
  );
}

/** The skin pushed sideways by a fingertip: folds run ahead of it, one small fold, or none, for it is pinned to the bone. */
export function SkinDrawing({ finding, label }: Labelled & { readonly finding: SkinHold }) {
  const id = useId();
  const below = (
    <>
      <Fingertip x={22} y={15} />
      <Bone id={id} d="M4 80 C28 75 68 75 92 80 V94 H4 Z" />
    </>
  );
  switch (finding) {
    case "slides":
      return (
        <Drawn label={label}>
          <path d="M42 24 H86 M74 13 L87 24 L74 35" strokeWidth={5} />
          <path d="M4 60 H36 C42 60 42 46 48 46 S54 60 60 60 S66 48 71 48 S77 60 82 60 H92" strokeWidth={5} />
          {below}
        </Drawn>
      );
    case "slides-a-little":
      return (
        <Drawn label={label}>
          <path d="M42 24 H60 M52 15 L61 24 L52 33" strokeWidth={5} />
          <path d="M4 60 H38 C44 60 44 51 49 51 S54 60 60 60 H92" strokeWidth={5} />
          {below}
        </Drawn>
      );
    case "held-fast":
      return (
        <Drawn label={label}>
          <path d="M42 24 H55 M48 16 L56 24 L48 32" strokeWidth={5} />
          <path d="M67 9 V39" strokeWidth={7} />
          <path d="M4 60 H92" strokeWidth={5} />
          <path d="M50 58 V86 M64 58 V86 M78 58 V86" strokeWidth={6} />
          {below}
        </Drawn>
      );
    default:
      return unreachable(finding, "SkinDrawing");
  }
}

/** The run of the hair over the bud sites: the crown from above, close up, nose away. */
export function WhorlDrawing({ finding, label }: Labelled & { readonly finding: Whorl }) {
  switch (finding) {
    case "none":
      return (
        <Drawn label={label}>
          <CrownFromAbove />
          <path d={STRAIGHT_HAIR} />
        </Drawn>
      );
    case "unclear":
      return (
        <Drawn label={label}>
          <CrownFromAbove />
          <path d="M26 59 A10.5 10.5 0 1 1 42 59 M54 59 A10.5 10.5 0 1 1 70 59" strokeDasharray="9 8" />
          <path d="M48 14 v12 M40 76 v8 M56 76 v8" strokeWidth={3} />
        </Drawn>
      );
    case "clear":
      return (
        <Drawn label={label}>
          <CrownFromAbove />
          <path d={spiral(34, 52, 13, 2.25)} />
          <path d={spiral(62, 52, 13, 2.25)} />
          <path d="M48 14 v12 M40 76 v8 M56 76 v8" strokeWidth={3} />
        </Drawn>
      );
    default:
      return unreachable(finding, "WhorlDrawing");
  }
}

/** Hair that runs straight back over the whole crown. */
const STRAIGHT_HAIR =
  "M42 14 v10 M54 14 v10 M36 34 C34 40 33 43 33 48 M48 32 v14 M60 34 C62 40 63 43 63 48 M32 58 v12 M48 56 v14 M64 58 v12 M42 78 v8 M54 78 v8";

/** The outline of the hair between the ears, face to face with the kid. */
export function CrownDrawing({ finding, label }: Labelled & { readonly finding: Crown }) {
  switch (finding) {
    case "rounded-cap":
      return (
        <Drawn label={label}>
          <Face />
          <path d="M25 47 C22 14 74 14 71 47" strokeWidth={6} />
          <path d="M35 42 C36 34 38 30 41 27 M48 43 V27 M61 42 C60 34 58 30 55 27" strokeWidth={3} />
        </Drawn>
      );
    case "unclear":
      return (
        <Drawn label={label}>
          <Face />
          <path d="M26 44 C26 24 70 24 70 44" strokeWidth={6} strokeDasharray="9 9" />
        </Drawn>
      );
    case "flat":
      return (
        <Drawn label={label}>
          <Face />
          <path d="M26 45 L30 38 H66 L70 45" strokeWidth={6} />
          <path d="M38 44 v5 M48 44 v5 M58 44 v5" strokeWidth={3} />
        </Drawn>
      );
    default:
      return unreachable(finding, "CrownDrawing");
  }
}
