// Words
export {
  BUD_FEELS,
  type BudFeel,
  CROWNS,
  type Crown,
  GROWTHS,
  type Growth,
  type HeadSigns,
  KNOB_SHAPES,
  type KnobShape,
  NO_FINDINGS,
  type NoFinding,
  type Sided,
  SKIN_HOLDS,
  type SkinHold,
  WHORLS,
  type Whorl,
} from "./head-signs.ts";
