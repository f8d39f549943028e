import type { AnimalLine } from "@pollard/advice";
import { type Day, daysFrom } from "@pollard/base";

/** Youngest age at which a goat can have been mated, days: a doe kid can conceive at three months; a little before, to be safe. */
const YOUNGEST_DAYS = 80;

/** Is it old enough to have been mated, or is its age not known? */
export const isGrown = (goat: AnimalLine, today: Day): boolean =>
  goat.born === undefined || daysFrom(goat.born, today) >= YOUNGEST_DAYS;
