import type { Sourced } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import type { Herd } from "@pollard/records";
import { amountSetting } from "../settings.ts";

/** What a season's pairings weigh and keep to. Losses in needless disbuddings, the unit of all losses. */
export interface PairingRules {
  /** A kid with horns, who has to go through the operation. */
  readonly hornedKid: number;
  /** A kid that is intersex, or barren for the same reason. */
  readonly intersexKid: number;
  /** A kid whose parents are so much kin that its inbreeding is 1; a kid of full sibs counts a quarter of it. */
  readonly inbredKid: number;
  /** A doe that has no kids because she or her buck cannot have any. */
  readonly barrenDoe: number;
  /** A doe that is left open; without it every doe is to be served. */
  readonly openDoe: number | undefined;
  /** One point of the keeper's own merit of a parent, per kid. */
  readonly merit: number;
  /** Weight on the mean kinship of all kids of the season. */
  readonly cropKinship: number;
  readonly inbreedingCeiling: number;
  readonly intersexCeiling: number;
  readonly polledTogether: "never" | "allowed";
  /** Does one buck can serve. */
  readonly mostDoes: number;
  readonly bucks: ReadonlyMap<AnimalId, BuckRule>;
  readonly must: readonly Wish[];
  readonly never: readonly Wish[];
  /** The keeper's own points for an animal, for whatever counts on this farm; none counts 0. */
  readonly merits: ReadonlyMap<AnimalId, number>;
}

/** What the keeper said of one buck. */
export interface BuckRule {
  readonly least?: number;
  readonly most?: number;
  readonly cost?: number;
}

/** A doe and a buck that the keeper wants together, or apart. */
export interface Wish {
  readonly doe: AnimalId;
  readonly buck: AnimalId;
}

/**
 * The rules before the keeper has said anything. All judgement, to be argued with: a horned kid weighs as much as a needless
 * disbudding, an intersex kid four of them, a kid of full sibs two; a buck serves up to 30 does in a season (common practice
 * for a grown buck at hand is 25 to 40). Full and half sibs' and parents' matings are closed, and so is more than one
 * intersex kid in fifty.
 */
export const DEFAULT_PAIRING_RULES: Sourced<PairingRules> = {
  value: {
    hornedKid: 1,
    intersexKid: 4,
    inbredKid: 8,
    barrenDoe: 2,
    openDoe: undefined,
    merit: 0.1,
    cropKinship: 0,
    inbreedingCeiling: 0.1,
    intersexCeiling: 0.02,
    polledTogether: "never",
    mostDoes: 30,
    bucks: new Map(),
    must: [],
    never: [],
    merits: new Map(),
  },
  source: "judgement",
  checked: "judgement",
};

/** Where each weight and ceiling stands among the settings. */
export const PAIRING_SETTINGS = {
  "pairing-horned-kid": "hornedKid",
  "pairing-intersex-kid": "intersexKid",
  "pairing-inbred-kid": "inbredKid",
  "pairing-barren-doe": "barrenDoe",
  "pairing-open-doe": "openDoe",
  "pairing-merit": "merit",
  "pairing-crop-kinship": "cropKinship",
  "pairing-most-inbreeding": "inbreedingCeiling",
  "pairing-most-intersex": "intersexCeiling",
  "pairing-most-does": "mostDoes",
} as const satisfies Readonly<Record<string, keyof PairingRules>>;

/** Settings about one animal: the key, a colon, the animal's id. */
export const ANIMAL_SETTINGS = {
  least: "pairing-buck-least",
  most: "pairing-buck-most",
  cost: "pairing-buck-cost",
  merit: "pairing-merit",
  must: "pairing-must",
  never: "pairing-never",
} as const;

/**
 * The keeper's rules as they stand in the settings; what is unset or unusable keeps its default.
 *
 * `pairing-must:DOE` holds one buck's id, `pairing-never:DOE` several, split by commas; `pairing-polled-together` is
 * `allowed` or `never`.
 */
export function pairingRulesOf(herd: Herd): PairingRules {
  const base = DEFAULT_PAIRING_RULES.value;
  const amounts = Object.fromEntries(
    Object.entries(PAIRING_SETTINGS).flatMap(([key, rule]) => {
      const amount = amountSetting(herd, key);
      return amount === undefined ? [] : [[rule, amount]];
    }),
  );
  const bucks = new Map<AnimalId, BuckRule>();
  const merits = new Map<AnimalId, number>();
  const [must, never]: [Wish[], Wish[]] = [[], []];
  for (const [key, value] of herd.settings) {
    const [name, id] = splitOnce(key, ":");
    if (id === undefined) continue;
    const animal = animalId(id);
    if (typeof value === "number") {
      if (!Number.isFinite(value)) continue;
      for (const rule of ["least", "most", "cost"] as const)
        if (name === ANIMAL_SETTINGS[rule] && value >= 0) bucks.set(animal, { ...bucks.get(animal), [rule]: value });
      if (name === ANIMAL_SETTINGS.merit) merits.set(animal, value);
      continue;
    }
    const named = value
      .split(",")
      .map((text) => text.trim())
      .filter((text) => text !== "");
    if (name === ANIMAL_SETTINGS.must) must.push(...named.slice(0, 1).map((b) => ({ doe: animal, buck: animalId(b) })));
    if (name === ANIMAL_SETTINGS.never) never.push(...named.map((b) => ({ doe: animal, buck: animalId(b) })));
  }
  const polledTogether = herd.settings.get("pairing-polled-together") === "allowed" ? "allowed" : "never";
  return { ...base, ...amounts, polledTogether, bucks, merits, must, never };
}

function splitOnce(text: string, at: string): readonly [string, string | undefined] {
  const place = text.indexOf(at);
  return place < 0 ? [text, undefined] : [text.slice(0, place), text.slice(place + 1)];
}
