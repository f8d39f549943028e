import { err, ok, type Result } from "@pollard/base";
import { signsOf, utf8Text } from "./utf8.ts";

/** How the letters of a file are written. `windows-1252` is what older spreadsheets of western Europe write. */
export type Encoding = "utf-8" | "utf-16" | "windows-1252";

/** A file's text, and how its letters were written. Where that is `windows-1252` it is a guess, and is said. */
export interface TableText {
  readonly text: string;
  readonly encoding: Encoding;
}

/** Why a file is no table: a spreadsheet program's own file, something else that is no text, nothing at all, or too much. */
export type BytesProblem = "spreadsheet" | "not-text" | "empty" | "too-large";

/** Most bytes of a list. Twenty thousand goats with long notes come to about a fifth of it. */
export const LIST_BYTES = 20_000_000;

/** The signs 0x80 to 0x9f of Windows-1252; the five that it leaves open stand for themselves. Source: [whatwg-encoding]. */
const WINDOWS_1252 =
  "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f" +
  "\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";

/** What a spreadsheet program's own file begins with: packed (zip), or the compound file of older ones. */
const OWN_FILES = ["PK\u0003\u0004", "\u00d0\u00cf\u0011\u00e0"] as const;

/**
 * The text of a list's bytes: UTF-8 where they are that, UTF-16 where they begin with its mark, else Windows-1252.
 *
 * Errors: a spreadsheet's own file, anything with bytes that no text has, an empty file, one beyond `LIST_BYTES`.
 */
export function tableText(bytes: Uint8Array): Result<TableText, BytesProblem> {
  if (bytes.length === 0) return err("empty");
  if (bytes.length > LIST_BYTES) return err("too-large");
  const start = signsOf(bytes.subarray(0, 4));
  if (OWN_FILES.some((sign) => start.startsWith(sign))) return err("spreadsheet");
  if (start.startsWith("\u00ff\u00fe")) return ok({ text: utf16(bytes.subarray(2), 1), encoding: "utf-16" });
  if (start.startsWith("\u00fe\u00ff")) return ok({ text: utf16(bytes.subarray(2), 0), encoding: "utf-16" });
  if (bytes.includes(0)) return err("not-text");
  const text = utf8Text(bytes);
  if (text !== undefined) return text.trim() === "" ? err("empty") : ok({ text, encoding: "utf-8" });
  const signs = signsOf(bytes).replace(/[\u0080-\u009f]/g, (sign) => WINDOWS_1252[sign.charCodeAt(0) - 0x80] ?? sign);
  return ok({ text: signs, encoding: "windows-1252" });
}

/** Pairs of bytes as text; `high` is the place of the higher byte in a pair. */
function utf16(bytes: Uint8Array, high: 0 | 1): string {
  let text = "";
  for (let at = 0; at + 1 < bytes.length; at += 2)
    text += String.fromCharCode((bytes[at + high] ?? 0) * 256 + (bytes[at + 1 - high] ?? 0));
  return text;
}
