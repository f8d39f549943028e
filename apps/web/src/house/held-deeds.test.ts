import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { EntryId } from "@pollard/records";
import { expect, test } from "vitest";
import { type HeldDeed, heldDeeds } from "./held-deeds.ts";

let count = 0;
/** A note on a goat, as one tap would make it: each with an id of its own. */
const limps = (goat: string): HeldDeed => ({
  said: `Noted: ${goat}`,
  who: "Ines",
  facts: [
    {
      id: `entry-${++count}` as EntryId,
      fact: { kind: "note", on: day("2026-03-16"), body: { animal: animalId(goat), text: "limps" } },
    },
  ],
});
const saidIn = (held: ReturnType<typeof heldDeeds>) => held.all().map(({ said }) => said);

test("[UI-250] what the disk did not take is held in the order of the taps, tapped twice it is one, and kept it is let go", () => {
  const held = heldDeeds();
  const [moth, wren] = [limps("Moth"), limps("Wren")];
  held.hold(moth);
  held.hold(wren);
  expect(saidIn(held)).toEqual(["Noted: Moth", "Noted: Wren"]);
  held.hold(limps("Moth"));
  expect(saidIn(held)).toEqual(["Noted: Wren", "Noted: Moth"]);
  held.letGo(moth.facts);
  expect(saidIn(held)).toEqual(["Noted: Wren"]);
  held.letGo(limps("Sedge").facts);
  expect(saidIn(held)).toEqual(["Noted: Wren"]);
});
