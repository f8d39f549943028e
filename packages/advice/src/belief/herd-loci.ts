import { err, ok, type Result } from "@pollard/base";
import {
  breedKey,
  type Locus,
  type LocusProblem,
  parseLocus,
  type PedigreeProblem,
  SHIPPED_LOCI,
} from "@pollard/genetics";
import type { Herd } from "@pollard/records";

/** Settings under which a keeper's own loci stand: this and the locus's id. The value is its description as JSON. */
export const LOCUS_SETTING = "locus:";

/**
 * Settings under which the keeper's own founder frequencies stand: this and the locus's id, for every breed; with a colon and
 * the breed (`breedKey`) behind, for that one alone, which goes before. Of two alleles the value may be a number: how many in 100 alleles of unknown parents are the first one. Else it is text: such a
 * number for each allele in the locus's order, with blanks between them, 100 in all. 0 or nothing: the usual ones.
 */
const FREQUENCY_SETTING = "frequency:";

/** The setting that keeps a locus's founder frequencies, for every breed or for one. */
export const frequencyKey = ({ id }: Pick<Locus, "id">, breed?: string): string =>
  `${FREQUENCY_SETTING}${id}${breed === undefined ? "" : `:${breedKey(breed)}`}`;

/** How far from 100 figures may add up that were written with few decimals. */
const SLACK = 0.5;

/**
 * The founder frequencies that the keeper set for a locus, for every breed or for one; `undefined` where none are set, or none
 * that can be.
 */
export function ownFrequencies(
  { settings }: Pick<Herd, "settings">,
  locus: Locus,
  breed?: string,
): readonly number[] | undefined {
  const value = settings.get(frequencyKey(locus, breed));
  if (value === undefined) return undefined;
  const figures = typeof value === "number" ? [value, 100 - value] : value.trim().split(/\s+/).map(Number);
  const sum = figures.reduce((a, b) => a + b, 0);
  const isSound = figures.every((x) => x >= 0 && x < 100) && Math.abs(sum - 100) <= SLACK;
  return isSound && figures.length === locus.alleles.length ? figures.map((x) => x / sum) : undefined;
}

/** The breeds for which the keeper set founder frequencies of a locus. */
function breedsSet({ settings }: Pick<Herd, "settings">, locus: Locus): readonly string[] {
  const start = `${frequencyKey(locus)}:`;
  return [...settings.keys()].filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));
}

/** Founder frequencies that the keeper set in a way that cannot be used: the next usual ones count. */
export const unusableFrequencies = (
  herd: Pick<Herd, "settings">,
  loci: readonly Locus[],
): readonly { readonly locus: Locus; readonly breed: string | undefined }[] =>
  loci.flatMap((locus) =>
    [undefined, ...breedsSet(herd, locus)].flatMap((breed) => {
      const value = herd.settings.get(frequencyKey(locus, breed));
      const isSet = value !== undefined && value !== 0 && value !== "";
      return isSet && ownFrequencies(herd, locus, breed) === undefined ? [{ locus, breed }] : [];
    }),
  );

/** The keeper's own founder frequencies of a locus as an inference takes them. */
export function frequenciesFor(herd: Pick<Herd, "settings">, locus: Locus): Pick<PedigreeProblem, "frequencies"> {
  const everywhere = ownFrequencies(herd, locus);
  const byBreed = breedsSet(herd, locus).flatMap((breed) => {
    const own = ownFrequencies(herd, locus, breed);
    return own === undefined ? [] : [[breed, own] as const];
  });
  if (everywhere === undefined && byBreed.length === 0) return {};
  return { frequencies: { ...(everywhere && { default: everywhere }), breeds: Object.fromEntries(byBreed) } };
}

/** Why a keeper's own locus cannot be used. */
export type LocusSettingProblem =
  | LocusProblem
  | { readonly code: "not-json"; readonly path: string }
  /** Its id is that of a locus that comes with the program. */
  | { readonly code: "comes-with-pollard"; readonly path: string; readonly got: string };

/** The loci of a herd, and what kept a keeper's own from being among them. */
export interface HerdLoci {
  readonly loci: readonly Locus[];
  readonly problems: readonly { readonly locus: string; readonly problem: LocusSettingProblem }[];
}

/**
 * Reads the description of a keeper's own locus. Its id may be left out; given, it must be the one it stands under.
 *
 * Shape: as `parseLocus` of genetics takes it.
 */
export function locusFromText(id: string, text: string): Result<Locus, LocusSettingProblem> {
  if (SHIPPED_LOCI.some((locus) => locus.id === id)) return err({ code: "comes-with-pollard", path: "id", got: id });
  const json = jsonOf(text);
  if (!json.ok) return json;
  const described = json.value;
  if (typeof described !== "object" || described === null || Array.isArray(described)) return parseLocus(described);
  const locus = parseLocus({ id, ...described });
  if (locus.ok && locus.value.id !== id)
    return err({ code: "not-one-of", path: "id", got: locus.value.id, allowed: [id] });
  return locus;
}

function jsonOf(text: string): Result<unknown, LocusSettingProblem> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch (cause) {
    if (cause instanceof SyntaxError) return err({ code: "not-json", path: "$" });
    throw cause;
  }
}

/**
 * Every locus this herd can be asked about: those that come with the program, then the keeper's own.
 *
 * A description that cannot be used is a problem of its own and takes nothing else away; an empty one is a locus no longer
 * wanted.
 *
 * Source: rule AD-51.
 */
export function herdLoci({ settings }: Herd): HerdLoci {
  const loci = [...SHIPPED_LOCI];
  const problems: { locus: string; problem: LocusSettingProblem }[] = [];
  for (const [key, value] of settings) {
    if (!key.startsWith(LOCUS_SETTING) || value === "") continue;
    const id = key.slice(LOCUS_SETTING.length);
    const read = locusFromText(id, String(value));
    if (read.ok) loci.push(read.value);
    else problems.push({ locus: id, problem: read.error });
  }
  return { loci, problems };
}
