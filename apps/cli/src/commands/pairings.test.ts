import { animalId } from "@pollard/genetics";
import { type Entry, type HerdId, writeHerdFile } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { type Printed, typed } from "../testing.ts";

const goat = (name: string, sex: "doe" | "buck", head: "horned" | "polled"): Entry =>
  anEntry("animal", { animal: animalId(name.toLowerCase()), name, sex, head }, { on: "2023-01-01" });
const kidding = (dam: string, on: string, kids: readonly string[], buck: string): Entry =>
  anEntry(
    "kidding",
    {
      dam: animalId(dam),
      bucks: [animalId(buck)],
      kids: kids.map((kid) => ({ kid: animalId(kid), name: kid, sex: "doe", born: "alive" })),
    },
    { on },
  );
const grew = (kid: string, what: "horn" | "nothing"): Entry =>
  anEntry("outcome", { animal: animalId(kid), left: what, right: what }, { on: "2026-07-01" });

const HERD = [
  goat("Rook", "buck", "polled"),
  goat("Flint", "buck", "horned"),
  goat("Ash", "doe", "horned"),
  goat("Beech", "doe", "horned"),
  goat("Fern", "doe", "polled"),
  kidding("ash", "2026-03-01", ["Newt", "Eft"], "rook"),
  kidding("fern", "2026-03-04", ["Ember"], "rook"),
  grew("Newt", "horn"),
  grew("Eft", "nothing"),
  grew("Ember", "nothing"),
];
const asked = (question: string, herd: readonly Entry[] = HERD): Promise<Printed> => {
  const [command = "", ...words] = question.split(" ");
  const [kind, ...rest] = command === "sheet" ? words : ["", ...words];
  const line = [
    command,
    ...(kind === undefined || kind === "" ? [] : [kind]),
    "herd.jsonl",
    ...rest,
    "--on",
    "2026-09-01",
  ];
  return typed(line, { files: { "herd.jsonl": writeHerdFile(herd, { herd: "herd" as HerdId }) } });
};
const json = ({ out }: Printed): unknown => JSON.parse(out);

describe("pairings", () => {
  test("[CL-21] horned does to the polled buck, the polled doe to the horned one, with reasons", async () => {
    const { exit, out, err } = await asked("pairings");
    expect([exit, err]).toEqual([0, ""]);
    expect(out).toMatch(/Ash +Rook/);
    expect(out).toMatch(/Fern +Flint .*Both are polled/);
    expect(out).toContain("it agrees");
    expect(out).toContain("Ask the vet");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });

  test("[CL-21] wishes that contradict each other are named, and the answer is no", async () => {
    const { exit, out } = await asked("pairings --must Ash:Rook --never Ash:Rook");
    expect(exit).toBe(1);
    expect(out).toContain("Ash goes to Rook, as you wish.");
    expect(out).toContain("Ash does not go to Rook, as you wish.");
  });

  test("[CL-21] one pair, a buck to buy, and the plain data", async () => {
    const pair = await asked("pairings --pair Fern:Rook");
    expect(pair.out).toContain("Closed: No two polled parents.");
    const bought = json(await asked("pairings --buy PP --json")) as { bucks: { name: string }[] };
    expect(bought.bucks.map((b) => b.name)).toContain("a PP buck");
  });

  test("[CL-21] what was mistyped is said", async () => {
    expect(await asked("pairings --must Ash")).toMatchObject({
      exit: 2,
      err: '"Ash" is not A:B, as --must needs it.\n',
    });
    expect(await asked("pairings --must Ash:Nobody")).toMatchObject({ exit: 2, err: 'There is no goat "Nobody".\n' });
    expect((await asked("pairings --buy brown")).exit).toBe(2);
  });

  test("[CL-22] policies side by side, the same for the same seed", async () => {
    const { exit, out } = await asked("forecast --years 3 --runs 40 --seed 5");
    expect(exit).toBe(0);
    expect(out).toContain("Horned bucks on all does");
    expect(out).toContain("Heads to disbud");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
    expect(await asked("forecast --years 3 --runs 40 --seed 5")).toMatchObject({ exit, out, err: "" });
    expect((await asked("forecast --years 40")).exit).toBe(2);
  });

  test("[CL-23] what a test is worth, and no chance of a head that nobody has read", async () => {
    const newborn = kidding("beech", "2026-08-30", ["Pip"], "rook");
    const { exit, out } = await asked("testworth", [...HERD, newborn]);
    expect(exit).toBe(0);
    expect(out).toContain("worth testing");
    expect(out).not.toMatch(/Pip.*Pp 0/);
  });

  test("[CL-24] a season against what was expected, and no season at all", async () => {
    const { exit, out } = await asked("review");
    expect(exit).toBe(0);
    expect(out).toContain("Horned, of heads that are known: 1 of 3");
    expect(await asked("review --year 1999")).toMatchObject({ exit: 1 });
    expect((await asked("review --year soon")).exit).toBe(2);
  });

  test("[CL-24] the season on one sheet of paper", async () => {
    const { exit, out } = await asked("sheet season");
    expect(exit).toBe(0);
    expect(out).toContain("<h2>By sire</h2>");
    expect(out).toContain("Horned, of heads that are known: 1 of 3");
    expect((await asked("sheet season --year soon")).exit).toBe(2);
  });

  test("[CL-24] the young goats side by side; the one of two polled parents waits for the vet or a test", async () => {
    const { out } = await asked("review --kids");
    expect(out).toMatch(/Ember +doe .*  company +intersex is not/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
    expect(out).toMatch(/Eft +doe .*breeding/);
  });
});
