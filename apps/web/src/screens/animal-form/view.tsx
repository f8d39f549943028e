import { animalId } from "@pollard/genetics";
import { useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { SavedLine } from "../../parts/keeping/saved-line.tsx";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { useDraft } from "../../parts/keeping/use-draft.ts";
import { animalFacts, animalMissing, chipWrong, firstAnimal, mayHaveKidded, readAnimal, told } from "./model.ts";
import { NameFields } from "./name-fields.tsx";
import { OriginFields } from "./origin-fields.tsx";

/** A goat that came to the herd otherwise than by a kidding here: bought, or there before the book began. */
export function AnimalFormScreen() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const draft = useDraft("animal", "new", () => firstAnimal(animalId(house.newId())), readAnimal);
  const { answers } = draft;
  const facts = answers && animalFacts(answers, today);
  const storing = useStoring(facts, `/animal/${answers?.animal}`, draft);
  if (answers === undefined)
    return (
      <Frame heading={s.animalForm.title} title={s.animalForm.title} back="/animals" capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  const say = (answer: Partial<typeof answers>): void => draft.keep({ ...answers, ...answer }, "form");
  const wrong = chipWrong(answers);
  const said = {
    name: s.animalForm.nameTagOrMark,
    chip: wrong === undefined ? "" : s.lists.chipWrong[wrong],
    sex: s.frame.toAnswer(s.animalForm.sex),
  };
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
        <NameFields answers={answers} onAnswer={say} />
        {mayHaveKidded(answers, today) && (
          <>
            <Answers
              name="kidded"
              legend={`${s.animalForm.kidded} ${s.frame.optional}`}
              value={answers.kidded}
              onAnswer={(kidded) => say({ kidded })}
              choices={(["yes", "no"] as const).map((kidded) => ({
                value: kidded,
                label: s.animalForm.kiddedAnswers[kidded],
              }))}
            />
            <p className="quiet">{s.animalForm.kiddedHint}</p>
          </>
        )}
        <OriginFields
          of={answers.animal}
          answers={answers}
          onAnswers={({ head, born, breed, dam, sire }) => {
            const { head: _head, born: _born, dam: _dam, sire: _sire, ...others } = answers;
            draft.keep({ ...others, breed, ...told({ head, born, dam, sire }) }, "form");
          }}
        />
      </Lacks>
    </Frame>
  );
}
