import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { DeviceId, EntryId, HerdId, Stamp } from "@pollard/records";
import { expect, test } from "vitest";
import { entryMaker } from "./entry-maker.ts";

const AHEAD = "2999-01-01T00:00:00.000Z-0000-other" as Stamp;

test("[UI-320] what follows an entry of a clock that was ahead comes after it; this phone's own time is not carried along", () => {
  const maker = entryMaker({ herd: "herd" as HerdId, device: "phone" as DeviceId, after: undefined });
  const note = { kind: "note", on: day("2026-03-01"), body: { animal: animalId("rook"), text: "limps" } } as const;
  const setting = { kind: "setting", on: day("2026-03-01"), body: { key: "vet", value: "Dr Alba" } } as const;
  const made = [
    maker.make("a" as EntryId, note, "Ines"),
    maker.make("b" as EntryId, setting, "Ines", AHEAD),
    maker.make("c" as EntryId, setting, "Ines", AHEAD),
    maker.make("d" as EntryId, note, "Ines"),
    maker.make("e" as EntryId, setting, "Ines", "2001-01-01T00:00:00.000Z-0000-other" as Stamp),
  ].map(({ at }) => at);
  const [first, second, third, fourth, fifth] = made as [Stamp, Stamp, Stamp, Stamp, Stamp];
  expect(first < AHEAD && AHEAD < second && second < third).toBe(true);
  expect(first < fourth && fourth < fifth && fifth < AHEAD).toBe(true);
});
