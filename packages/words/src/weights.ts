import { typedWeight, weightIn, type WeightUnit } from "@pollard/base";

/** A figure that is only expected, with the range it most likely lies in. */
interface Between {
  readonly low: number;
  readonly high: number;
}

/** How weights are said in one language and one unit. All of them are kept, and taken here, in kilograms. */
export interface WeightWords {
  readonly unit: WeightUnit;
  /** A weight that somebody wrote down, with its unit: as finely as it may be typed. */
  readonly said: (kg: number) => string;
  /** The same without the unit, for a column whose head names it. */
  readonly figure: (kg: number) => string;
  /** A weight that was worked out: one decimal. */
  readonly about: (kg: number) => string;
  /** A weight that is expected, as a range: one figure would claim too much. */
  readonly between: (kg: Between) => string;
  /** What is gained in a day. */
  readonly gain: (kgADay: number) => string;
  /** The same with its range, where the column says that it is a day's. */
  readonly gainBetween: (kgADay: Between & { readonly mean: number }) => string;
  /**
   * What the vet is told: kilograms whatever the phone shows, with the phone's own unit behind. What the vet gives is
   * reckoned by kilograms, so a bare figure in another unit could hurt.
   */
  readonly forVet: Pick<WeightWords, "said" | "between">;
}

/** What a language adds to figures of weight. */
interface Tongue {
  readonly number: (n: number, places: number) => string;
  readonly to: string;
  readonly aDay: string;
}

/** How a language says weights in a unit. */
export function weightWords(unit: WeightUnit, { number, to, aDay }: Tongue): WeightWords {
  const figure = (kg: number): string => {
    const typed = typedWeight(kg, unit);
    return number(typed, Number.isInteger(Math.round(typed * 100) / 10) ? 1 : 2);
  };
  const said = (kg: number): string => `${figure(kg)} ${unit}`;
  const about = (kg: number): string => `${number(weightIn(kg, unit), 1)} ${unit}`;
  const between = ({ low, high }: Between): string =>
    `${number(weightIn(Math.max(0, low), unit), 1)} ${to} ${about(high)}`;
  const fine = (kgADay: number): string =>
    unit === "kg" ? `${Math.round(kgADay * 1000)}` : number(weightIn(kgADay, unit), 2);
  const small = unit === "kg" ? "g" : unit;
  const kilograms = unit === "kg" ? undefined : weightWords("kg", { number, to, aDay });
  return {
    unit,
    said,
    figure,
    about,
    between,
    gain: (kgADay) => `${unit === "kg" ? Math.round(kgADay * 100) * 10 : fine(kgADay)} ${small} ${aDay}`,
    gainBetween: ({ mean, low, high }) => `${fine(mean)} ${small} (${fine(low)} ${to} ${fine(high)})`,
    forVet: {
      said: (kg) => (kilograms === undefined ? said(kg) : `${kilograms.said(kg)} (${said(kg)})`),
      between: (kg) => (kilograms === undefined ? between(kg) : `${kilograms.between(kg)} (${between(kg)})`),
    },
  };
}
