import type { KeptKid } from "@pollard/advice";

export const KEPT_COLUMNS = [
  "goat",
  "born",
  "open",
  "closed",
  "genes",
  "inbreeding",
  "litter",
  "dam",
  "damKids",
  "weight",
  "gain",
] as const;
export type KeptColumn = (typeof KEPT_COLUMNS)[number];

/** Columns of figures, which stand right-aligned. */
export const KEPT_NUMBERS: ReadonlySet<KeptColumn> = new Set(["inbreeding", "litter", "damKids", "weight", "gain"]);

/** What a young goat is sorted by in a column; what is not known comes last. No column adds others up: there is no score. */
export function keptValue(kid: KeptKid, column: KeptColumn): string | number | undefined {
  switch (column) {
    case "goat":
      return kid.kid.name ?? kid.kid.tag ?? kid.kid.damName;
    case "born":
      return kid.born;
    case "open":
      return kid.open.length;
    case "closed":
      return kid.closed.find(({ why }) => why !== "not-a-buckling")?.why;
    case "genes":
      return kid.genotype && kid.genotype.belief.PP + kid.genotype.belief.Pp;
    case "inbreeding":
      return kid.inbreeding;
    case "litter":
      return kid.litter;
    case "dam":
      return kid.dam?.name ?? kid.dam?.tag;
    case "damKids":
      return kid.dam && kid.damKids;
    case "weight":
      return kid.weight?.kg;
    case "gain":
      return kid.growth?.gainKgADay.mean;
  }
}
