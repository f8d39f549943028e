import type { AnimalId } from "@pollard/genetics";
import { chipNumber, type ChipProblem, type Fact, type Sex } from "@pollard/records";
import { chipWrong, type Origin, originBody } from "../animal-form/model.ts";

/** What a goat is called and taken for, as it stands in the form. */
export interface NameAnswers {
  readonly name: string;
  readonly tag: string;
  readonly mark: string;
  /** As it was typed; stands only where the fact can hold one. */
  readonly chip?: string;
  readonly sex: Sex;
}

/** The form as the fact has it now; nothing where the fact does not tell of this goat. */
export function namesIn(fact: Fact, animal: AnimalId): NameAnswers | undefined {
  const told =
    fact.kind === "animal"
      ? fact.body
      : fact.kind === "kidding"
        ? fact.body.kids.find(({ kid }) => kid === animal)
        : undefined;
  if (told === undefined) return undefined;
  const called = { name: told.name ?? "", tag: told.tag ?? "", mark: told.mark ?? "", sex: told.sex };
  return fact.kind === "animal" ? { ...called, chip: fact.body.chip ?? "" } : called;
}

/** What is on record of a goat that came otherwise than by a kidding here; nothing of a kid born in the herd. */
export function originIn(fact: Fact): Origin | undefined {
  if (fact.kind !== "animal") return undefined;
  const { head, born, breed = "", dam, sire } = fact.body;
  return { head, born, breed, dam, sire };
}

/** The same fact with this said of where the goat came from; everything else as it was. */
export function withOrigin(fact: Fact, origin: Origin): Fact {
  if (fact.kind !== "animal") return fact;
  const { head: _head, born: _born, breed: _breed, dam: _dam, sire: _sire, ...rest } = fact.body;
  return { ...bare(fact), kind: "animal", body: { ...rest, ...originBody(origin) } };
}

/** What is wrong with a chip number that was changed; one that stood there before holds up no other correction. */
export function chipMended(now: NameAnswers, form: NameAnswers): ChipProblem | undefined {
  return form.chip === now.chip ? undefined : chipWrong(form);
}

/** The same fact with this goat's name, tag, mark, chip number and sex as answered; everything else as it was. */
export function renamed(fact: Fact, animal: AnimalId, answers: NameAnswers): Fact {
  const [name, tag, mark] = [answers.name.trim(), answers.tag.trim(), answers.mark.trim()];
  const called = {
    ...(name === "" ? {} : { name }),
    ...(tag === "" ? {} : { tag }),
    ...(mark === "" ? {} : { mark }),
    sex: answers.sex,
  };
  if (fact.kind === "animal") {
    const { name: _name, tag: _tag, mark: _mark, chip: _chip, ...rest } = fact.body;
    const typed = answers.chip?.trim() ?? "";
    const read = chipNumber(typed);
    const chip = typed === "" ? {} : { chip: read.ok ? read.value : typed };
    return { ...bare(fact), kind: "animal", body: { ...rest, ...called, ...chip } };
  }
  if (fact.kind === "kidding") {
    const kids = fact.body.kids.map((kid) => {
      if (kid.kid !== animal) return kid;
      const { name: _name, tag: _tag, mark: _mark, ...rest } = kid;
      return { ...rest, ...called };
    });
    return { ...bare(fact), kind: "kidding", body: { ...fact.body, kids } };
  }
  return fact;
}

/** A fact without the envelope that an entry carries around it. */
const bare = ({ on }: Fact): { readonly on: string } => ({ on });
