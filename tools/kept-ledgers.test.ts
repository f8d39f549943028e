import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { FACT_KINDS, fold, isTooNew, readHerdFile, writeHerdFile } from "@pollard/records";
import { describe, expect, test } from "vitest";
import { files, textOf } from "./repository.ts";

const kept = (name: string): string => textOf(`fixtures/ledgers/v1/${name}.jsonl`);
const everyKind = kept("every-kind");
const corrections = kept("corrections");
const tooNew = kept("too-new");
const contradictions = kept("contradictions");

const TODAY = day("2026-07-01");

interface Found {
  readonly entries: number;
  readonly animals: number;
  /** Codes of what is wrong with the file, and of what is wrong in the herd. */
  readonly file?: readonly string[];
  readonly herd?: readonly string[];
}

function expectKept(text: string, found: Found) {
  const read = readHerdFile(text);
  const { herd, problems } = fold(read.entries, TODAY);
  const codes = (of: readonly { readonly code: string }[]) => of.map(({ code }) => code).sort();
  expect({
    entries: read.entries.length,
    animals: herd.animals.size,
    file: codes(read.problems),
    herd: codes(problems),
  }).toEqual({ file: [], herd: [], ...found });
}

describe("ledgers of version 1", () => {
  test("[RE-27] every kind of entry of its time is read, and nothing is wrong", () => {
    expectKept(everyKind, { entries: 22, animals: 7 });
    const { entries } = readHerdFile(everyKind);
    const kinds = new Set(entries.map((entry) => (isTooNew(entry) ? "" : entry.kind)));
    expect(kinds.size).toBe(16);
    const { herd } = fold(entries, TODAY);
    expect(herd.animals.get(animalId("kid-1"))).toMatchObject({
      name: "Bracken",
      mark: "white blaze",
      sex: "buck",
      born: "2026-03-03",
      dam: "sorrel",
      sires: ["fergus"],
      weights: [{ kg: 3.6 }, { kg: 3.9, on: "2026-03-05" }],
      readings: [{ by: "Marit", time: "18:05", budSites: 2, signs: { crown: "flat" } }],
      disbuddings: [{ done: "both-sides", found: { left: "bud", right: "bud" } }],
      departure: { why: "sold", to: "the Mill" },
    });
    expect(herd.animals.get(animalId("fergus"))).toMatchObject({
      head: { head: "polled" },
      dam: "old-may",
      sires: ["old-tam"],
      tests: [{ locus: "polled", alleles: ["P", "p"] }],
    });
    expect(herd.notes).toMatchObject([{ text: "Moved the hay rack. Gräs är grönt; 山羊." }]);
    expect([...herd.settings]).toEqual([
      ["herd-name", "Quern Hill"],
      ["visit-cost", 2.5],
    ]);
  });

  test("[RE-27] the kinds of the season that came later are read, and nothing is wrong", () => {
    const text = kept("season-kinds");
    const { entries } = readHerdFile(text);
    const { herd, problems } = fold(entries, day("2027-01-01"));
    expect(problems).toEqual([]);
    expect(herd.animals.get(animalId("sorrel"))).toMatchObject({
      heats: [{ on: "2026-10-02" }],
      pregnancyChecks: [{ way: "ultrasound", found: "pregnant", kids: 2 }],
      abortions: [{ on: "2026-12-20" }],
      care: [{ task: "hooves", answer: "done", noMilkUntil: "2026-12-22" }],
    });
    expect(herd.animals.get(animalId("fergus"))?.care).toMatchObject([{ answer: "put-off", until: "2027-01-10" }]);
    expect(writeHerdFile(entries, readHerdFile(text).header ?? {})).toBe(text);
  });

  test("[RE-27] where a goat was put is read in the order of the days", () => {
    const text = kept("moves");
    const { entries } = readHerdFile(text);
    const { herd, problems } = fold(entries, day("2027-01-01"));
    expect(problems).toEqual([]);
    expect(herd.animals.get(animalId("sorrel"))?.moves).toMatchObject([
      { on: "2026-09-28", pen: "long pen" },
      { on: "2026-10-15", pen: undefined },
    ]);
    expect(writeHerdFile(entries, readHerdFile(text).header ?? {})).toBe(text);
  });

  test("[RE-27] photos stand with their goat by name; one entered by mistake is gone", () => {
    const text = kept("photos");
    const { entries } = readHerdFile(text);
    const { herd, problems } = fold(entries, TODAY);
    expect(problems).toEqual([]);
    expect(herd.animals.get(animalId("kid-1"))?.photos).toMatchObject([
      { photo: "019cb84c-3a10-7c41-9d02-6f3a1b2c4d5e", what: "head", on: "2026-03-05", by: "Marit" },
      { photo: "019cbd7a-51e8-7f0b-8a6d-2b9c8d7e6f50", what: "goat" },
    ]);
    expect(writeHerdFile(entries, readHerdFile(text).header ?? {})).toBe(text);
  });

  test("[RE-27] every kind of fact has a kept ledger that holds it", () => {
    const texts = files.filter((path) => /^fixtures\/ledgers\/v\d+\/.*\.jsonl$/.test(path)).map(textOf);
    const kinds = new Set(
      texts.flatMap((text) => readHerdFile(text).entries.map((entry) => (isTooNew(entry) ? "" : entry.kind))),
    );
    expect(FACT_KINDS.filter((kind) => !kinds.has(kind))).toEqual([]);
  });

  test("[RE-27] corrections count as they always did", () => {
    expectKept(corrections, { entries: 17, animals: 1, herd: ["corrects-nothing", "rival-corrections"] });
    const { herd } = fold(readHerdFile(corrections).entries, TODAY);
    const kgs = herd.animals.get(animalId("sorrel"))?.weights.map(({ kg }) => kg);
    expect(kgs).toEqual([52, 60, 72, 81]);
  });

  test("[RE-27] what was too new then is kept and counted until a version knows it", () => {
    expectKept(tooNew, { entries: 5, animals: 1, herd: ["too-new", "too-new", "too-new"] });
  });

  test("[RE-27] contradictions are found, and the rest stands", () => {
    expectKept(contradictions, {
      entries: 18,
      animals: 8,
      file: ["one-id-twice", "other-herd"],
      herd: [
        "after-departure",
        "before-birth",
        "before-birth",
        "born-twice",
        "dam-is-no-doe",
        "ends-before-it-starts",
        "in-the-future",
        "older-than-parent",
        "one-id-two-entries",
        "other-herd",
        "other-kind",
        "own-ancestor",
        "sire-is-no-buck",
        "two-with-one-tag",
        "unknown-animal",
      ],
    });
  });

  test("[RE-27] damaged files give what is whole in them", () => {
    expectKept(kept("damaged-line"), { entries: 3, animals: 1, file: ["damaged", "line-unreadable"] });
    expectKept(kept("cut-short"), { entries: 3, animals: 1, file: ["cut-short", "line-unreadable"] });
  });

  test("[RE-27] a whole file is written again letter by letter", () => {
    for (const text of [everyKind, corrections, tooNew, contradictions]) {
      const { header, entries } = readHerdFile(text);
      expect(writeHerdFile(entries, header ?? {})).toBe(text);
    }
  });
});
