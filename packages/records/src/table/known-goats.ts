import { type Day, daysFrom } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import type { Sex } from "../entry/entry-kinds.ts";
import type { Animal } from "../herd.ts";
import { callKey } from "./list-columns.ts";

/** As much of a goat as is needed to find it: of the herd, or of a row that is coming in. */
export interface FoundGoat extends Pick<Animal, "id" | "name" | "tag" | "chip" | "born"> {
  readonly sex: Sex;
  readonly gone: "gone" | "here";
}

/** How a goat is asked for. */
export interface Wanted {
  readonly id?: string | undefined;
  readonly name?: string | undefined;
  readonly tag?: string | undefined;
  readonly chip?: string | undefined;
  readonly born?: Day | undefined;
}

/** Whom a row means: one goat, nobody known, several that it may be, or one whose tag it has and that is another. */
export type Match =
  | { readonly match: "one"; readonly goat: FoundGoat }
  | { readonly match: "none" }
  | { readonly match: "several"; readonly by: "name" | "tag" | "chip" }
  | { readonly match: "other"; readonly goat: FoundGoat };

/** Goats by everything that a list may call them. */
export interface KnownGoats {
  add(goat: FoundGoat): void;
  /** A goat by the name that the program has for it. */
  get(id: AnimalId): FoundGoat | undefined;
  /** The goat that a row means: by id, else chip, else tag, else name with nothing that speaks against it. */
  match(wanted: Wanted): Match;
  /** The goats that one word may mean, by the first of id, chip, tag and name that finds any. */
  called(word: string): readonly FoundGoat[];
}

export function knownGoats(): KnownGoats {
  const byId = new Map<AnimalId, FoundGoat>();
  const byWord = {
    chip: new Map<string, FoundGoat[]>(),
    tag: new Map<string, FoundGoat[]>(),
    name: new Map<string, FoundGoat[]>(),
  };
  const kinds = ["chip", "tag", "name"] as const;
  const wearing = (kind: (typeof kinds)[number], word: string | undefined): readonly FoundGoat[] =>
    word === undefined ? [] : (byWord[kind].get(callKey(word)) ?? []);

  return {
    add(goat) {
      byId.set(goat.id, goat);
      for (const kind of kinds) {
        const word = goat[kind];
        if (word === undefined) continue;
        const key = callKey(word);
        const others = byWord[kind].get(key);
        if (others) others.push(goat);
        else byWord[kind].set(key, [goat]);
      }
    },
    get: (id) => byId.get(id),
    match(wanted) {
      const named = wanted.id === undefined ? undefined : byId.get(wanted.id as AnimalId);
      if (named) return { match: "one", goat: named };
      const chipped = wearing("chip", wanted.chip);
      if (chipped.length > 0) return oneOf(chipped, "chip");
      const tagged = presentFirst(wearing("tag", wanted.tag));
      const fitting = tagged.filter((goat) => !isAnother(goat, wanted));
      if (fitting.length > 0) return oneOf(presentFirst(fitting), "tag");
      const [wearer] = tagged.filter(({ gone }) => gone === "here");
      if (wearer) return { match: "other", goat: wearer };
      const called = wearing("name", wanted.name).filter((goat) => mayBe(goat, wanted));
      const exact = called.filter(({ born }) => born !== undefined && born === wanted.born);
      return oneOf(exact.length > 0 ? exact : called, "name");
    },
    called(word) {
      const named = byId.get(word as AnimalId);
      if (named) return [named];
      for (const kind of kinds) {
        const found = wearing(kind, word);
        if (found.length > 0) return kind === "tag" ? presentFirst(found) : found;
      }
      return [];
    },
  };
}

function oneOf(goats: readonly FoundGoat[], by: "name" | "tag" | "chip"): Match {
  const [goat, ...others] = goats;
  if (goat === undefined) return { match: "none" };
  return others.length === 0 ? { match: "one", goat } : { match: "several", by };
}

/** Those that are here, or, where none is, all of them: a tag may be given again. */
function presentFirst(goats: readonly FoundGoat[]): readonly FoundGoat[] {
  const present = goats.filter(({ gone }) => gone === "here");
  return present.length > 0 ? present : goats;
}

const differ = (one: string | undefined, other: string | undefined): boolean =>
  one !== undefined && other !== undefined && callKey(one) !== callKey(other);

/** Same tag, and yet another goat: born on another day under another name, or with another chip. */
const isAnother = (goat: FoundGoat, wanted: Wanted): boolean =>
  differ(goat.chip, wanted.chip) || (differ(goat.name, wanted.name) && differ(goat.born, wanted.born));

/** Same name, and nothing that speaks against its being the same goat. */
const mayBe = (goat: FoundGoat, wanted: Wanted): boolean =>
  !differ(goat.tag, wanted.tag) && !differ(goat.chip, wanted.chip) && !bornApart(goat.born, wanted.born);

/** Days of birth that are further apart than this are of two goats of one name; nearer, one of the two is a slip. Our own choice. */
const SLIP_DAYS = 60;

const bornApart = (one: Day | undefined, other: Day | undefined): boolean =>
  one !== undefined && other !== undefined && Math.abs(daysFrom(one, other)) > SLIP_DAYS;
