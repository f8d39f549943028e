/** What a column of a keeper's list may hold. */
export const LIST_COLUMNS = [
  "name",
  "tag",
  "chip",
  "sex",
  "born",
  "breed",
  "dam",
  "sire",
  "head",
  "kidded",
  "note",
  "left",
  "why",
  "id",
] as const;
export type ListColumn = (typeof LIST_COLUMNS)[number];

/** What each column of a list holds, in the order of the list; `undefined` = it is not brought in. */
export type ColumnMap = readonly (ListColumn | undefined)[];

/** Words of a table of them, with spaces between. */
export const words = (...lines: readonly string[]): readonly string[] => lines.flatMap((line) => line.split(" "));

/**
 * Headings that keepers write above their columns, in English, Spanish, French and German, without accents and signs.
 * Common practice, no source.
 */
const HEADINGS: Readonly<Record<ListColumn, readonly string[]>> = {
  name: words("name goat animal goatname animalname nombre cabra nom chevre tiername ziege"),
  tag: words(
    "tag eartag tagnumber tagno tagid number no nr num ear earnumber crotal arete caravana",
    "numero boucle numerodeboucle numerodetravail ohrmarke ohrmarkennummer ohrnummer nummer",
    "tiernummer",
  ),
  chip: words(
    "chip microchip chipnumber chipno eid rfid electronicid transponder microchipnumero",
    "identificacionelectronica puce numerodepuce chipnummer transpondeur",
  ),
  sex: words("sex gender sexo genero sexe geschlecht"),
  born: words(
    "born birth birthdate birthday dateofbirth dob bdate nacimiento",
    "fechadenacimiento fnacimiento fechanacimiento nacido nacida naissance datedenaissance",
    "datenaissance ne nee nele neele geboren geburtsdatum geburtstag geburt gebdatum",
  ),
  breed: words("breed raza race rasse"),
  dam: words("dam mother damname damtag madre mere mutter"),
  sire: words("sire father sirename siretag padre pere vater"),
  head: words(
    "head horn horns horned polled hornstatus hornedpolled polledhorned cuernos mocho mocha",
    "astado cornes cornage horner hornlos gehornt hornung kopf",
  ),
  kidded: words(
    "kidded haskidded kiddings numberofkiddings freshened hasfreshened freshenings parity",
    "parida haparido parto partos numerodepartos misebas amisbas misesbas nombredemisesbas",
    "gekitzt hatgekitzt kitzungen anzahlkitzungen ablammungen",
  ),
  note: words(
    "note notes remark remarks comment comments nota notas observaciones comentarios remarque",
    "remarques commentaires observations bemerkung bemerkungen notiz notizen",
  ),
  left: words(
    "left leftherd dateleft leftdate exitdate datesold departure baja fechadebaja",
    "fechadesalida sortie datedesortie abgang abgangsdatum",
  ),
  why: words("why whyleft reason status motivo estado motif statut grund abgangsgrund"),
  id: words("id pollardid"),
};

const COLUMN_OF: ReadonlyMap<string, ListColumn> = new Map(
  LIST_COLUMNS.flatMap((column) => HEADINGS[column].map((word) => [word, column] as const)),
);

/** A word as it is compared: without case, accents, spaces and signs. */
export const plainWord = (text: string): string =>
  text
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replace(/[^\p{L}\p{N}?♀♂]/gu, "");

/** What goats are found by: a word without case, accents, spaces and signs, unless nothing is left of it. */
export const callKey = (text: string): string => plainWord(text) || text.trim().toLowerCase();

/**
 * What each column seems to hold, by its heading; a first offer, which the keeper corrects.
 *
 * A column called "id" is the tag where no other column is: what a list calls so is what its goats are called by.
 */
export function guessedColumns(headings: readonly string[]): ColumnMap {
  const guessed = headings.map((heading) => COLUMN_OF.get(plainWord(heading.replace(/\(.*\)/, ""))));
  const tagless = !guessed.includes("tag");
  const offered = guessed.map((column) => (column === "id" && tagless ? "tag" : column));
  return offered.map((column, at) => (offered.indexOf(column) === at ? column : undefined));
}
