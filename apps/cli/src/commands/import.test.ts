import { day, present } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { type Printed, typed } from "../testing.ts";

const LIST = "Name;Tag;Sex;Born;Dam\nPip;0031;f;25/03/2025;Hazel\nHazel;12;f;02/05/2021;\nMoss;13;goose;;\n";
const small = (files: Readonly<Record<string, string>>) => ({ files, today: day("2026-03-18") });
const asked = (line: string, files: Readonly<Record<string, string>> = { "goats.csv": LIST }): Promise<Printed> =>
  typed(line, small(files));

describe("import", () => {
  test("[CL-34] what each row becomes is shown, and nothing is written", async () => {
    const { exit, out, err, written } = await asked("import goats.csv");
    expect([exit, err, written.size]).toEqual([1, "", 0]);
    expect(out).toMatch(/^ +4 {2}Moss {2}"goose" is no sex known here\. Write doe, buck or wether\.$/m);
    expect(out).toMatch(/^New: 2\.\nCannot come in: 1\.$/m);
  });

  test("[CL-34] with -o the herd file holds them; brought in again there is nothing to do", async () => {
    const { written } = await asked("import goats.csv --by Ines -o herd.jsonl");
    const herd = present(written.get("herd.jsonl"), "herd.jsonl");
    const check = await asked("check herd.jsonl", { "herd.jsonl": herd });
    expect([check.exit, check.out]).toEqual([0, "2 entries, 2 animals, 0 problems.\n"]);
    const again = await asked("import goats.csv herd.jsonl -o more.jsonl", { "goats.csv": LIST, "herd.jsonl": herd });
    expect(again.written.get("more.jsonl")).toBe(herd);
    expect(again.out).toContain("Here already: 2.\n");
    const csv = await asked("export herd.jsonl --as csv", { "herd.jsonl": herd });
    expect(csv.out).toMatch(/^[^,]+,Pip,0031,,,doe,2025-03-25,/m);
  });

  test("[CL-34] the invented herd's own table changes nothing in it", async () => {
    const { out: text } = await asked("export --demo demo --as csv --guard");
    const { exit, out } = await asked("import goats.csv --demo demo", { "goats.csv": text });
    expect([exit, out]).toEqual([0, "Here already: 56.\n"]);
  });

  test("[CL-34] columns under headings of one's own, and differences only when asked", async () => {
    const files = { "a.csv": "Beast,Ear,What\nHazel,12,doe\n", "b.csv": "name,tag,sex,breed\nHazel,12,doe,Saanen\n" };
    const { written } = await asked("import a.csv --map name=beast,tag=Ear,sex=What -o h", files);
    const more = { ...files, h: present(written.get("h"), "h") };
    const offered = await asked("import b.csv h -o i", more);
    expect(offered.written.get("i")).toBe(more.h);
    expect(offered.out).toContain("breed: Saanen");
    const taken = await asked("import b.csv h --change -o i", more);
    expect(taken.written.get("i")).toContain('"breed":"Saanen"');
  });

  test("[CL-16] rehearsed: a backup of what was brought in is the same to the letter; a byte that was changed is said", async () => {
    const { written } = await asked("import goats.csv -o herd.jsonl");
    const herd = present(written.get("herd.jsonl"), "herd.jsonl");
    const backup = (await asked("export herd.jsonl --as jsonl", { "herd.jsonl": herd })).out;
    expect(backup).toBe(herd);
    const changed = await asked("check herd.jsonl --json", { "herd.jsonl": backup.replace("Hazel", "Hazek") });
    expect(changed.exit).toBe(1);
    expect(JSON.parse(changed.out)).toMatchObject({ file: [{ code: "damaged" }] });
  });

  test.each([
    ["import", /needs a list/],
    ["import none.csv", /There is no file "none\.csv"/],
    ["import goats.csv --map horn=Name", /--map knows no column "horn"/],
    ["import goats.csv --map tag=Ear", /The list has no heading "Ear"; it has "Name", "Tag"/],
    ["import goats.csv --days sunday", /--days is one of day-month, month-day, not "sunday"/],
    ["import packed.xls", /a spreadsheet's own file/],
  ])("[CL-2] %s", async (line, sentence) => {
    const { exit, out, err } = await asked(line, { "goats.csv": LIST, "packed.xls": "PK\u0003\u0004…" });
    expect([exit, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });
});
