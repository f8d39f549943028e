import { toJsonSchema } from "@valibot/to-json-schema";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { type Entry, isTooNew } from "./entry.ts";
import { anEntry } from "./entry-builders.ts";
import { ENTRY_SCHEMAS } from "./entry-schema.ts";
import { anyEntries } from "../fold/any-entries.ts";
import { parseEntry } from "./parse.ts";

/** The published schema, made from the code's: one definition a kind. */
function publishedSchema(): object {
  const kinds = [...ENTRY_SCHEMAS.values()];
  const schema = toJsonSchema(v.union(kinds), {
    target: "draft-2020-12",
    definitions: Object.fromEntries(ENTRY_SCHEMAS),
    // Whether the calendar has a day is beyond a JSON Schema; its shape is not.
    ignoreActions: ["check"],
  });
  return {
    ...schema,
    title: "Entry of a Pollard herd file, version 1",
    description:
      "One line of a herd file between its header and its seal. Fields that are not listed are kept and passed on. " +
      "Entries of a later version or of a kind not listed here are kept unread.",
  };
}

const validate = new Ajv2020({ strict: false, allErrors: false }).compile(publishedSchema());

describe("JSON Schema of an entry", () => {
  test("[RE-26] the published file is what the code says (write it anew: vitest run entry-schema -u)", async () => {
    await expect(`${JSON.stringify(publishedSchema(), null, 2)}\n`).toMatchFileSnapshot(
      "../../schema/herd-entry.schema.json",
    );
  });

  test("[RE-26] what it takes and refuses", () => {
    const note = anEntry("note", { text: "rain" });
    for (const good of [note, { ...note, on: "2026-03-01T05:10" }, { ...note, more: { of: "anything" } }])
      expect(validate(good)).toBe(true);
    const { by: _, ...anonymous } = note;
    for (const bad of [
      null,
      [note],
      {},
      anonymous,
      { ...note, v: 2 },
      { ...note, kind: "notes" },
      { ...note, on: "1 March" },
    ])
      expect(validate(bad)).toBe(false);
  });

  describe("laws", () => {
    test("[RE-26] it takes every entry that the program takes", () => {
      fc.assert(
        fc.property(anyEntries, (entries) => {
          for (const entry of entries) if (!isTooNew(entry)) expect(validate(entry)).toBe(true);
        }),
      );
    });

    test("[RE-26] it and the program agree on an entry with any one part put wrong, but for the calendar and the size", () => {
      const part = fc.constantFrom("v", "id", "herd", "on", "by", "at", "device", "body");
      const isEntry = (entry: Entry | undefined): entry is Entry => entry !== undefined;
      const anEntryOfAny = anyEntries
        .map((entries) => entries.filter((entry) => !isTooNew(entry))[0] as Entry | undefined)
        .filter(isEntry);
      fc.assert(
        fc.property(anEntryOfAny, part, fc.jsonValue(), (entry, field, value) => {
          const json = { ...entry, [field]: value };
          const read = parseEntry(json);
          if (read.ok && isTooNew(read.value)) return;
          const calendar = !read.ok && ["not-a-day", "not-a-stamp", "too-deep", "too-long"].includes(read.error.code);
          if (!calendar) expect(validate(json)).toBe(read.ok);
        }),
      );
    });
  });
});
