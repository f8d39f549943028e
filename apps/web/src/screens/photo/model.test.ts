import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { fold } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { photoFact, photosShown, readPhotoDraft } from "./model.ts";

const hazel = animalId("hazel");
const photo = (name: string, on: string) => anEntry("photo", { animal: hazel, photo: name, what: "head" }, { on });

describe("photos of a goat", () => {
  test("[UI-83] a kept photo is a fact: whose, what, under which name, when", () => {
    const draft = { what: "head", photo: "pic-1", camera: "opened" } as const;
    expect(photoFact(draft, hazel, day("2026-03-18"), "07:12")).toEqual({
      kind: "photo",
      on: "2026-03-18T07:12",
      body: { animal: "hazel", photo: "pic-1", what: "head" },
    });
  });

  test("[UI-83] what stands in no draft of a photo is not taken for one", () => {
    const draft = { what: "goat", photo: "pic-1", camera: "not-yet" };
    expect(readPhotoDraft(draft)).toEqual(draft);
    for (const other of [undefined, {}, { ...draft, what: "tail" }, { ...draft, photo: 3 }, { ...draft, camera: "on" }])
      expect(readPhotoDraft(other)).toBeUndefined();
  });

  test("[UI-83] the newest first, each picture once", () => {
    const entries = [
      anEntry("animal", { animal: hazel, sex: "doe" }, { on: "2026-01-02" }),
      photo("old", "2026-02-01"),
      photo("new", "2026-03-01"),
      photo("old", "2026-01-15"),
    ];
    const animal = fold(entries, day("2026-03-18")).herd.animals.get(hazel);
    expect(animal === undefined ? [] : photosShown(animal).map((p) => p.photo)).toEqual(["new", "old"]);
  });
});
