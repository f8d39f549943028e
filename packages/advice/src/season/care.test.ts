import { addDays, day, present } from "@pollard/base";
import type { BodyOf, Entry } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { goat, HORNED_SIGNS, id, kidding, reading, service, situation } from "../testing.ts";
import { todayModel } from "../today/today.ts";
import { vetList } from "../today/vet-list.ts";
import { careTasks, heldBack } from "./care.ts";
import { growthModels } from "./growth.ts";
import { kiddingDays } from "./pregnancies.ts";
import { visitorsModel } from "./visitors.ts";

const herd = [goat("Ash", "doe"), goat("Elm", "doe"), goat("Rook", "buck")];
const born = kidding("Ash", "2026-03-04", { Moss: "doe", Burr: "buck" }, ["Rook"]);
const given = (animal: string, task: string, on: string, more: Partial<BodyOf<"care">> = {}): Entry =>
  anEntry("care", { animals: [id(animal)], task, answer: "done", ...more }, { on });
const weight = (animal: string, on: string, kg: number): Entry =>
  anEntry("weight", { animal: id(animal), kg, how: "weighed" }, { on });
const setting = (key: string, value: string | number): Entry =>
  anEntry("setting", { key, value }, { on: "2025-11-01" });

const tasks = (today: string, ...more: readonly Entry[]): readonly string[] =>
  careTasks(situation([...herd, ...more], today)).map((t) => `${t.code} ${t.animal.name}`);

