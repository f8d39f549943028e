import { type Day, parseDay } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import { canHaveKidded, chipNumber, type ChipProblem, type Fact, type GrownHead, type Sex } from "@pollard/records";
import { clearingFact } from "../animal/model.ts";

/** What is known of a goat that came otherwise than by a kidding here. */
export interface Origin {
  /** `kid`: too young for a head to be called grown. */
  readonly head?: GrownHead | "kid" | undefined;
  readonly born?: Day | undefined;
  readonly breed: string;
  readonly dam?: string | undefined;
  readonly sire?: string | undefined;
}

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
  /** Of a doe: whether she kidded before she came. */
  readonly kidded?: "yes" | "no";
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

/** What of it the fact holds: nothing for what is not known. */
export const originBody = ({ head, born, breed, dam, sire }: Origin) =>
  told({
    breed: breed.trim() === "" ? undefined : breed.trim(),
    born: born === undefined ? undefined : parseDay(born),
    dam: dam === undefined ? undefined : animalId(dam),
    sire: sire === undefined ? undefined : animalId(sire),
    head: head === "kid" ? undefined : head,
  });

/** The same without what is not told. */
export const told = <T extends object>(answers: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(answers).filter(([, answer]) => answer !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };

/**
 * The fact, once the goat can be told from others: a name, a tag or a mark, and what it is taken for. A chip number that
 * cannot be one holds it up.
 */
export function animalFact(draft: AnimalDraft, today: Day): Fact | undefined {
  const [name, tag] = [draft.name.trim(), draft.tag.trim()];
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
      ...originBody(draft),
    },
  };
}

/** Whether it is asked of a goat that it has kidded: of a doe, unless she is said to be too young. */
export const mayHaveKidded = ({ sex, head, born }: AnimalDraft, today: Day): boolean =>
  sex === "doe" && head !== "kid" && canHaveKidded(born, today);

/** All that storing makes of it: the goat, and that she has kidded where that is answered with yes. */
export function animalFacts(draft: AnimalDraft, today: Day): readonly Fact[] | undefined {
  const goat = animalFact(draft, today);
  if (goat === undefined) return undefined;
  return draft.kidded === "yes" && mayHaveKidded(draft, today)
    ? [goat, clearingFact("kidded", draft.animal, today)]
    : [goat];
}
