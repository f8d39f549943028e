/**
 * What fingers and eyes can find on a kid's head. Each list is ordered from "speaks for polled" to "speaks for horns".
 * `unsure` (looked or felt, could not tell) and `not-looked` are answers; a sign that is absent was not reached yet.
 */

/** The bud felt with a fingertip: nothing / a low rounded bump / a pointed bump / the tip has come through. */
export const BUD_FEELS = ["nothing", "rounded", "pointed", "tip-through"] as const;
export type BudFeel = (typeof BUD_FEELS)[number];

/** The skin over the bud site, pushed with a finger: slides freely / slides a little / is held fast. */
export const SKIN_HOLDS = ["slides", "slides-a-little", "held-fast"] as const;
export type SkinHold = (typeof SKIN_HOLDS)[number];

/** A hair whorl over the bud site: none / unclear / clear. */
export const WHORLS = ["none", "unclear", "clear"] as const;
export type Whorl = (typeof WHORLS)[number];

/** The outline of the hair on the crown: a rounded cap / unclear / flat. */
export const CROWNS = ["rounded-cap", "unclear", "flat"] as const;
export type Crown = (typeof CROWNS)[number];

/** The answers that are no observation: could not tell, or did not look. */
export const NO_FINDINGS = ["unsure", "not-looked"] as const;
export type NoFinding = (typeof NO_FINDINGS)[number];

/** One answer given for both sides at once (one observation), or an answer per side (two observations). */
export type Sided<T> = { readonly both: T } | { readonly left?: T; readonly right?: T };

/** The signs of one reading. Absent = not reached (the reading was interrupted). */
export interface HeadSigns {
  readonly feel?: Sided<BudFeel | NoFinding>;
  readonly skin?: Sided<SkinHold | NoFinding>;
  readonly whorls?: Sided<Whorl | NoFinding>;
  readonly crown?: Crown | NoFinding;
}

/** What grew where a horn would, checked weeks later, per side. */
export const GROWTHS = ["nothing", "knob", "scur", "horn", "soft-lump", "unsure"] as const;
export type Growth = (typeof GROWTHS)[number];

/** Shape of a polled head's bony knobs from about three months: rounded and apart / two beans in a V pointing forward. */
export const KNOB_SHAPES = ["rounded-apart", "beans-in-v", "unsure"] as const;
export type KnobShape = (typeof KNOB_SHAPES)[number];
