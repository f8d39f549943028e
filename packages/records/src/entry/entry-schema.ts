import { parseDay } from "@pollard/base";
import * as v from "valibot";
import { ENTRY_VERSION } from "./entry.ts";
import { BODIES, CORRECTIONS, happenedText } from "./entry-kinds.ts";

/** Longest id, name of a device, or name of a person. */
const NAME_LIMIT = 80;
/** A stamp is a time, a counter and a device. */
const STAMP_LIMIT = 120;

/** A text that names something. */
export const nameText = v.pipe(v.string(), v.minLength(1), v.maxLength(NAME_LIMIT));

const STAMP = /^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z-[0-9a-f]{4}-.+$/;

/** A place on the hybrid logical clock, as text. */
const stampText = v.pipe(
  v.string(),
  v.maxLength(STAMP_LIMIT),
  v.regex(STAMP),
  v.check((text) => parseDay(text.slice(0, 10)) !== undefined),
);

const envelope = {
  v: v.literal(ENTRY_VERSION),
  id: nameText,
  herd: nameText,
  on: happenedText,
  by: nameText,
  at: stampText,
  device: nameText,
};

const bodies: Readonly<Record<string, v.GenericSchema>> = { ...BODIES, ...CORRECTIONS };

/** The whole entry, kind by kind. Fields that are not listed are let through. */
export const ENTRY_SCHEMAS: ReadonlyMap<string, v.GenericSchema> = new Map(
  Object.entries(bodies).map(([kind, body]) => [kind, v.object({ ...envelope, kind: v.literal(kind), body })]),
);
