import { animalId } from "@pollard/genetics";
import { GROWN_HEADS, SEXES } from "@pollard/records";
import { SexMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers.tsx";
import { DayChoice } from "../../parts/day-choice.tsx";
import { Frame } from "../../parts/frame.tsx";
import { SavedLine } from "../../parts/saved-line.tsx";
import { GoatChoice } from "../../parts/goat-choice.tsx";
import { isGrown } from "../../parts/grown.ts";
import { Lacks } from "../../parts/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/storing.tsx";
import { TextField } from "../../parts/text-field.tsx";
import { useDraft } from "../../parts/use-draft.ts";
import { animalFact, animalMissing, chipWrong, firstAnimal, readAnimal } from "./model.ts";

/** A goat that came to the herd otherwise than by a kidding here: bought, or there before the book began. */
export function AnimalFormScreen() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const goats = useAsked((answers) => answers.goats(today), [today]).value ?? [];
  const draft = useDraft("animal", "new", () => firstAnimal(animalId(house.newId())), readAnimal);
  const { answers } = draft;
  const fact = answers && animalFact(answers, today);
  const storing = useStoring(fact, `/animal/${answers?.animal}`, draft);
  if (answers === undefined)
    return (
      <Frame heading={s.animalForm.title} title={s.animalForm.title} back="/animals" capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  const say = (answer: Partial<typeof answers>): void => draft.keep({ ...answers, ...answer }, "form");
  const sayParent = (parent: "dam" | "sire", id: string | undefined): void => {
    const { [parent]: _, ...others } = answers;
    draft.keep(id === undefined ? others : { ...others, [parent]: id }, "form");
  };
  const wrong = chipWrong(answers);
  const said = {
    name: s.animalForm.nameTagOrMark,
    chip: wrong === undefined ? "" : s.lists.chipWrong[wrong],
    sex: s.frame.toAnswer(s.animalForm.sex),
  };
  const grown = goats.filter((goat) => isGrown(goat, today));
  const dams = grown.filter((goat) => goat.ref.sex === "doe");
  const sires = grown.filter((goat) => goat.ref.sex === "buck" || goat.ref.sex === "wether");
  return (
    <Frame
      heading={s.animalForm.title}
      title={s.animalForm.title}
      back="/animals"
      capture="capture"
      dock={<StoreDock storing={storing} label={s.animalForm.store} line="always" />}
    >
      <Lacks of={storing.lacking(animalMissing(answers).map((field) => ({ field, said: said[field] })))}>
        <h1 className="in-board">{s.animalForm.title}</h1>
        <TextField name="name" label={s.animalForm.name} value={answers.name} onText={(name) => say({ name })} />
        <TextField
          label={s.animalForm.tag}
          hint={s.animalForm.tagHint}
          value={answers.tag}
          onText={(tag) => say({ tag })}
        />
        <TextField
          label={s.kidding.mark}
          hint={s.kidding.markHint}
          value={answers.mark ?? ""}
          onText={(mark) => say({ mark })}
        />
        <TextField
          label={s.lists.chip}
          hint={s.lists.chipHint}
          keys="numeric"
          value={answers.chip ?? ""}
          onText={(chip) => say({ chip })}
          name="chip"
        />
        <Answers
          name="sex"
          legend={s.animalForm.sex}
          value={answers.sex}
          onAnswer={(sex) => say({ sex })}
          choices={SEXES.map((sex) => ({
            value: sex,
            label: s.animals.sex[sex],
            drawing: <SexMark sex={sex} />,
            ...(sex === "unsure" ? { weight: "faint" as const } : {}),
          }))}
        />
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
        />
        <TextField label={s.animalForm.breed} value={answers.breed} onText={(breed) => say({ breed })} />
        {dams.length > 0 && (
          <GoatChoice
            legend={`${s.animalForm.dam} ${s.frame.optional}`}
            goats={dams}
            values={answers.dam === undefined ? [] : [answers.dam]}
            unknown={s.animalForm.parentUnknown}
            onValues={([dam]) => sayParent("dam", dam)}
          />
        )}
        {sires.length > 0 && (
          <GoatChoice
            legend={`${s.animalForm.sire} ${s.frame.optional}`}
            goats={sires}
            values={answers.sire === undefined ? [] : [answers.sire]}
            unknown={s.animalForm.parentUnknown}
            onValues={([sire]) => sayParent("sire", sire)}
          />
        )}
      </Lacks>
    </Frame>
  );
}
