import { animalId } from "@pollard/genetics";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { entryJson, isTooNew } from "./entry.ts";
import { anEntry, aReplacement } from "./entry-builders.ts";
import { FACT_KINDS } from "./entry-kinds.ts";
import { parseEntry } from "./parse.ts";

const weight = anEntry("weight", { animal: animalId("hazel"), kg: 41.5, how: "weighed" });
const reading = anEntry("head-reading", { kid: animalId("kid"), signs: { feel: { left: "pointed" }, crown: "flat" } });
const kidding = anEntry("kidding", {
  dam: animalId("hazel"),
  kids: [{ kid: animalId("kid"), sex: "doe", born: "alive", weightKg: 3.1 }],
});
const replacement = aReplacement(weight.id, { kind: "weight", on: "2026-03-02", body: weight.body });

function expectProblem(json: unknown, problem: object) {
  expect(parseEntry(json)).toEqual({ ok: false, error: problem });
}

function expectTooNew(json: { readonly id: string }) {
  expect(parseEntry(json)).toEqual({ ok: true, value: { id: json.id, tooNew: json } });
}

describe("parseEntry", () => {
  test("[RE-1] what was written down is read as it stands, the very object", () => {
    for (const entry of [weight, reading, kidding, replacement]) {
      const read = parseEntry(entry);
      expect(read.ok && read.value).toBe(entry);
    }
  });

  test("[RE-1] fields that this version does not know are kept", () => {
    const more = { ...weight, mood: "calm", body: { ...weight.body, scale: "platform" } };
    expect(parseEntry(more)).toEqual({ ok: true, value: more });
  });

  test("[RE-2] what is wrong is named by code and place", () => {
    const { herd: _, ...homeless } = weight;
    expectProblem(homeless, { code: "missing", path: "herd" });
    expectProblem({ ...weight, on: "2026-02-30" }, { code: "not-a-day", path: "on", got: "2026-02-30" });
    expectProblem({ ...weight, on: "2026-02-03T24:00" }, { code: "not-a-day", path: "on", got: "2026-02-03T24:00" });
    expectProblem({ ...weight, at: "noon" }, { code: "not-a-stamp", path: "at", got: "noon" });
    expectProblem({ ...weight, by: "" }, { code: "empty", path: "by" });
    expectProblem({ ...weight, by: "x".repeat(81) }, { code: "too-long", path: "by", limit: 80 });
    expectProblem(
      { ...weight, body: { ...weight.body, kg: 900 } },
      { code: "out-of-range", path: "body.kg", got: 900 },
    );
    expectProblem({ ...weight, body: { ...weight.body, kg: "9" } }, { code: "wrong-type", path: "body.kg", got: "9" });
    expectProblem(
      { ...kidding, body: { ...kidding.body, kids: [{ kid: "k", sex: "billy", born: "alive" }] } },
      {
        code: "not-one-of",
        path: "body.kids.0.sex",
        got: "billy",
        allowed: ["doe", "buck", "wether", "intersex", "unsure"],
      },
    );
  });

  test("[RE-2] a sign given for both sides and for one at once is refused", () => {
    const body = { kid: "kid", signs: { feel: { both: "pointed", left: "nothing" } } };
    expectProblem({ ...reading, body }, { code: "not-allowed", path: "body.signs.feel.left" });
  });

  test("[RE-2] a wrong answer for one side is named by its side", () => {
    const body = { kid: "kid", signs: { crown: "flat", whorls: { left: "swirly" } } };
    expect(parseEntry({ ...reading, body })).toMatchObject({
      ok: false,
      error: { code: "not-one-of", path: "body.signs.whorls.left", got: "swirly" },
    });
  });

  test("[RE-2] a replacement is checked like the entry that it mends", () => {
    const fact = { kind: "weight", on: "2026-13-01", body: weight.body };
    expectProblem(
      { ...replacement, body: { entry: weight.id, fact } },
      { code: "not-a-day", path: "body.fact.on", got: "2026-13-01" },
    );
  });

  test("[RE-2] a laboratory's result has two alleles, not three", () => {
    const entry = anEntry("dna-test", { animal: animalId("hazel"), locus: "polled", alleles: ["P", "p"] });
    expect(parseEntry(entry).ok).toBe(true);
    const body = { ...entry.body, alleles: ["P", "p", "p"] };
    expectProblem({ ...entry, body }, { code: "not-allowed", path: "body.alleles.2" });
  });

  test("[RE-2] what is no object, has no version or no id is no entry", () => {
    for (const json of [null, [], [weight], "weight", 7, true, undefined]) {
      expect(parseEntry(json)).toMatchObject({ ok: false, error: { code: "wrong-type", path: "" } });
    }
    expectProblem({}, { code: "missing", path: "v" });
    expectProblem({ v: 2 }, { code: "missing", path: "id" });
    expectProblem({ v: 1.5, id: "e", kind: "weight" }, { code: "out-of-range", path: "v", got: 1.5 });
    expectProblem({ v: 2, id: 5, kind: "weight" }, { code: "wrong-type", path: "id", got: 5 });
  });

  test("[RE-3] a later version, an unknown kind, and a correction to an unknown kind are kept unread", () => {
    expectTooNew({ ...weight, v: 2 } as unknown as { id: string });
    expectTooNew({ v: 2, id: "e" } as { id: string });
    expectTooNew({ ...weight, kind: "milk-yield", body: { litres: 2 } } as unknown as { id: string });
    for (const kind of ["__proto__", "constructor", "toString"])
      expectTooNew({ ...weight, kind } as unknown as { id: string });
    const fact = { kind: "milk-yield", on: "2026-03-01", body: {} };
    expectTooNew({ ...replacement, body: { entry: weight.id, fact } } as unknown as { id: string });
  });

  test("[RE-3] an entry with a field called tooNew is still an entry", () => {
    const read = parseEntry({ ...weight, tooNew: "so they say" });
    expect(read.ok && isTooNew(read.value)).toBe(false);
  });

  test("[RE-4] what could not be written out again is refused: too deep, too big, endless", () => {
    let deep: unknown = "bottom";
    for (let level = 0; level < 20_000; level++) deep = [deep];
    expectProblem({ ...weight, deep }, { code: "too-deep", path: "", limit: 24 });
    expectProblem({ ...weight, v: 2, deep }, { code: "too-deep", path: "", limit: 24 });
    const endless: Record<string, unknown> = { ...weight };
    endless["self"] = endless;
    expectProblem(endless, { code: "too-deep", path: "", limit: 24 });
    expectProblem({ ...weight, essay: "x".repeat(64_000) }, { code: "too-long", path: "", limit: 64_000 });
    expectProblem({ ...weight, note: { size: 10n } }, { code: "wrong-type", path: "note.size", got: "bigint" });
  });

  test("[RE-2] a list is no object, not even where an object may be empty", () => {
    const list = (path: string) => ({ code: "wrong-type", path, got: "list" });
    expectProblem({ ...anEntry("vet-day", {}), body: [] }, list("body"));
    expectProblem({ ...reading, body: { kid: "kid", signs: [] } }, list("body.signs"));
    expectProblem({ ...reading, body: { kid: "kid", signs: { feel: [] } } }, list("body.signs.feel"));
  });

  describe("laws", () => {
    const jsonEntries = [weight, reading, kidding, replacement];

    test("[RE-4] nothing that comes as JSON or as any other value makes it throw", () => {
      const anything = fc.anything({ withBigInt: true, withDate: true, withMap: true, withNullPrototype: true });
      fc.assert(
        fc.property(fc.oneof(anything, fc.jsonValue()), (value) => {
          const read = parseEntry(value);
          if (!read.ok) expect(read.error.code).toMatch(/^[a-z-]+$/);
        }),
      );
    });

    test("[RE-4] an entry with any one part put wrong is read or refused with a code, and a refusal can be sent on", () => {
      const part = fc.constantFrom("v", "id", "herd", "kind", "on", "by", "at", "device", "body");
      const kind = fc.constantFrom(...FACT_KINDS, "replace", "strike", "__proto__");
      fc.assert(
        fc.property(fc.constantFrom(...jsonEntries), part, kind, fc.jsonValue(), (entry, field, asKind, value) => {
          const read = parseEntry({ ...entry, kind: asKind, [field]: value });
          if (read.ok) expect(JSON.stringify(entryJson(read.value))).toMatch(/^\{.*\}$/);
          else
            expect(JSON.parse(JSON.stringify(read.error))).toMatchObject({
              code: read.error.code,
              path: read.error.path,
            });
        }),
      );
    });

    test("[RE-1] reading what was written out gives the same again", () => {
      fc.assert(
        fc.property(fc.constantFrom(...jsonEntries), fc.dictionary(fc.string(), fc.jsonValue()), (entry, more) => {
          const read = parseEntry(JSON.parse(JSON.stringify({ ...more, ...entry })));
          expect(read.ok && JSON.stringify(entryJson(read.value))).toBe(JSON.stringify({ ...more, ...entry }));
        }),
      );
    });
  });
});
