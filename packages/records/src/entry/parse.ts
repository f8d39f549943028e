import { err, ok, type Result } from "@pollard/base";
import * as v from "valibot";
import { ENTRY_VERSION, type Entry, type TooNewEntry } from "./entry.ts";
import { ENTRY_SCHEMAS, nameText } from "./entry-schema.ts";
import type { EntryId } from "./ids.ts";
import type { ParseProblem, Shown } from "./parse-problem.ts";

/** Deepest nesting an entry may have. Ours have five levels; a hub takes in 32, of which a push needs some. */
const DEPTH_LIMIT = 24;
/** Most an entry may hold: characters of text plus values. A note has at most 4,000; photos lie beside the ledger. */
const SIZE_LIMIT = 64_000;
/** Longest piece of a refused text that is shown. */
const SHOWN_LIMIT = 80;

/** What every entry has that is to be kept: of a later version no more is asked. */
const laterName = v.object({ id: nameText });
const anyName = v.object({ id: nameText, kind: nameText });

/**
 * The entry that a piece of JSON is, or why it is none.
 *
 * The one door: outside it no code handles an entry that has not come through here. The object given is itself the
 * answer, so fields that this version does not know are kept and passed on. A later version, a kind that is not known
 * here, or a correction to such a kind gives a `TooNewEntry`.
 *
 * Errors: a coded problem with the path of the first thing that is wrong; never throws, whatever it is given as JSON.
 */
export function parseEntry(json: unknown): Result<Entry | TooNewEntry, ParseProblem> {
  const unfit = unfitForJson(json);
  if (unfit) return err(unfit);
  if (!isObject(json)) return err({ code: "wrong-type", path: "", got: shown(json) });
  const version = json["v"];
  if (version === undefined) return err({ code: "missing", path: "v" });
  if (typeof version !== "number") return err({ code: "wrong-type", path: "v", got: shown(version) });
  if (!Number.isSafeInteger(version) || version < 1) return err({ code: "out-of-range", path: "v", got: version });
  const later = version > ENTRY_VERSION;
  const name = v.safeParse(later ? laterName : anyName, json, { abortEarly: true });
  if (!name.success) return err(problemOf(name.issues[0], []));
  const schema = ENTRY_SCHEMAS.get(String(json["kind"]));
  if (later || !schema || correctsLaterKind(json)) return ok({ id: name.output.id as EntryId, tooNew: json });
  const read = v.safeParse(schema, json, { abortEarly: true });
  if (!read.success) return err(problemOf(read.issues[0], []));
  const list = listForObject(json, read.output, []);
  return list === undefined ? ok(json as unknown as Entry) : err({ code: "wrong-type", path: list, got: "list" });
}

type JsonObject = Readonly<Record<string, unknown>>;

const isObject = (json: unknown): json is JsonObject =>
  typeof json === "object" && json !== null && !Array.isArray(json);

/** Does a correction put a fact in place whose kind only a later version knows? */
function correctsLaterKind(entry: JsonObject): boolean {
  const body = entry["body"];
  if (entry["kind"] !== "replace" || !isObject(body) || !isObject(body["fact"])) return false;
  const kind = body["fact"]["kind"];
  return typeof kind === "string" && kind !== "" && !ENTRY_SCHEMAS.has(kind);
}

/** Where a list stands in the place of an object without required fields, which the schema lets through. */
function listForObject(given: unknown, read: unknown, path: readonly string[]): string | undefined {
  if (typeof read !== "object" || read === null) return undefined;
  if (Array.isArray(given) && !Array.isArray(read)) return path.join(".");
  for (const [key, part] of Object.entries(read)) {
    const found = listForObject((given as JsonObject)[key], part, [...path, key]);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What keeps a value from being written out as JSON, here or on the smallest device; loops in it are too deep. */
function unfitForJson(json: unknown): ParseProblem | undefined {
  let size = 0;
  const walk = (value: unknown, depth: number): ParseProblem | undefined => {
    size += 1 + (typeof value === "string" ? value.length : 0);
    if (size > SIZE_LIMIT) return { code: "too-long", path: "", limit: SIZE_LIMIT };
    if (value === null || typeof value === "string" || typeof value === "boolean" || Number.isFinite(value)) return;
    if (typeof value !== "object") return { code: "wrong-type", path: "", got: shown(value) };
    if (depth === DEPTH_LIMIT) return { code: "too-deep", path: "", limit: DEPTH_LIMIT };
    for (const key of Object.keys(value)) {
      size += key.length;
      const found = walk((value as JsonObject)[key], depth + 1);
      if (found?.code === "wrong-type") return { ...found, path: found.path === "" ? key : `${key}.${found.path}` };
      if (found) return found;
    }
    return;
  };
  return walk(json, 0);
}

/** A refused value, cut to what can be shown: texts and numbers themselves, of anything else its sort. */
function shown(value: unknown): Shown {
  if (typeof value === "string") return value.slice(0, SHOWN_LIMIT);
  if (value === null || typeof value === "boolean" || Number.isFinite(value)) return value as Shown;
  return Array.isArray(value) ? "list" : typeof value;
}

type Issue = v.BaseIssue<unknown>;

/** Our word for what the schema found, at the path under `above`. */
function problemOf(issue: Issue, above: readonly string[]): ParseProblem {
  const keys = [...above, ...(issue.path ?? []).map((step) => String(step.key))];
  const path = keys.join(".");
  const got = shown(issue.input);
  if (issue.received === "undefined") return { code: "missing", path };
  switch (issue.type) {
    case "picklist":
    case "literal":
    case "variant":
      return { code: "not-one-of", path, got, allowed: quoted(issue.expected) };
    case "regex":
    case "check":
      return path === "at" ? { code: "not-a-stamp", path, got } : { code: "not-a-day", path, got };
    case "min_length":
      return { code: "empty", path };
    case "max_length":
      return { code: "too-long", path, limit: Number(issue.requirement) };
    case "gt_value":
    case "max_value":
      return { code: "out-of-range", path, got };
    case "union": {
      const nearest = nearestBranch(issue.issues ?? []);
      return nearest ? problemOf(nearest, keys) : { code: "wrong-type", path, got };
    }
    case "strict_object":
    case "strict_tuple":
      return issue.expected === "never" ? { code: "not-allowed", path } : { code: "wrong-type", path, got };
    default:
      return { code: "wrong-type", path, got };
  }
}

/** Of the shapes that a value could have had, the complaint of the one that it came closest to. */
function nearestBranch(issues: readonly Issue[]): Issue | undefined {
  const inside = issues.filter((issue) => issue.path);
  return inside.find((issue) => issue.type !== "strict_object") ?? inside.find((issue) => issue.expected === "never");
}

/** The values listed in a schema's own words: `("a" | "b")`. */
const quoted = (expected: string | null): readonly string[] =>
  [...(expected ?? "").matchAll(/"([^"]*)"/g)].map((found) => found[1] ?? "");
