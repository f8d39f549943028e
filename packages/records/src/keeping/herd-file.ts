import { type Day, parseDay } from "@pollard/base";
import * as v from "valibot";
import { canonicalText } from "./canonical-text.ts";
import { crc32 } from "./crc32.ts";
import { type Entry, entryJson, isTooNew, type TooNewEntry } from "../entry/entry.ts";
import type { EntryId, HerdId } from "../entry/ids.ts";
import { parseEntry } from "../entry/parse.ts";
import type { ParseProblem } from "../entry/parse-problem.ts";

/** The version of the file format that is written here. */
export const HERD_FILE_VERSION = 1;

/** The first line of a herd file. What other programs add to it is kept. */
export interface HerdFileHeader {
  readonly herd?: HerdId;
  /** When the file was written, UTC, as its writer's clock had it. */
  readonly written?: string;
  /** The day on which the story of a demonstration herd stands still. */
  readonly asOf?: Day;
}

/** What a file that is no herd file looks like. */
export type FileLook = "empty" | "csv" | "json" | "zip" | "binary" | "text";

/** What is wrong with a herd file. Everything that can be read is read all the same. Lines count from 1. */
export type FileProblem =
  | { readonly code: "not-a-herd-file"; readonly looks: FileLook }
  | { readonly code: "no-header" }
  | { readonly code: "newer-format"; readonly version: number }
  | {
      readonly code: "line-unreadable";
      readonly line: number;
      readonly reason: ParseProblem | { readonly code: "not-json" };
    }
  | { readonly code: "cut-short"; readonly line: number }
  | { readonly code: "damaged"; readonly line: number; readonly sealed: Seal; readonly found: Seal }
  | { readonly code: "other-herd"; readonly line: number; readonly herd: HerdId; readonly own: HerdId }
  | { readonly code: "one-id-twice"; readonly line: number; readonly first: number; readonly entry: EntryId };

/** How many entries a file holds, and the checksum of their lines, each with its line end. */
export interface Seal {
  readonly entries: number;
  readonly crc32: string;
}

/** What a backup file holds, as far as it can be read. */
export interface HerdFile {
  /** `undefined` where the file has none. */
  readonly header: HerdFileHeader | undefined;
  /** In the order of the file; the same entry twice is there once. */
  readonly entries: readonly (Entry | TooNewEntry)[];
  readonly problems: readonly FileProblem[];
}

const FORMAT = "pollard-herd";
/** A byte order mark, which some editors put in front. */
const MARK = "\uFEFF";
const EMPTY: Seal = { entries: 0, crc32: crc32("") };

/** How far into a file that is no herd file we look for signs of what it is. */
const LOOKED_AT = 2000;

const text = v.pipe(v.string(), v.minLength(1), v.maxLength(80));
const count = v.pipe(v.number(), v.safeInteger(), v.minValue(0));

const headerLine = v.looseObject({
  format: v.literal(FORMAT),
  version: v.pipe(count, v.minValue(1)),
  herd: v.exactOptional(text),
  written: v.exactOptional(text),
  asOf: v.exactOptional(
    v.pipe(
      v.string(),
      v.check((day) => parseDay(day) !== undefined),
    ),
  ),
});

const sealLine = v.strictObject({
  seal: v.strictObject({ entries: count, crc32: v.pipe(v.string(), v.regex(/^[0-9a-f]{8}$/)) }),
});

const sealedWith = (seal: Seal, line: string): Seal => ({
  entries: seal.entries + 1,
  crc32: crc32(`${line}\n`, seal.crc32),
});

/**
 * A backup: a header, one entry a line, and a seal that shows whether the file is whole. JSON Lines in UTF-8.
 *
 * @example
 * writeHerdFile([], { herd: "h1" as HerdId }).split("\n")[0]; // '{"format":"pollard-herd","version":1,"herd":"h1"}'
 */
export function writeHerdFile(entries: Iterable<Entry | TooNewEntry>, header: HerdFileHeader): string {
  const lines = [JSON.stringify({ format: FORMAT, version: HERD_FILE_VERSION, ...header })];
  let seal = EMPTY;
  for (const entry of entries) {
    const line = JSON.stringify(entryJson(entry));
    seal = sealedWith(seal, line);
    lines.push(line);
  }
  return `${lines.join("\n")}\n${JSON.stringify({ seal })}\n`;
}

