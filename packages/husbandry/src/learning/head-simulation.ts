import { present, type Random } from "@pollard/base";
import type { PolledGenotype } from "@pollard/genetics";
import { delayedPlaces } from "../heads/bud-courses.ts";
import { breedDelay, type HeadKid, type HeadReading, seeRow, type Sign } from "../heads/head-network.ts";
import { BUD_FEELS, CROWNS, SKIN_HOLDS, WHORLS } from "../heads/head-signs.ts";
import {
  BUD_AGES,
  CLOCKS,
  CROWN_TRUTHS,
  type HeadChances,
  type HeadRow,
  HORNED_STAGES,
  PACE_DAYS,
  PACES,
  POLLED_STAGES,
  WHORL_TRUTHS,
} from "../heads/head-tables.ts";
import { BUCK_SHARE } from "../kid-sex.ts";

/** One invented head, hidden truths and all. */
export interface SimulatedHead {
  readonly genotype: PolledGenotype;
  readonly whorl: (typeof WHORL_TRUTHS)[number];
  readonly crown: (typeof CROWN_TRUTHS)[number];
  /** What lies under the skin on a day of its life. */
  stageOn(
    ageDays: number,
    fromDueDays: number | undefined,
  ): (typeof HORNED_STAGES)[number] | (typeof POLLED_STAGES)[number];
}

/** The place in a row of chances that a draw falls on. */
function drawPlace(chances: readonly number[], random: Random): number {
  let rest = random.next();
  for (const [place, chance] of chances.entries()) {
    rest -= chance;
    if (rest < 0) return place;
  }
  return chances.length - 1;
}

/** Invents the head of a kid of this kind and genotype, as often like this or that as the chances say. */
export function simulateHead(
  kid: HeadKid,
  genotype: PolledGenotype,
  chances: HeadChances,
  random: Random,
): SimulatedHead {
  const draw = (row: HeadRow) => drawPlace(chances.row(row), random);
  const head = genotype === "pp" ? "horned" : "polled";
  const sex = random.next() < BUCK_SHARE[kid.sex] ? "buck" : "doe";
  const whorl = present(WHORL_TRUTHS[draw(`is-whorl ${head}`)], "whorl");
  const crown = present(CROWN_TRUTHS[draw(`is-crown ${head}`)], "crown");
  if (genotype !== "pp") {
    const stage = present(POLLED_STAGES[draw(`is-polled-stage ${genotype} ${sex}`)], "stage");
    return { genotype, whorl, crown, stageOn: () => stage };
  }
  const places = delayedPlaces(draw(`is-bud-age ${sex}`), breedDelay(kid, chances));
  const budAge = present(
    BUD_AGES[
      places[
        drawPlace(
          places.map((p) => p.share),
          random,
        )
      ]?.place ?? 0
    ],
    "bud age",
  );
  const { pointed, tip } = PACE_DAYS.value[present(PACES[draw(`is-pace ${sex}`)], "pace")];
  const clock = CLOCKS[draw("is-clock")];
  const stageOn = (ageDays: number, fromDueDays: number | undefined) => {
    const since = (clock === "due" && fromDueDays !== undefined ? fromDueDays : ageDays) - budAge;
    if (since < 0) return "not-yet";
    if (since < pointed) return "low-bud";
    return since < tip ? "pointed-bud" : "tip";
  };
  return { genotype, whorl, crown, stageOn };
}

/** When and by whom an invented head is read, and which signs they look for. */
export interface SimulatedLook {
  readonly reading: string;
  readonly reader: string;
  readonly ageDays: number;
  readonly fromDueDays?: number;
  readonly signs: readonly Sign[];
}

/** Invents what a reader reports of an invented head: one answer for both sides of each sign looked for. */
export function simulateReading(
  head: SimulatedHead,
  look: SimulatedLook,
  chances: HeadChances,
  random: Random,
): HeadReading {
  const { reading, reader, ageDays, fromDueDays } = look;
  const stage = head.stageOn(ageDays, fromDueDays);
  const reported = <T>(answers: readonly T[], row: HeadRow): T =>
    present(answers[drawPlace(chances.row(row, reader), random)], row);
  const signs = {
    ...(look.signs.includes("feel") ? { feel: { both: reported(BUD_FEELS, seeRow("feel", stage)) } } : {}),
    ...(look.signs.includes("skin") ? { skin: { both: reported(SKIN_HOLDS, seeRow("skin", stage)) } } : {}),
    ...(look.signs.includes("whorls") ? { whorls: { both: reported(WHORLS, `see-whorl ${head.whorl}`) } } : {}),
    ...(look.signs.includes("crown") ? { crown: reported(CROWNS, `see-crown ${head.crown}`) } : {}),
  };
  return { reading, reader, ageDays, signs, ...(fromDueDays === undefined ? {} : { fromDueDays }) };
}
