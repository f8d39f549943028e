import type { ReactNode } from "react";

/** The left half of a drawing and, over the middle of the field, the same as its right. */
function BothSides({ children }: { readonly children: ReactNode }) {
  return (
    <>
      {children}
      <g transform="translate(96 0) scale(-1 1)">{children}</g>
    </>
  );
}

/** A kid's head from above as the reader holds it: nose away, so that the kid's left is the reader's left. */
export function HeadFromAbove() {
  return (
    <BothSides>
      <path d="M48 5 C40 5 37 10 37 18 C37 27 30 30 27 36 C24 41 25 47 28 50 C27 53 27 55 28 57" />
      <path d="M28 57 C21 47 9 46 2 54 C8 66 19 70 29 66" />
      <path d="M31 68 C34 75 31 85 25 92" />
      <path d="M29.5 41.5 v0.5" strokeWidth={6} />
      <path d="M44 12 v1" strokeWidth={3} />
    </BothSides>
  );
}

/** The crown of the same head close up, from the eyes to the neck: where buds, whorls and knobs are. */
export function CrownFromAbove() {
  return (
    <BothSides>
      <path d="M35 2 C34 9 26 11 20 16 C15 20 15 28 19 32 C16 38 16 44 17 49" />
      <path d="M17 49 C11 42 5 42 1 47 C2 58 9 65 19 63" />
      <path d="M20 66 C24 75 22 85 17 93" />
      <path d="M22.5 22 v3" strokeWidth={6} />
    </BothSides>
  );
}

/** A kid face to face, without its crown; the pupils lie across, as a goat's do. */
export function Face() {
  return (
    <>
      <BothSides>
        <path d="M27 46 C15 37 5 41 2 52 C9 61 20 61 27 56" />
        <path d="M26 45 C26 60 36 70 38 82 C39 90 44 92 48 92" />
        <path d="M33 58 h6" strokeWidth={5} />
        <path d="M42 80 l3 3" strokeWidth={3.5} />
      </BothSides>
      <path d="M48 86 v2" strokeWidth={3} />
    </>
  );
}
