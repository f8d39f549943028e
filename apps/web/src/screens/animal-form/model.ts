import { type Day, parseDay } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import { chipNumber, type ChipProblem, type Fact, type GrownHead, type Sex } from "@pollard/records";

/** A goat as far as it is described. */
export interface AnimalDraft {
  readonly animal: AnimalId;
  readonly name: string;
  readonly tag: string;
  /** As typed, or as a reader that types wrote it. */
  readonly chip?: string;
  /** What it is known by, where it has neither name nor tag yet. */
  readonly mark?: string;
  readonly sex?: Sex;
  readonly born?: Day;
  readonly breed: string;
  readonly dam?: string;
  readonly sire?: string;
  readonly head?: GrownHead | "kid";
}

export const firstAnimal = (animal: AnimalId): AnimalDraft => ({ animal, name: "", tag: "", breed: "" });

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readAnimal(stored: unknown): AnimalDraft | undefined {
  const draft = stored as Partial<AnimalDraft> | undefined;
  return typeof draft?.animal === "string" && typeof draft.name === "string" ? (draft as AnimalDraft) : undefined;
}

/** What is wrong with the chip number as far as it stands; nothing while the field is empty. */
export function chipWrong({ chip = "" }: Pick<AnimalDraft, "chip">): ChipProblem | undefined {
  const read = chipNumber(chip);
  return chip.trim() === "" || read.ok ? undefined : read.error;
}

/** What keeps the goat from being told from others: a name, a tag or a mark, a chip number that can be one, what it is taken for. */
export function animalMissing(draft: AnimalDraft): readonly ("name" | "chip" | "sex")[] {
  const nameless = [draft.name, draft.tag, draft.mark ?? ""].every((typed) => typed.trim() === "");
  return [
    ...(nameless ? (["name"] as const) : []),
    ...(chipWrong(draft) === undefined ? [] : (["chip"] as const)),
    ...(draft.sex === undefined ? (["sex"] as const) : []),
  ];
}

/**
 * The fact, once the goat can be told from others: a name, a tag or a mark, and what it is taken for. A chip number that
 * cannot be one holds it up.
 */
export function animalFact(draft: AnimalDraft, today: Day): Fact | undefined {
  const [name, tag, breed] = [draft.name.trim(), draft.tag.trim(), draft.breed.trim()];
  const mark = draft.mark?.trim() ?? "";
  if (draft.sex === undefined || animalMissing(draft).length > 0) return undefined;
  const chip = chipNumber(draft.chip ?? "");
  return {
    kind: "animal",
    on: today,
    body: {
      animal: draft.animal,
      sex: draft.sex,
      ...(name === "" ? {} : { name }),
      ...(tag === "" ? {} : { tag }),
      ...(mark === "" ? {} : { mark }),
      ...(chip.ok ? { chip: chip.value } : {}),
      ...(breed === "" ? {} : { breed }),
      ...(draft.born === undefined || parseDay(draft.born) === undefined ? {} : { born: draft.born }),
      ...(draft.dam === undefined ? {} : { dam: animalId(draft.dam) }),
      ...(draft.sire === undefined ? {} : { sire: animalId(draft.sire) }),
      ...(draft.head === undefined || draft.head === "kid" ? {} : { head: draft.head }),
    },
  };
}
