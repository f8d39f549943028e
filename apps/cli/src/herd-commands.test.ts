import { readFileSync } from "node:fs";
import { join } from "node:path";
import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { type Entry, type HerdId, writeHerdFile } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { DEMO_FOLDER, type Printed, type SmallWorld, typed } from "./testing.ts";

/** What the invented herd is answered on its own day; each question is worked out once. */
const answers = new Map<string, Promise<Printed>>();
function onTheDay(question: string): Promise<Printed> {
  const known = answers.get(question) ?? typed(`${question} --demo demo --on 2026-03-18`);
  answers.set(question, known);
  return known;
}

const HERD_COMMANDS = ["today", "heads", "carriers", "check"] as const;
const hazel = animalId("hazel");
const rook = animalId("rook");

/** A herd file of these entries. */
const fileOf = (...entries: readonly Entry[]): string => writeHerdFile(entries, { herd: "herd" as HerdId });

const PAIR = [
  anEntry("animal", { animal: hazel, name: "Hazel", sex: "doe", head: "horned" }, { on: "2025-01-01" }),
  anEntry("animal", { animal: rook, name: "Rook", sex: "buck", head: "polled" }, { on: "2025-01-01" }),
];

const asked = (command: string, file: string, small: SmallWorld = {}): Promise<Printed> =>
  typed(command, { ...small, files: { "herd.jsonl": file } });

/** An answer that could not be given: nothing on standard output, one sentence, this exit code. */
function expectRefusal({ exit, out, err }: Printed, code: number, says: RegExp): void {
  expect([exit, out]).toEqual([code, ""]);
  expect(err).toMatch(says);
  expect(err.trimEnd()).not.toContain("\n");
}

