import type { AnimalId } from "@pollard/genetics";
import { GROWN_HEADS } from "@pollard/records";
import { useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { GoatChoice } from "../../parts/answers/goat-choice.tsx";
import { isGrown } from "../../parts/grown.ts";
import { TextField } from "../../parts/answers/text-field.tsx";
import type { Origin } from "./model.ts";

/** What is known of a goat that came otherwise than by a kidding here: its grown head, its birth, its breed, its parents. */
export function OriginFields(props: {
  readonly of: AnimalId;
  readonly answers: Origin;
  readonly onAnswers: (answers: Origin) => void;
}) {
  const s = useScreens();
  const today = useToday();
  const goats = useAsked((answers) => answers.goats(today), [today]).value ?? [];
  const grown = goats.filter((goat) => goat.ref.id !== props.of && isGrown(goat, today));
  const dams = grown.filter((goat) => goat.ref.sex === "doe");
  const sires = grown.filter((goat) => goat.ref.sex === "buck" || goat.ref.sex === "wether");
  const { answers } = props;
  const say = (answer: Partial<Origin>): void => props.onAnswers({ ...answers, ...answer });
  return (
    <>
      <Answers
        name="head"
        legend={`${s.animalForm.head} ${s.frame.optional}`}
        value={answers.head}
        onAnswer={(head) => say({ head })}
        choices={[
          ...GROWN_HEADS.map((head) => ({ value: head, label: s.animalForm.heads[head] })),
          { value: "kid" as const, label: s.animalForm.headSkip },
        ]}
      />
      <p className="quiet">{s.animalForm.headHint}</p>
      <DayChoice
        legend={`${s.animalForm.born} ${s.frame.optional}`}
        today={today}
        value={answers.born}
        onDay={(born) => say({ born })}
        begin="blank"
      />
      <TextField label={s.animalForm.breed} value={answers.breed} onText={(breed) => say({ breed })} />
      {dams.length > 0 && (
        <GoatChoice
          legend={`${s.animalForm.dam} ${s.frame.optional}`}
          goats={dams}
          values={answers.dam === undefined ? [] : [answers.dam]}
          unknown={s.animalForm.parentUnknown}
          onValues={([dam]) => say({ dam })}
        />
      )}
      {sires.length > 0 && (
        <GoatChoice
          legend={`${s.animalForm.sire} ${s.frame.optional}`}
          goats={sires}
          values={answers.sire === undefined ? [] : [answers.sire]}
          unknown={s.animalForm.parentUnknown}
          onValues={([sire]) => say({ sire })}
        />
      )}
    </>
  );
}
