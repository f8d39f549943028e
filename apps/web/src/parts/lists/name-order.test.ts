import type { AnimalRef } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { afterAll, describe, expect, test } from "vitest";
import { speak } from "../../house/wording.ts";
import { byName } from "./name-order.ts";
import { sorted } from "./sorted.ts";

const goat = (name: string | undefined, tag?: string, damName?: string): AnimalRef => ({
  id: animalId(`${name}${tag}${damName}`),
  name,
  tag,
  mark: undefined,
  sex: "doe",
  damName,
});
const goats = [
  goat(undefined, undefined, "Ada"),
  goat("Oca"),
  goat("Ñusta"),
  goat("Nube"),
  goat("Ágata"),
  goat("bruma"),
];
const order = () => goats.toSorted(byName).map(({ name }) => name);

afterAll(async () => {
  await speak("en");
});

describe("the order of names", () => {
  test("[UI-204] each language has its letters where its readers look for them; the nameless come last", async () => {
    expect(order()).toEqual(["Ágata", "bruma", "Nube", "Ñusta", "Oca", undefined]);
    expect(sorted(["Ñu", "Nz"], (name) => name, "up")).toEqual(["Ñu", "Nz"]);
    await speak("es");
    expect(order()).toEqual(["Ágata", "bruma", "Nube", "Ñusta", "Oca", undefined]);
    expect(sorted(["Ñu", "Nz"], (name) => name, "up")).toEqual(["Nz", "Ñu"]);
  });

  test("[UI-204] tags count as numbers do", () => {
    const tags = [goat(undefined, "10"), goat(undefined, "9"), goat(undefined, "2")];
    expect(tags.toSorted(byName).map(({ tag }) => tag)).toEqual(["2", "9", "10"]);
  });
});