describe("care", () => {
  test("[AD-38] on the day of birth: navel, colostrum, a weight, tetanus cover, the afterbirth", () => {
    const day0 = tasks("2026-03-04", born);
    for (const task of ["navel Moss", "colostrum Moss", "birth-weight Burr", "tetanus-cover Moss", "afterbirth Ash"])
      expect(day0).toContain(task);
    expect(tasks("2026-03-10", born)).not.toContain("navel Moss");
  });

  test("[AD-38] before kidding: drying off, the booster, the pen, each in its time", () => {
    const served = service("Ash", ["Rook"], "2025-10-05");
    expect(tasks("2025-10-25", served)).toContain("heat-watch Ash");
    expect(tasks("2025-11-25", served)).toContain("pregnancy-scan Ash");
    expect(tasks("2026-01-06", served)).toContain("dry-off Ash");
    expect(tasks("2026-02-01", served)).toContain("dam-booster Ash");
    expect(tasks("2026-02-25", served)).toContain("kidding-pen Ash");
    expect(tasks("2025-11-10", served)).toEqual([]);
  });

  test("[AD-111] after a long spell in the pen the kidding pen is due by the first day of watching; the vet's own days hold", () => {
    const spell = service("Ash", ["Rook"], "2025-08-10", "2025-10-20");
    const from = present(kiddingDays(situation([...herd, spell], "2025-12-01").herd, id("Ash")), "days").from;
    const pen = (today: string, ...more: readonly Entry[]) =>
      careTasks(situation([...herd, spell, ...more], today)).find(({ code }) => code === "kidding-pen");
    expect(pen(from)).toMatchObject({ from: addDays(from, -5), by: from });
    expect(pen(addDays(from, -6))).toBeUndefined();
    expect(pen(addDays(from, 5))?.by).toBe(from);
    expect(pen(from, setting("care-kidding-pen-by", -4))).toBeUndefined();
    // A day of service that is known: five days before the likely day, common practice, as far as watching begins no sooner.
    const known = situation([...herd, service("Ash", ["Rook"], "2025-10-05")], "2026-02-25");
    const { likely } = present(kiddingDays(known.herd, id("Ash")), "days");
    expect(careTasks(known).find(({ code }) => code === "kidding-pen")?.by).toBe(addDays(likely, -5));
  });

  test("[AD-39] done and not needed are answers; put off comes back on its day, with the reason", () => {
    expect(tasks("2026-03-04", born, given("Moss", "navel", "2026-03-04"))).not.toContain("navel Moss");
    const off = given("Burr", "castration", "2026-03-08", { answer: "not-needed", because: "kept as a sire" });
    expect(tasks("2026-03-10", born, off)).not.toContain("castration Burr");
    const later = given("Burr", "castration", "2026-03-08", {
      answer: "put-off",
      until: day("2026-04-20"),
      because: "scours",
    });
    const [task] = careTasks(situation([...herd, born, later], "2026-04-15")).filter((t) => t.code === "castration");
    expect(task).toMatchObject({ state: "put-off", by: "2026-04-20", because: "scours" });
  });

  test("[AD-39] a booster of last year is not this year's", () => {
    const served = service("Ash", ["Rook"], "2025-10-05");
    expect(tasks("2026-02-01", served, given("Ash", "dam-booster", "2025-02-01"))).toContain("dam-booster Ash");
    expect(tasks("2026-02-01", served, given("Ash", "dam-booster", "2026-01-30"))).not.toContain("dam-booster Ash");
  });

  test("[AD-39] other entries answer, too: a weight at birth, a scan", () => {
    expect(tasks("2026-03-05", born, weight("Moss", "2026-03-04", 3))).not.toContain("birth-weight Moss");
    const served = service("Ash", ["Rook"], "2025-10-05");
    const scan = anEntry(
      "pregnancy-check",
      { doe: id("Ash"), way: "ultrasound", found: "pregnant" },
      { on: "2025-11-22" },
    );
    expect(tasks("2025-11-25", served, scan)).not.toContain("pregnancy-scan Ash");
  });

  test("[AD-39] the second vaccination counts from the first", () => {
    const first = given("Moss", "kid-vaccine", "2026-04-12");
    expect(tasks("2026-05-04", born, first)).toContain("kid-vaccine-again Moss");
    expect(tasks("2026-04-20", born, first)).not.toContain("kid-vaccine-again Moss");
    expect(tasks("2026-05-04", born)).not.toContain("kid-vaccine-again Moss");
  });

  test("[AD-40] the vet's word wins: off, on, and other days", () => {
    expect(tasks("2026-04-09", born)).toContain("kid-vaccine Moss");
    expect(tasks("2026-04-09", born, setting("care-kid-vaccine", "off"))).not.toContain("kid-vaccine Moss");
    expect(tasks("2026-03-30", born, setting("care-kid-vaccine-from", 21))).toContain("kid-vaccine Moss");
    const served = service("Ash", ["Rook"], "2025-10-05");
    expect(tasks("2026-02-08", served, setting("care-selenium", "on"))).toContain("selenium Ash");
  });

  test("[AD-39] days of withdrawal are kept as the vet told them, the last day included", () => {
    const wormed = given("Ash", "worming", "2026-03-01", { means: "as told", noMilkUntil: day("2026-03-12") });
    const held = (today: string) => heldBack(situation([...herd, wormed], today)).map((h) => h.animal.name);
    expect(held("2026-03-12")).toEqual(["Ash"]);
    expect(held("2026-03-13")).toEqual([]);
  });

  test("[AD-38] the last weight tells when a kid may be weaned", () => {
    const pressing = (kg: number) =>
      careTasks(situation([...herd, born, weight("Moss", "2026-05-02", kg)], "2026-05-03")).find(
        (t) => t.code === "weaning" && t.animal.name === "Moss",
      )?.pressing;
    expect(pressing(8.5)).toBeUndefined();
    expect(pressing(9)).toBe("heavy-enough");
  });

  test("[AD-38] a goat that has left, and a kid born dead, ask for nothing", () => {
    const gone = anEntry("departure", { animal: id("Moss"), why: "sold" }, { on: "2026-03-04" });
    expect(tasks("2026-03-04", born, gone).filter((t) => t.endsWith("Moss"))).toEqual([]);
  });

  test("[AD-38] today's list has one line for all whose turn it is, until its days are over", () => {
    const lines = (today: string) =>
      todayModel(situation([...herd, born], today)).tasks.flatMap(({ task }) =>
        task.kind === "care" ? [`${task.code} ${task.animals.map((a) => a.name).join(" ")}`] : [],
      );
    expect(lines("2026-03-04")).toContain("navel Burr Moss");
    expect(lines("2026-03-05").some((line) => line.startsWith("navel"))).toBe(false);
  });
});

