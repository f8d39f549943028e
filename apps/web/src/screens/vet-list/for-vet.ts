import type { VetListLine, VetListModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import type { Screens } from "@pollard/words";
import type { PrintedMark } from "../../adapters/database/idb-marks.ts";
import { care, weights, words } from "../../house/wording.ts";

/** What the vet must know of a kid beside its head, a sentence each: dam, tetanus cover, colostrum, growth. */
export function forVet(
  s: Screens,
  line: VetListLine,
  { day, sayDay }: { readonly day: Day; readonly sayDay: (day: Day) => string },
): readonly string[] {
  const { dam, tetanus, colostrum, growth, gainKgADay, expectedKg, weight } = line;
  return [
    ...(dam === undefined ? [] : [s.forVet.dam(words.label(dam))]),
    ...(tetanus.damBooster === undefined && tetanus.kid === undefined
      ? [s.forVet.noTetanus]
      : [
          tetanus.damBooster === undefined ? s.forVet.noBooster : s.forVet.booster(sayDay(tetanus.damBooster)),
          tetanus.kid === undefined ? s.forVet.noCover : s.forVet.cover(sayDay(tetanus.kid)),
        ]),
    s.forVet.colostrum[colostrum],
    ...(growth === "slow" || growth === "losing" ? [s.forVet.behind(care.growth(growth))] : []),
    ...(gainKgADay === undefined || growth === "losing"
      ? []
      : [s.forVet.gains(weights.gain(gainKgADay.low), weights.gain(gainKgADay.high))]),
    ...(expectedKg === undefined || growth === "losing" || weight?.on === day
      ? []
      : [s.forVet.expected(weights.forVet.between(expectedKg))]),
  ];
}

/** How the list differs from the one that was printed. */
export interface SincePrinted {
  readonly at: string;
  /** Ids of the kids that the paper lacks. */
  readonly fresh: ReadonlySet<string>;
  /** How many kids of the paper are off the list. */
  readonly gone: number;
}

const kidsOf = ({ list, lookFirst }: VetListModel): readonly string[] =>
  [...list, ...lookFirst].map(({ kid }) => kid.id);

/** What is to be remembered of a list that is printed. */
export const printedMark = (model: VetListModel, at: string): PrintedMark => ({ at, kids: kidsOf(model) });

/** Who is new since the list was printed, and how many are off it; nothing where it was never printed here. */
export function sincePrinted(model: VetListModel, printed: PrintedMark | undefined): SincePrinted | undefined {
  if (printed === undefined) return undefined;
  const listed = kidsOf(model);
  return {
    at: printed.at,
    fresh: new Set(listed.filter((kid) => !printed.kids.includes(kid))),
    gone: printed.kids.filter((kid) => !listed.includes(kid)).length,
  };
}
