import type { BudFeel, Crown, NoFinding, SkinHold, Whorl } from "@pollard/husbandry";
import { unreachable } from "@pollard/base";
import { useId } from "react";
import { Bone, Drawn, spiral } from "./drawn.tsx";

interface Labelled {
  readonly label?: string | undefined;
}

/** A kid's head seen from above as the reader holds it: nose away, so the kid's left is the reader's left. */
const HEAD =
  "M48 7 C41 7 38 13 37 22 C35 34 25 42 24 58 C23 76 34 89 48 89 C62 89 73 76 72 58 C71 42 61 34 59 22 C58 13 55 7 48 7 Z";
const EARS = "M24 57 C15 51 6 55 3 65 C11 71 19 71 26 67 M72 57 C81 51 90 55 93 65 C85 71 77 71 70 67";

function HeadFromAbove() {
  return (
    <>
      <path d={EARS} />
      <path d={HEAD} />
      <path d="M44 13 v1 M52 13 v1" strokeWidth={3} />
      <path d="M31 41 l3 4 M65 41 l-3 4" />
    </>
  );
}

/** Which side of the head is meant: the side asked about is filled. */
export function SideDrawing({ side, label }: Labelled & { readonly side: "left" | "right" | "both" }) {
  const left = side !== "right";
  const right = side !== "left";
  return (
    <Drawn label={label}>
      <HeadFromAbove />
      <circle cx={37} cy={62} r={7} fill={left ? "currentColor" : "none"} />
      <circle cx={59} cy={62} r={7} fill={right ? "currentColor" : "none"} />
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
          <Fingertip y={0} />
        </Drawn>
      );
    case "rounded":
      return (
        <Drawn label={label}>
          <path d="M4 61 C18 59 24 55 30 49 C38 40 58 40 66 49 C72 55 78 59 92 61" strokeWidth={5} />
          <Bone id={id} d="M4 77 C20 75 26 70 33 63 C40 56 56 56 63 63 C70 70 76 75 92 77 V92 H4 Z" />
          <Fingertip y={-4} />
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

function Fingertip({ y }: { readonly y: number }) {
  return (
    <g transform={`translate(0 ${y})`} strokeWidth={3}>
      <path d="M37 8 V28 C37 41 59 41 59 28 V8" />
      <path d="M43 26 C43 33 53 33 53 26" />
    </g>
  );
}

/** The skin over the bud pushed sideways: how far it goes, and whether it is pinned to the bone. */
export function SkinDrawing({ finding, label }: Labelled & { readonly finding: SkinHold }) {
  const id = useId();
  const bone = <Bone id={id} d="M4 80 C28 74 68 74 92 80 V94 H4 Z" />;
  switch (finding) {
    case "slides":
      return (
        <Drawn label={label}>
          <path d="M8 26 H84 M70 13 L86 26 L70 39 M22 13 L6 26 L22 39" strokeWidth={5} />
          <path d="M4 60 H22 C27 60 28 48 34 48 S41 60 46 60 S53 48 58 48 S65 60 70 60 H92" strokeWidth={5} />
          {bone}
        </Drawn>
      );
    case "slides-a-little":
      return (
        <Drawn label={label}>
          <path d="M35 26 H61 M54 17 L63 26 L54 35 M42 17 L33 26 L42 35" strokeWidth={5} />
          <path d="M4 60 H38 C43 60 43 52 48 52 S53 60 58 60 H92" strokeWidth={5} />
          {bone}
        </Drawn>
      );
    case "held-fast":
      return (
        <Drawn label={label}>
          <path
            d="M6 26 H30 M22 17 L31 26 L22 35 M90 26 H66 M74 17 L65 26 L74 35 M40 12 V40 M56 12 V40"
            strokeWidth={5}
          />
          <path d="M4 60 H92" strokeWidth={5} />
          <path d="M36 56 V84 M48 56 V84 M60 56 V84" strokeWidth={6} />
          {bone}
        </Drawn>
      );
    default:
      return unreachable(finding, "SkinDrawing");
  }
}

/** The run of the hair over the bud sites: the crown from above, close up, nose away. */
export function WhorlDrawing({ finding, label }: Labelled & { readonly finding: Whorl }) {
  const crown = (
    <>
      <path d="M33 3 C31 20 18 28 18 54 C18 78 30 92 48 92 C66 92 78 78 78 54 C78 28 65 20 63 3" />
      <path d="M18 56 C10 52 4 56 2 65 C8 71 15 71 20 67 M78 56 C86 52 92 56 94 65 C88 71 81 71 76 67" />
    </>
  );
  switch (finding) {
    case "none":
      return (
        <Drawn label={label}>
          {crown}
          <path d={STRAIGHT_HAIR} strokeWidth={4} />
        </Drawn>
      );
    case "unclear":
      return (
        <Drawn label={label}>
          {crown}
          <path d="M27 65 C23 50 40 47 41 58 M55 65 C52 50 69 47 70 58" strokeWidth={4} />
          <path
            d="M48 22 v12 M38 26 v8 M58 26 v8 M34 74 v8 M48 70 v12 M62 74 v8"
            strokeWidth={3}
            strokeDasharray="5 5"
          />
        </Drawn>
      );
    case "clear":
      return (
        <Drawn label={label}>
          {crown}
          <path d={spiral(34, 55, 13, 2.25)} strokeWidth={4} />
          <path d={spiral(63, 55, 13, 2.25)} strokeWidth={4} />
          <path d="M48 18 v10 M42 80 v5 M54 80 v5" strokeWidth={3} />
        </Drawn>
      );
    default:
      return unreachable(finding, "WhorlDrawing");
  }
}

/** Hair that runs straight back over the whole crown. */
const STRAIGHT_HAIR =
  "M42 16 v12 M54 16 v12 M29 42 v12 M42 40 v13 M54 40 v13 M67 42 v12 M30 66 v10 M42 66 v13 M54 66 v13 M66 66 v10";

/** The outline of the hair between the ears, face to face with the kid. */
export function CrownDrawing({ finding, label }: Labelled & { readonly finding: Crown }) {
  const face = (
    <>
      <path d="M26 48 C14 40 6 44 3 54 C10 62 20 62 27 58 M70 48 C82 40 90 44 93 54 C86 62 76 62 69 58" />
      <path d="M26 46 C27 66 36 76 38 86 C42 92 54 92 58 86 C60 76 69 66 70 46" />
      <path d="M38 60 v3 M58 60 v3 M45 84 v0.5 M51 84 v0.5" strokeWidth={5} />
    </>
  );
  switch (finding) {
    case "rounded-cap":
      return (
        <Drawn label={label}>
          {face}
          <path d="M25 47 C22 14 74 14 71 47" strokeWidth={6} />
          <path d="M35 42 C36 34 38 30 41 27 M48 43 V27 M61 42 C60 34 58 30 55 27" strokeWidth={3} />
        </Drawn>
      );
    case "unclear":
      return (
        <Drawn label={label}>
          {face}
          <path d="M26 45 C26 24 70 24 70 45" strokeWidth={6} strokeDasharray="9 9" />
        </Drawn>
      );
    case "flat":
      return (
        <Drawn label={label}>
          {face}
          <path d="M26 46 L28 36 H68 L70 46" strokeWidth={6} />
          <path d="M37 47 V42 M48 47 V42 M59 47 V42" strokeWidth={3} />
        </Drawn>
      );
    default:
      return unreachable(finding, "CrownDrawing");
  }
}
