import type { BodyOf, GrownHead, Sex } from "../entry/entry-kinds.ts";
import { plainWord, words } from "./list-columns.ts";

export type Why = BodyOf<"departure">["why"];

/*
 * What keepers write into cells, in English, Spanish, French and German, as `plainWord` leaves it.
 * Common practice, no source.
 */
const SEXES: Readonly<Record<Sex, readonly string[]>> = {
  doe: words(
    "doe doeling female f nanny ♀ hembra h cabra chiva cabrita femelle chevre chevrette",
    "weiblich w ziege geiss",
  ),
  buck: words("buck buckling male m billy ♂ macho chivo semental cabrito bouc mannlich bock"),
  wether: words("wether castrated castrate castrado capon castre kastrat kastriert hammel"),
  intersex: words("intersex hermaphrodite intersexual hermafrodita intersexue zwitter"),
  unsure: words("unsure unknown ? desconocido inconnu unbekannt"),
};

const HEADS: Readonly<Record<GrownHead, readonly string[]>> = {
  polled: words(
    "polled hornless naturallypolled mocho mocha sincuernos acorne sanscornes motte hornlos",
    "genetischhornlos genetichornlos",
  ),
  horned: words("horned horns concuernos cornudo cornuda astado astada cornu cornue gehornt behornt"),
  disbudded: words("disbudded dehorned disbud descornado descornada desbotonado ecorne ecornee enthornt"),
  unsure: words("unsure unknown ? desconocido inconnu unbekannt"),
};

const WHYS: Readonly<Record<Why | "here" | "born-dead", readonly string[]>> = {
  sold: words("sold vendido vendida vendu vendue verkauft"),
  died: words("died dead muerto muerta mort morte tot gestorben verendet"),
  slaughtered: words("slaughtered butchered sacrificado sacrificada abattu abattue geschlachtet"),
  lent: words("lent loaned prestado prestada prete pretee verliehen"),
  other: words("other otro otra autre andere gone left"),
  here: words("here active present alive activo activa viva vivo presente actif aktiv da"),
  "born-dead": words("borndead stillborn"),
};

const YES = ["yes", "y", "true", "x", "si", "s", "oui", "o", "vrai", "ja", "j", "1"];
const NO = ["no", "n", "false", "non", "faux", "nein", "0"];

const found = <K extends string>(table: Readonly<Record<K, readonly string[]>>, cell: string): K | undefined => {
  const word = plainWord(cell);
  return (Object.keys(table) as K[]).find((key) => table[key].includes(word));
};

/**
 * Whether a cell says that a doe has kidded: yes or no, or how many times, and "unknown" where it says that nobody knows;
 * `undefined` where it is none of them.
 */
export function kiddedIn(cell: string): "yes" | "no" | "unknown" | undefined {
  const word = plainWord(cell);
  if (NO.includes(word)) return "no";
  if (YES.includes(word) || /^\d{1,2}$/.test(word)) return "yes";
  return isUnknown(cell) ? "unknown" : undefined;
}

/** Words for what nobody knows, such as a parent. */
const UNKNOWN = new Set(["", ...words("? unknown unk na none 0 desconocido desconocida inconnu inconnue unbekannt")]);

/** Does a cell say that it is not known? */
export const isUnknown = (cell: string): boolean => UNKNOWN.has(plainWord(cell));

/** The sex that a cell tells; `undefined` where it is no word for one. */
export const sexIn = (cell: string): Sex | undefined => found(SEXES, cell);

/** Why a goat left, or that it is here or was born dead. */
export const whyIn = (cell: string): Why | "here" | "born-dead" | undefined => found(WHYS, cell);

/**
 * What a cell says of a grown head. A bare "yes" means what its heading asks; a bare "no" leaves it open: a head without
 * horns may be polled or disbudded, and one that is not polled may be horned or disbudded.
 */
export function headIn(cell: string, heading: string): GrownHead | "open" | undefined {
  const said = found(HEADS, cell);
  if (said !== undefined) return said;
  const word = plainWord(cell);
  if (NO.includes(word)) return "open";
  if (!YES.includes(word)) return undefined;
  const asked = plainWord(heading);
  if (found(HEADS, asked) === "polled") return "polled";
  return ["horn", "horns", "horned", "cuernos", "astado", "cornes", "horner", "gehornt"].includes(asked)
    ? "horned"
    : "open";
}