describe("which herd", () => {
  test("[CL-5] an invented herd is moved so that it stands on today, or on the day asked about", async () => {
    const today = await onTheDay("today");
    expect(today).toMatchObject({ exit: 0, err: "" });
    expect(today.out).toContain("Ring the vet about Moth");
    const autumn = await typed("heads --demo demo --on 2031-10-05 --json");
    const spring = await onTheDay("heads --json");
    const horns = ({ out }: Printed) =>
      (JSON.parse(out) as { kid: { id: string }; belief?: { horns: number } }[]).map((k) => [
        k.kid.id,
        k.belief?.horns,
      ]);
    expect(horns(autumn)).toEqual(horns(spring));
  });

  test("[CL-5] without --on, today is this computer's day", async () => {
    const asOn = await typed("today --demo demo --on 2027-06-01");
    expect(await typed("today --demo demo", { today: day("2027-06-01") })).toEqual(asOn);
  });

  test("[CL-5] a backup file stands still: --on asks about another day of it", async () => {
    const kid = anEntry(
      "kidding",
      { dam: hazel, kids: [{ kid: animalId("burr"), sex: "buck", born: "alive", name: "Burr" }] },
      { on: "2026-03-01" },
    );
    const file = fileOf(...PAIR, kid);
    expect((await asked("today herd.jsonl --on 2026-03-02", file)).out).toContain("Read Burr's head");
    expect((await asked("today herd.jsonl --on 2026-03-20", file)).out).toContain("Ring the vet about Burr");
  });

  test.each(HERD_COMMANDS)("[CL-2] %s of no herd, of two, of one that is not there", async (command) => {
    expectRefusal(await typed(command), 2, /^Which herd\?/);
    expectRefusal(
      await asked(`${command} herd.jsonl --demo demo`, fileOf(...PAIR)),
      2,
      /^Which herd, "herd\.jsonl" or/,
    );
    expectRefusal(await typed(`${command} nowhere.jsonl`), 2, /^There is no file "nowhere\.jsonl"\.$/m);
    expectRefusal(
      await typed(`${command} --demo nowhere`),
      2,
      /^There is no invented herd "nowhere"; there is "demo"\.$/m,
    );
    expectRefusal(await typed(`${command} --demo ../demo`), 2, /^There is no invented herd/);
  });

  test.each([
    ["id,name\nhazel,Hazel\n", /it looks like a table of comma-separated values/],
    ["", /it is empty/],
    ['{"animals": []}', /it is JSON, but not a herd's/],
    ["PK\u0003\u0004 and more", /it is a zip archive/],
    ["\u0000\u0001\u0002", /it is not text/],
    ["Dear diary", /it is some other text/],
  ])("[CL-2] %j given as a herd", async (text, says) => {
    expectRefusal(await asked("today herd.jsonl", text), 2, says);
  });

  test("[CL-2] a folder given as a herd is told from a hub's own data", async () => {
    const printed = await typed("today .data", { files: { ".data": { failure: "a-folder" } } });
    expectRefusal(printed, 2, /is a folder\. A hub's own data cannot be read here; make a backup file in the app\./);
  });

  test("[CL-2] a disk that fails is the world's failure", async () => {
    expectRefusal(await typed("today h", { files: { h: { failure: "unreadable" } } }), 3, /"h" could not be read\./);
    expectRefusal(
      await typed("today h", { files: { h: { failure: "not-allowed" } } }),
      3,
      /does not allow "h" to be read\./,
    );
  });

  test.each(["2026-02-30", "yesterday", "26-3-1", "1899-12-31"])(
    "[CL-2] --on %s is no day to ask about",
    async (day) => {
      expectRefusal(await typed(`today --demo demo --on ${day}`), 2, /not a day of the calendar|goes from 1900-01-01/);
    },
  );

  test.each(["-1", "1.5", "many", "99999999999"])("[CL-2] --seed=%s is no seed", async (seed) => {
    expectRefusal(await typed(`today --demo demo --seed=${seed}`), 2, /is not a seed/);
  });

  test("[CL-6] the same question with the same seed has the same answer", async () => {
    expect(await typed("heads --demo demo --on 2026-03-18 --seed 7 --json")).toEqual(await onTheDay("heads --json"));
  });
});

describe("a damaged backup", () => {
  const whole = fileOf(...PAIR).split("\n");

  test.each(["today", "heads", "carriers", "export --as csv"])(
    "[CL-4] %s answers from what can be read, says what could not, and ends with 1",
    async (command) => {
      const [verb = "", ...options] = command.split(" ");
      const torn = whole.map((line, i) => (i === 1 ? line.slice(0, 40) : line)).join("\n");
      const { exit, out, err } = await asked([verb, "herd.jsonl", ...options].join(" "), torn);
      expect(exit).toBe(1);
      expect(out).not.toBe("");
      expect(err).toMatch(/^Line 2 could not be read: it is not JSON\. And 1 more; `pollard check` lists them\.\n$/);
    },
  );

  test("[CL-4] a backup that breaks off is read as far as it goes", async () => {
    const { exit, out, err } = await asked("carriers herd.jsonl", whole.slice(0, 2).join("\n"));
    expect(exit).toBe(1);
    expect(out).toContain("Hazel");
    expect(err).toMatch(/breaks off in line 2/);
  });

  test("[CL-12] check lists each line with its reason", async () => {
    const bad = [whole[0], '{"v":1,"id":"x","kind":"animal","body":{}}', ...whole.slice(1)].join("\n");
    const { exit, out } = await asked("check herd.jsonl", bad);
    expect(exit).toBe(1);
    expect(out.replaceAll(/\s+/g, " ")).toMatch(/Line 2 could not be +.*read/);
  });
});

describe("the answers", () => {
  test("[CL-12] check of a sound herd: no problems, and done", async () => {
    expect(await asked("check herd.jsonl", fileOf(...PAIR))).toMatchObject({
      exit: 0,
      out: "2 entries, 2 animals, 0 problems.\n",
      err: "",
    });
  });

  test("[CL-12] check of the invented herd: what is wrong in it on purpose, with the entries to look at", async () => {
    const { exit, out, err } = await onTheDay("check");
    expect([exit, err]).toEqual([1, ""]);
    expect(out).toMatch(/Tag 26 07 is on Tern and/);
    expect(out).toMatch(/3 problems\.\n$/);
    const { herd } = JSON.parse((await onTheDay("check --json")).out) as {
      herd: { code: string }[];
    };
    expect(herd.map((p) => p.code).sort()).toEqual(["hard-to-believe", "rival-corrections", "two-with-one-tag"]);
  });

  test("[CL-12] a sire that is a doe, an animal that is its own ancestor, a day to come: a sentence each", async () => {
    const wrongs = fileOf(
      anEntry("animal", { animal: hazel, name: "Hazel", sex: "doe", dam: animalId("ivy") }, { on: "2025-01-01" }),
      anEntry(
        "animal",
        { animal: animalId("ivy"), name: "Ivy", sex: "doe", dam: hazel, sire: hazel },
        { on: "2025-01-01" },
      ),
      anEntry("note", { text: "too soon" }, { on: "2030-01-01" }),
    );
    const { exit, out } = await asked("check herd.jsonl", wrongs);
    const said = out.replaceAll(/\s+/g, " ");
    expect(exit).toBe(1);
    for (const code of ["own-ancestor", "sire-is-no-buck", "in-the-future"])
      expect((await asked("check herd.jsonl --json", wrongs)).out).toContain(`"${code}"`);
    expect(said).toContain("which has not");
    expect(await asked("carriers herd.jsonl", wrongs)).toMatchObject({ exit: 0 });
  });

  test("[CL-12] a horned kid of two proven PP parents: one sentence, and everyone else keeps an answer", async () => {
    const tested = (animal: typeof hazel) =>
      anEntry("dna-test", { animal, locus: "polled", alleles: ["P", "P"] }, { on: "2025-02-01" });
    const burr = animalId("burr");
    const file = fileOf(
      ...PAIR,
      tested(rook),
      tested(hazel),
      anEntry(
        "kidding",
        { dam: hazel, bucks: [rook], kids: [{ kid: burr, sex: "buck", born: "alive", name: "Burr" }] },
        { on: "2025-03-01" },
      ),
      anEntry("outcome", { animal: burr, left: "horn", right: "horn" }, { on: "2025-06-10" }),
    );
    const { exit, out } = await asked("check herd.jsonl", file);
    expect(exit).toBe(1);
    expect(out.replaceAll(/\s+/g, " ")).toMatch(/Burr/);
    const { out: beliefs } = await asked("carriers herd.jsonl --json", file);
    expect((JSON.parse(beliefs) as { animals: unknown[] }).animals).toHaveLength(3);
  });

  test("[CL-13] today: nothing to do is said, and is done", async () => {
    const { exit, out } = await asked("today herd.jsonl", fileOf(...PAIR));
    expect(exit).toBe(0);
    expect(out).toMatch(/^Nothing to do today\.\n/);
  });

  test("[CL-3] today as plain data has the tasks in the order of the table", async () => {
    const model = JSON.parse((await onTheDay("today --json")).out) as {
      today: string;
      tasks: { task: { kind: string } }[];
    };
    expect(model.today).toBe("2026-03-18");
    expect(model.tasks[0]?.task.kind).toBe("ring-vet");
  });

  test("[CL-14] heads: a kid past its window has no costs, an unread one no chance", async () => {
    const { out } = await onTheDay("heads");
    expect(out).toMatch(/^Moth +buck +17 +\S+ .* 03-15 {2}Ring the vet, now$/m);
    expect(out).toMatch(/^Barley +doe +0 +unread +04-01 {2}Read this kid's head/m);
    expect(out).toMatch(/^Wren +doe +4 \(-\d\)/m);
  });

  test("[CL-14] heads: no kids, no table", async () => {
    expect(await asked("heads herd.jsonl", fileOf(...PAIR))).toMatchObject({
      exit: 0,
      out: "No kid is in or near its window.\n",
    });
  });

  test("[CL-14] the plain data and the table of heads tell the same chances", async () => {
    const kids = JSON.parse((await onTheDay("heads --json")).out) as {
      kid: { name: string };
      belief?: { horns: number };
    }[];
    const { out } = await onTheDay("heads");
    for (const { kid, belief } of kids) {
      const chance = belief === undefined ? "unread" : belief.horns > 0.995 ? ">0.99" : belief.horns.toFixed(2);
      const shown = chance === "0.00" ? "<0.01" : chance;
      expect(out).toMatch(new RegExp(`^${kid.name} .* ${shown.replace(".", "\\.")} `, "m"));
    }
  });

  test("[CL-14] one head explained: forecast, facts whose weights lead there, and what would turn the advice", async () => {
    const { exit, out } = await onTheDay("heads --explain demo-pip");
    expect(exit).toBe(0);
    expect(out).toContain("Pip, doe, 7 days old, by Alder");
    expect(out).toMatch(/It would turn: leaving is best up to P\(horns\) 0\.\d\d; the vet's list from 0\.\d\d\./);
    const { belief } = JSON.parse((await onTheDay("heads --explain demo-pip --json")).out) as {
      belief: { horns: number; forecast: number; weighed: { logOdds: number }[] };
    };
    const odds = (p: number) => Math.log(p / (1 - p));
    const sum = belief.weighed.reduce((total, { logOdds }) => total + logOdds, odds(belief.forecast));
    expect(Math.abs(sum - odds(belief.horns))).toBeLessThan(0.05); // facts that weigh next to nothing are not listed
  });

  test("[CL-14] a head not read yet keeps its forecast to itself: eyes first", async () => {
    const { out } = await onTheDay("heads --explain demo-dunnock");
    expect(out).toContain("No reading of this head is stored, so no forecast is shown");
    expect(out).not.toContain("P(horns)");
  });

  test("[CL-14] a kid that is not there", async () => {
    expectRefusal(await typed("heads --demo demo --explain demo-nobody"), 2, /There is no kid "demo-nobody"/);
  });

  test("[CL-15] carriers: chances that sum to 1, the method and the log-likelihood", async () => {
    const { exit, out } = await onTheDay("carriers --json");
    const answer = JSON.parse(out) as {
      method: string;
      logLikelihood: number;
      animals: { ref: { id: string }; genotype: { belief: Record<string, number> } }[];
    };
    expect([exit, answer.method]).toEqual([0, "exact"]);
    expect(answer.animals).toHaveLength(56);
    for (const { genotype } of answer.animals) {
      const { PP = 0, Pp = 0, pp = 0 } = genotype.belief;
      expect(PP + Pp + pp).toBeCloseTo(1, 9);
    }
    const shown = (await onTheDay("carriers")).out;
    expect(shown).toContain(`Log-likelihood ${answer.logLikelihood.toFixed(6)} (exact).`);
  });

  test("[CL-15] every locus that comes with the program, by its genotypes or the two likeliest", async () => {
    const wattles = await onTheDay("carriers --locus wattles");
    expect([wattles.exit, wattles.out.split("\n")[0]]).toEqual([0, expect.stringMatching(/WW +Ww +ww$/)]);
    expect(wattles.out).toMatch(/^Hazel .*here +\S+ +\S+ +<0\.01$/m);
    expect((await onTheDay("carriers --locus alpha-s1-casein")).out).toMatch(
      /Likeliest +Chance +Next +Chance +Expected g\/l/,
    );
    const ears = (await onTheDay("carriers --locus short-ears")).out;
    expect(ears).toContain("This is what people who keep goats say; no study is known.");
    expect(ears.replaceAll("\n", " ")).toContain("Sources disagree how this is inherited");
  });

  test("[CL-15] a locus of the keeper's own, and one whose description is wrong", async () => {
    const coat = { name: "Coat", alleles: ["L", "l"], inheritance: "autosomal", frequencies: { L: 0.5, l: 0.5 } };
    const file = fileOf(
      ...PAIR,
      anEntry("setting", { key: "locus:coat", value: JSON.stringify(coat) }, { on: "2025-01-01" }),
      anEntry("setting", { key: "locus:tail", value: "{" }, { on: "2025-01-01" }),
      anEntry("dna-test", { animal: hazel, locus: "coat", alleles: ["l", "l"] }, { on: "2025-02-01" }),
    );
    expect((await asked("carriers herd.jsonl --locus coat", file)).out).toMatch(/^Hazel .* 0\.99$/m);
    expectRefusal(
      await asked("carriers herd.jsonl --locus tail", file),
      2,
      /^Your locus "tail" cannot be used\. The description is not JSON\.$/m,
    );
    expect((await asked("carriers herd.jsonl", file)).exit).toBe(0);
    expect((await asked("check herd.jsonl", file)).out.replaceAll(/\s+/g, " ")).toContain('Your locus "tail"');
  });

  test("[CL-15] a locus that is not known", async () => {
    expectRefusal(
      await typed("carriers --demo demo --locus moonshine"),
      2,
      /There is no locus "moonshine"; there are polled, .*wattles/,
    );
    expect((await typed("carriers --demo demo --locus polled")).exit).toBe(0);
    expect((await typed("carriers --demo demo --locus wattles")).out).toMatch(/WW +Ww +ww/);
  });

  test("[CL-7] no line of any answer is wider than 100 characters", async () => {
    for (const command of [...HERD_COMMANDS, "heads --explain demo-juniper"])
      for (const line of (await onTheDay(command)).out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });
});

describe("export", () => {
  test("[CL-16] as a backup: what was read is written, to the byte", async () => {
    const file = fileOf(...PAIR);
    expect(await asked("export herd.jsonl --as jsonl", file)).toMatchObject({ exit: 0, out: file, err: "" });
  });

  test("[CL-16] the invented herd on its own day, without its anchor: the same entries", async () => {
    const { out } = await onTheDay("export --as jsonl");
    const lines = readFileSync(join(DEMO_FOLDER, "demo.jsonl"), "utf8").split("\n");
    expect(out.split("\n").slice(1)).toEqual(lines.slice(1));
  });

  test("[CL-16] as a table: a row an animal, and the bucks that may be its sire", async () => {
    const { out } = await onTheDay("export --as csv");
    const rows = out.split("\r\n");
    expect(rows).toHaveLength(1 + 56 + 1);
    expect(rows[0]).toBe(
      "id,name,tag,chip,mark,sex,born,breed,dam,sire,possible_sires,head,grew_left,grew_right,left_herd,why",
    );
    expect(out).toMatch(
      /^demo-coltsfoot,Coltsfoot,23 \d\d,,[^,]*,buck,2023-03-12,,demo-bramble,,demo-rook,,horn,horn,2023-07-30,sold\r$/m,
    );
    expect(out).toMatch(/^demo-bryony,.*,demo-mallow,,demo-rook\|demo-gale,/m);
  });

  test("[CL-8] a name that a spreadsheet might run is guarded when asked", async () => {
    const file = fileOf(anEntry("animal", { animal: hazel, name: "=HYPERLINK(1)", sex: "doe" }, { on: "2025-01-01" }));
    expect((await asked("export herd.jsonl --as csv", file)).out).toContain("hazel,=HYPERLINK(1),");
    expect((await asked("export herd.jsonl --as csv --guard", file)).out).toContain("hazel,'=HYPERLINK(1),");
  });

  test("[CL-2] no form, another form, a guard where none is needed", async () => {
    const file = fileOf(...PAIR);
    expectRefusal(await asked("export herd.jsonl", file), 2, /^As what\?/);
    expectRefusal(
      await asked("export herd.jsonl --as csv --table horns", file),
      2,
      /^There is no table "horns"; there are animals, /,
    );
    expectRefusal(await asked("export herd.jsonl --as xml", file), 2, /^As what\?/);
    expectRefusal(await asked("export herd.jsonl --as jsonl --guard", file), 2, /--guard is for --as csv/);
  });
});
