import {
  BUD_FEELS,
  CROWNS,
  type HeadReading,
  type HeadSigns,
  type Sided,
  SIGNS,
  SKIN_HOLDS,
  WHORLS,
} from "@pollard/husbandry";
import type { ReadersApart } from "./kid-models.ts";

/** What a reading says of a sign, side by side; `undefined` where it did not get so far. */
export function findingOf(signs: HeadSigns, sign: keyof HeadSigns): Sided<string> | undefined {
  const found = signs[sign];
  return typeof found === "string" ? { both: found } : found;
}

/** Days between two looks within which a bud is taken for the same; whorls and crown do not change. */
const SAME_BUD_DAYS = 1;

/**
 * Where two readers of one head lean opposite ways: one towards horns, the other towards hornless.
 *
 * Each reader's latest answer counts. Buds and skin change, so looks at them are only compared within a day of each other.
 *
 * Source: rule AD-26.
 */
export function readersApart(readings: readonly HeadReading[]): readonly ReadersApart[] {
  return SIGNS.flatMap((sign): ReadersApart[] => {
    const latest = new Map<string, ReadersApart["readings"][number]>();
    for (const { reader, ageDays, signs } of readings) {
      const finding = findingOf(signs, sign);
      if (finding !== undefined) latest.set(reader, { by: reader, ageDays, finding });
    }
    const said = [...latest.values()];
    const differ = said.some((a) =>
      said.some(
        (b) =>
          (sign === "whorls" || sign === "crown" || Math.abs(a.ageDays - b.ageDays) <= SAME_BUD_DAYS) &&
          SIDES.some((side) => leanOf(sign, a.finding, side) * leanOf(sign, b.finding, side) < 0),
      ),
    );
    return differ ? [{ sign, readings: said }] : [];
  });
}

const SIDES = ["left", "right"] as const;
const ANSWERS: Readonly<Record<keyof HeadSigns, readonly string[]>> = {
  feel: BUD_FEELS,
  skin: SKIN_HOLDS,
  whorls: WHORLS,
  crown: CROWNS,
};

/** Which way an answer leans: the lists run from polled to horned, and what stands in their middle leans nowhere. */
function leanOf(sign: keyof HeadSigns, finding: Sided<string>, side: "left" | "right"): number {
  const answers = ANSWERS[sign];
  const at = answers.indexOf(("both" in finding ? finding.both : finding[side]) ?? "");
  return at < 0 ? 0 : Math.sign(at - (answers.length - 1) / 2);
}
