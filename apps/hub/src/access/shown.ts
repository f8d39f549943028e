/*
 * What a keeper's device hands over to be shown to somebody outside, checked by hand: the hub has no schema of goats, and
 * this is plain text in a few shapes. Whatever is not asked for here is left out, so that nothing else of a herd can be shown.
 */

/** A piece of a paper, from top to bottom; the words in it are said already. */
export type PaperBlock =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "text"; readonly text: string; readonly weight: "plain" | "strong" }
  | { readonly kind: "warning"; readonly lines: readonly string[] }
  | { readonly kind: "facts"; readonly rows: readonly (readonly [string, string])[] }
  | { readonly kind: "table"; readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: "list"; readonly items: readonly string[] };

/** One kid's paper. */
export interface Paper {
  readonly language: string;
  readonly title: string;
  readonly herd: string;
  readonly asOf: string;
  readonly blocks: readonly PaperBlock[];
}

/** Whom a vet is to see on a day: each kid with what must be known of it, and the cautions for all. */
export interface Visit {
  readonly herd: string;
  readonly kids: readonly { readonly kid: string; readonly name: string; readonly lines: readonly string[] }[];
  readonly cautions: readonly string[];
}

const LONGEST_TEXT = 4000;
const MOST_PARTS = 500;

/** Thrown and caught within this file: the shape does not fit. */
class Unfit extends Error {}

const textIn = (json: unknown): string => {
  if (typeof json !== "string" || json.length > LONGEST_TEXT) throw new Unfit();
  return json;
};
const allOf = <T>(json: unknown, each: (part: unknown) => T): readonly T[] => {
  if (!Array.isArray(json) || json.length > MOST_PARTS) throw new Unfit();
  return json.map(each);
};
const fieldsOf = (json: unknown): Readonly<Record<string, unknown>> => {
  if (typeof json !== "object" || json === null || Array.isArray(json)) throw new Unfit();
  return json as Readonly<Record<string, unknown>>;
};
const textsIn = (json: unknown): readonly string[] => allOf(json, textIn);

function pairIn(json: unknown): readonly [string, string] {
  const [name, value, more] = textsIn(json);
  if (name === undefined || value === undefined || more !== undefined) throw new Unfit();
  return [name, value];
}

/** A piece as it is shown on a screen; empty rows and lines to write on are for paper alone. */
function blockIn(json: unknown): PaperBlock | undefined {
  const part = fieldsOf(json);
  switch (part["kind"]) {
    case "heading":
      return { kind: "heading", text: textIn(part["text"]) };
    case "text":
      return { kind: "text", text: textIn(part["text"]), weight: part["weight"] === "strong" ? "strong" : "plain" };
    case "warning":
      return { kind: "warning", lines: textsIn(part["lines"]) };
    case "facts":
      return { kind: "facts", rows: allOf(part["rows"], pairIn) };
    case "table":
      return {
        kind: "table",
        columns: allOf(part["columns"], (column) => textIn(fieldsOf(column)["title"])),
        rows: allOf(part["rows"], textsIn),
      };
    case "list":
      return { kind: "list", items: textsIn(part["items"]) };
    case "lines":
      return undefined;
    default:
      throw new Unfit();
  }
}

function orNothing<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof Unfit) return undefined;
    throw error;
  }
}

/** The paper that a piece of JSON is; nothing where it is none. A sheet as it is printed is one. */
export const paperIn = (json: unknown): Paper | undefined =>
  orNothing(() => {
    const sheet = fieldsOf(json);
    const language = textIn(sheet["language"]);
    if (!/^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$/.test(language)) throw new Unfit();
    return {
      language,
      title: textIn(sheet["title"]),
      herd: textIn(sheet["herd"]),
      asOf: textIn(sheet["asOf"]),
      blocks: allOf(sheet["blocks"], blockIn).filter((block) => block !== undefined),
    };
  });

/** The list for a visit that a piece of JSON is; nothing where it is none. */
export const visitIn = (json: unknown): Visit | undefined =>
  orNothing(() => {
    const visit = fieldsOf(json);
    return {
      herd: textIn(visit["herd"]),
      kids: allOf(visit["kids"], (part) => {
        const kid = fieldsOf(part);
        return { kid: textIn(kid["kid"]), name: textIn(kid["name"]), lines: textsIn(kid["lines"]) };
      }),
      cautions: textsIn(visit["cautions"]),
    };
  });