/** One line of a file, as far as it can be understood without its neighbours. */
type Line =
  | { readonly kind: "header"; readonly header: HerdFileHeader; readonly version: number }
  | { readonly kind: "seal"; readonly seal: Seal }
  | { readonly kind: "entry"; readonly entry: Entry | TooNewEntry }
  | { readonly kind: "unreadable"; readonly reason: ParseProblem | { readonly code: "not-json" } };

/**
 * What a herd file holds, and what is wrong with it.
 *
 * Reads what can be read: a bad line never hides the good ones, and a file without header or seal still gives its entries.
 * Line ends of any system, empty lines and a byte order mark make no difference. Files put one after the other are read
 * as one. Reading the same file twice adds nothing, since each entry has its id.
 *
 * Errors: none; whatever the text is, there is an answer.
 */
export function readHerdFile(text: string): HerdFile {
  const problems: FileProblem[] = [];
  const entries: (Entry | TooNewEntry)[] = [];
  const first = new Map<EntryId, { readonly at: number; readonly entry: Entry | TooNewEntry }>();
  let header: HerdFileHeader | undefined;
  let seal = EMPTY;
  let part: "before" | "open" | "sealed" = "before";
  let at = 0;
  for (const raw of text.replace(MARK, "").split("\n")) {
    at += 1;
    const content = raw.trim();
    if (content === "") continue;
    const line = lineIn(content);
    if (line.kind === "header") {
      if (part === "open") problems.push({ code: "cut-short", line: at });
      if (line.version > HERD_FILE_VERSION) problems.push({ code: "newer-format", version: line.version });
      header ??= line.header;
      [part, seal] = ["open", EMPTY];
      continue;
    }
    if (part === "before") problems.push({ code: "no-header" });
    if (line.kind === "seal") {
      const whole = line.seal.entries === seal.entries && line.seal.crc32 === seal.crc32;
      if (!whole) problems.push({ code: "damaged", line: at, sealed: line.seal, found: seal });
      [part, seal] = ["sealed", EMPTY];
      continue;
    }
    part = "open";
    seal = sealedWith(seal, content);
    if (line.kind === "unreadable") problems.push({ code: "line-unreadable", line: at, reason: line.reason });
    else take(line.entry);
  }
  if (header === undefined && entries.length === 0) return notAHerdFile(text);
  if (part === "open") problems.push({ code: "cut-short", line: at });
  return { header, entries, problems };

  function take(entry: Entry | TooNewEntry): void {
    const { id } = entry;
    const before = first.get(id);
    if (before && canonicalText(entryJson(before.entry)) === canonicalText(entryJson(entry))) return;
    entries.push(entry);
    if (before) problems.push({ code: "one-id-twice", line: at, first: before.at, entry: id });
    else first.set(id, { at, entry });
    const own = header?.herd;
    if (!isTooNew(entry) && own !== undefined && entry.herd !== own)
      problems.push({ code: "other-herd", line: at, herd: entry.herd, own });
  }
}

const notAHerdFile = (text: string): HerdFile => ({
  header: undefined,
  entries: [],
  problems: [{ code: "not-a-herd-file", looks: lookOf(text.replace(MARK, "")) }],
});

function lookOf(text: string): FileLook {
  const [firstLine = ""] = text.trimStart().split("\n", 1);
  if (firstLine === "") return "empty";
  if (text.startsWith("PK\u0003\u0004")) return "zip";
  if (/[^\t-\uFFFC\uFFFE\uFFFF]/.test(text.slice(0, LOOKED_AT))) return "binary";
  if (/^[[{]/.test(firstLine)) return "json";
  return /[,;\t]/.test(firstLine) ? "csv" : "text";
}

function lineIn(content: string): Line {
  const json = parsedJson(content);
  if (json === undefined) return { kind: "unreadable", reason: { code: "not-json" } };
  const header = v.safeParse(headerLine, json);
  if (header.success) {
    const { format: _, version, ...more } = header.output;
    return { kind: "header", header: more as object, version };
  }
  const seal = v.safeParse(sealLine, json);
  if (seal.success) return { kind: "seal", seal: seal.output.seal };
  const entry = parseEntry(json);
  return entry.ok ? { kind: "entry", entry: entry.value } : { kind: "unreadable", reason: entry.error };
}

function parsedJson(content: string): unknown {
  try {
    return JSON.parse(content);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
