import { type Sex, SEXES } from "@pollard/records";
import { SexMark } from "../../drawings/marks.tsx";
import { useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";

/** What a goat is called, and its sex. */
interface Called {
  readonly name: string;
  readonly tag: string;
  readonly mark: string;
  readonly chip: string;
  readonly sex: Sex;
}

/** The fields in which a goat is named and its sex said; `withoutChip`: a kid's birth keeps no chip number. */
export function NameFields(props: {
  readonly answers: Partial<Called>;
  readonly onAnswer: (answer: Partial<Called>) => void;
  readonly withoutChip?: boolean;
}) {
  const { answers, onAnswer, withoutChip = false } = props;
  const s = useScreens();
  return (
    <>
      <TextField
        name="name"
        label={s.animalForm.name}
        value={answers.name ?? ""}
        onText={(name) => onAnswer({ name })}
      />
      <TextField
        label={s.animalForm.tag}
        hint={s.animalForm.tagHint}
        value={answers.tag ?? ""}
        onText={(tag) => onAnswer({ tag })}
      />
      <TextField
        label={s.kidding.mark}
        hint={s.kidding.markHint}
        value={answers.mark ?? ""}
        onText={(mark) => onAnswer({ mark })}
      />
      {!withoutChip && (
        <TextField
          label={s.lists.chip}
          hint={s.lists.chipHint}
          keys="numeric"
          value={answers.chip ?? ""}
          onText={(chip) => onAnswer({ chip })}
          name="chip"
        />
      )}
      <Answers
        name="sex"
        legend={s.animalForm.sex}
        value={answers.sex}
        onAnswer={(sex) => onAnswer({ sex })}
        choices={SEXES.map((sex) => ({
          value: sex,
          label: s.animals.sex[sex],
          drawing: <SexMark sex={sex} />,
          ...(sex === "unsure" ? { weight: "faint" as const } : {}),
        }))}
      />
    </>
  );
}
