import { probability } from "@pollard/base";
import type { PolledBelief } from "@pollard/genetics";
import fc from "fast-check";
import type { HeadKid, HeadReading } from "./heads/head-network.ts";
import { BUD_FEELS, CROWNS, type HeadSigns, NO_FINDINGS, type Sided, SKIN_HOLDS, WHORLS } from "./heads/head-signs.ts";

/** A belief from three weights. */
export function aBelief(PP: number, Pp: number, pp: number): PolledBelief {
  const sum = PP + Pp + pp;
  return { PP: probability(PP / sum), Pp: probability(Pp / sum), pp: probability(pp / sum) };
}

/** A doeling, unless said otherwise. */
export const aHeadKid = (part: Partial<HeadKid> = {}): HeadKid => ({ sex: "doe", ...part });

/** A reading of a three days old kid by Oda with nothing answered, unless said otherwise. */
export const aHeadReading = (part: Partial<HeadReading> = {}): HeadReading => ({
  reading: "r1",
  ageDays: 3,
  reader: "Oda",
  signs: {},
  ...part,
});

const sided = <T extends string>(answers: readonly T[]): fc.Arbitrary<Sided<T>> =>
  fc.oneof(
    fc.constantFrom(...answers).map((both) => ({ both })),
    fc.record({ left: fc.constantFrom(...answers), right: fc.constantFrom(...answers) }, { requiredKeys: [] }),
  );

/** Any answers to the four signs, none of them required. */
export const someSigns = (): fc.Arbitrary<HeadSigns> =>
  fc.record(
    {
      feel: sided([...BUD_FEELS, ...NO_FINDINGS]),
      skin: sided([...SKIN_HOLDS, ...NO_FINDINGS]),
      whorls: sided([...WHORLS, ...NO_FINDINGS]),
      crown: fc.constantFrom(...CROWNS, ...NO_FINDINGS),
    },
    { requiredKeys: [] },
  );

/** Up to three readings at any age to three weeks, some of kids born early or late. */
export const someReadings = (readers: readonly string[] = ["Oda"]): fc.Arbitrary<readonly HeadReading[]> =>
  fc.array(
    fc
      .tuple(
        someSigns(),
        fc.integer({ min: 0, max: 21 }),
        fc.option(fc.integer({ min: -10, max: 10 })),
        fc.constantFrom(...readers),
        fc.nat(9999),
      )
      .map(([signs, ageDays, early, reader, n]) => ({
        reading: `r${n}`,
        ageDays,
        ...(early === null ? {} : { fromDueDays: ageDays + early }),
        reader,
        signs,
      })),
    { maxLength: 3 },
  );
