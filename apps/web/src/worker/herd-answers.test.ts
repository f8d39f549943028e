import "fake-indexeddb/auto";
import { readFileSync } from "node:fs";
import { day, present } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { DeviceId, HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { beforeAll, describe, expect, test } from "vitest";
import { openDevice } from "../adapters/device.ts";
import { herdDatabase } from "../adapters/database/herd-database.ts";
import { idbEntries } from "../adapters/database/idb-entries.ts";
import { takeInFile } from "../house/take-in-file.ts";
import { herdAnswers } from "./herd-answers.ts";

const demo = readFileSync(new URL("../../../../fixtures/herds/demo.jsonl", import.meta.url), "utf8");
const today = day("2026-03-18"); // the day on which the invented herd's story stands still
const answers = herdAnswers();

beforeAll(async () => {
  const device = await openDevice(() => "phone");
  const taken = await takeInFile(demo, device, today, "No name");
  if (!taken.ok) throw new Error(taken.error.code);
  await answers.open("demo-sallowbank" as HerdId, "phone" as DeviceId);
});

describe("a herd's answers", () => {
  test("[UI-35] the same file twice changes nothing", async () => {
    const device = await openDevice(() => "phone");
    expect(await device.herds()).toEqual([{ id: "demo-sallowbank", name: "Sallowbank", sort: "demo" }]);
    const again = await takeInFile(demo, device, today, "No name");
    expect(again.ok && again.value.added).toBe(0);
  });

  test("[UI-7] a head nobody has read is told by nobody: not on the list of animals, not as a belief", () => {
    const dunnock = present(
      answers.goats(today).find(({ ref }) => ref.name === "Dunnock"),
      "Dunnock",
    );
    expect(dunnock.head).toBe("unknown");
    expect(answers.kid(dunnock.ref.id, today)?.belief).toBe(undefined);
  });

  test("[UI-350] the litter just entered: who lives, and who was born dead, apart", () => {
    const { alive, dead } = answers.litter("0195c72b-78a0-7776-bd5f-dd4a33c79c5b");
    expect([alive, dead].map((kids) => kids.map(({ id }) => id))).toEqual([["demo-ousel"], ["demo-dipper"]]);
    expect(answers.litter("no such kidding")).toEqual({ alive: [], dead: [] });
  });

  test("[UI-36] what another hand adds is there after catching up, and nothing is read twice", async () => {
    const before = answers.today(today);
    const db = herdDatabase("demo-sallowbank" as HerdId);
    const over = { herd: "demo-sallowbank", on: "2026-03-18", id: "a-new-note" };
    await idbEntries(db).append([anEntry("note", { animal: animalId("demo-rook"), text: "limps" }, over)]);
    await db.close();
    expect(answers.animal(animalId("demo-rook"), today)?.model.animal.notes.map(({ text }) => text)).not.toContain(
      "limps",
    );
    await answers.catchUp();
    await answers.catchUp();
    const notes = answers.animal(animalId("demo-rook"), today)?.model.animal.notes ?? [];
    expect(notes.filter(({ text }) => text === "limps").length).toBe(1);
    expect(answers.today(today).tasks.length).toBe(before.tasks.length);
  });

  test("[UI-36] every screen has an answer on the invented herd, and the day may change under it", () => {
    for (const on of [today, day("2026-03-19"), today]) {
      expect(answers.today(on).tasks.length).toBeGreaterThan(5);
      expect(answers.plan(on).due.length).toBeGreaterThan(0);
      expect(answers.problems(on).problems.length).toBeGreaterThan(0);
      expect(answers.vetList(day("2026-03-20"), on).list.length).toBeGreaterThan(0);
      for (const { ref } of answers.goats(on)) expect(answers.animal(ref.id, on)?.model.ref.id).toBe(ref.id);
    }
    expect(answers.animal(animalId("nobody"), today)).toBe(undefined);
    expect(answers.kid(animalId("nobody"), today)).toBe(undefined);
  });

  test("[UI-15] the backup's text brings the same herd back elsewhere", async () => {
    const { text } = answers.backupText();
    indexedDB.deleteDatabase("pollard-herd-demo-sallowbank");
    const safety = text.split("\n").filter((line) => line.includes('"herd":"demo-sallowbank"')).length;
    expect(safety).toBeGreaterThan(400);
    expect(text).toContain("a-new-note");
  });

  test("[UI-248] after its clock went back a phone goes on from its own last stamp, not from another phone's clock", async () => {
    const later = { herd: "two-clocks", on: "2026-03-18" };
    const write = (id: string, device: string, at: string) =>
      anEntry("note", { animal: animalId("rook"), text: id }, { ...later, id, device, at });
    const [ours, theirs] = ["2199-01-01T00:00:00.000Z-0000-phone", "2199-02-01T00:00:00.000Z-0000-barn"];
    const db = herdDatabase("two-clocks" as HerdId);
    await idbEntries(db).append([write("of-this-phone", "phone", ours), write("of-another", "barn", theirs)]);
    await db.close();
    const two = herdAnswers();
    const opened = await two.open("two-clocks" as HerdId, "phone" as DeviceId);
    expect(opened.ok && opened.value.latest).toBe(ours);
    const safety = await two.safety();
    expect(safety.ok && safety.value.drift).toBe("Ines");
    await two.shut();
  });
});