describe("growth", () => {
  const thin = [
    weight("Moss", "2026-03-04", 3.2),
    weight("Moss", "2026-03-11", 4.6),
    weight("Moss", "2026-03-14", 4.1),
  ];

  test("[AD-36] a kid that loses weight is on today's list, first of all kids", () => {
    const now = situation([...herd, born, ...thin], "2026-03-15");
    expect(growthModels(now)[0]).toMatchObject({ state: "losing", kid: { name: "Moss" }, last: { kg: 4.1 } });
    const found = todayModel(now).tasks.find(({ task }) => task.kind === "falling-behind");
    expect(found).toMatchObject({ urgency: "now", task: { how: "losing", lastKg: 4.1 } });
    const later = todayModel(situation([...herd, born, ...thin], "2026-04-15")).tasks;
    expect(later.some(({ task }) => task.kind === "falling-behind")).toBe(false);
  });

  test("[AD-36] a weight near 90 days is corrected for litter, dam and sex", () => {
    const weights = [weight("Moss", "2026-03-04", 3), weight("Moss", "2026-06-02", 15)];
    const [moss] = growthModels(situation([...herd, born, ...weights], "2026-06-03")).filter(
      (g) => g.kid.name === "Moss",
    );
    // Born and raised as twins of a three years old dam, a doeling: 15 x 1.18 x 1 x 1.11.
    expect(moss?.ninetyDayKg).toBeCloseTo(15 * 1.18 * 1.11, 6);
  });

  test("[AD-37] the vet's list has the weight expected on the day, and says who is new on it", () => {
    const entries = [
      born,
      weight("Moss", "2026-03-04", 3.2),
      weight("Moss", "2026-03-08", 3.9),
      reading("Moss", "2026-03-09", HORNED_SIGNS),
      anEntry("vet-day", {}, { on: "2026-03-11" }),
    ];
    const [line] = vetList(situation([...herd, ...entries], "2026-03-09"), day("2026-03-11")).list;
    expect(line).toMatchObject({ kid: { name: "Moss" }, since: "2026-03-09", colostrum: "not-recorded" });
    expect(line?.expectedKg?.mean).toBeGreaterThan(4);
    expect(line?.expectedKg?.mean).toBeLessThan(5);
    expect(line?.pressing).toEqual(["weigh-on-the-morning", "tetanus-cover"]);
  });

  test("[AD-37] tetanus cover comes from the dam's booster in time, or the kid's own", () => {
    const entries = [
      born,
      reading("Moss", "2026-03-09", HORNED_SIGNS),
      anEntry("vet-day", {}, { on: "2026-03-11" }),
      weight("Moss", "2026-03-11", 4),
    ];
    const pressing = (...more: readonly Entry[]) =>
      vetList(situation([...herd, ...entries, ...more], "2026-03-11"), day("2026-03-11")).list[0];
    expect(pressing()?.pressing).toEqual(["tetanus-cover"]);
    expect(pressing(given("Ash", "dam-booster", "2026-02-02"))).toMatchObject({
      pressing: [],
      tetanus: { damBooster: "2026-02-02" },
    });
    expect(pressing(given("Ash", "dam-booster", "2026-03-01"))?.pressing).toEqual(["tetanus-cover"]);
    expect(pressing(given("Moss", "tetanus-cover", "2026-03-05"))?.pressing).toEqual([]);
  });
});

describe("visitors", () => {
  const state = (today: string, ...more: readonly Entry[]) => visitorsModel(situation([...herd, ...more], today));

  test("[AD-41] nobody due, nobody born: closed", () => {
    expect(state("2025-12-01")).toMatchObject({ state: "closed", from: undefined, afterLoss: [] });
  });

  test("[AD-41] from the first day on which a doe may kid until four weeks after the last birth", () => {
    const served = service("Ash", ["Rook"], "2025-10-05");
    expect(state("2026-02-01", served)).toMatchObject({ state: "closed", from: "2026-02-28" });
    expect(state("2026-03-01", served)).toMatchObject({ state: "open", from: "2026-02-28" });
    expect(state("2026-04-01", served, born)).toMatchObject({ state: "open", to: "2026-04-01" });
    expect(state("2026-04-02", served, born).state).toBe("closed");
  });

  test("[AD-41] after a loss the keeper is told, for four weeks", () => {
    const lost = anEntry("abortion", { doe: id("Ash") }, { on: "2026-01-10" });
    expect(state("2026-01-12", lost).afterLoss).toContain("gloves-and-vet");
    expect(state("2026-02-12", lost).afterLoss).toEqual([]);
    const listed = (today: string) =>
      todayModel(situation([...herd, lost], today)).tasks.some(({ task }) => task.kind === "lost-kids");
    expect(listed("2026-01-10")).toBe(true);
    expect(listed("2026-01-20")).toBe(false);
  });
});
