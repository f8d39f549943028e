import { animalId } from "@pollard/genetics";
import { type Fact, SEXES } from "@pollard/records";
import { useState } from "react";
import { SexMark } from "../../drawings/marks.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import type { Origin } from "../animal-form/model.ts";
import { OriginFields } from "../animal-form/origin-fields.tsx";
import { chipMended, type NameAnswers, namesIn, originIn, renamed, withOrigin } from "./model.ts";

/** What a goat is called: a kid named weeks after it was born, a tag that was misread, a sex that was taken wrongly. */
export function CorrectScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const animal = animalId(id);
  const origin = useAsked((answers) => answers.origin(animal), [id]).value;
  const ref = useAsked((answers) => answers.ref(animal), [id]).value;
  const [changed, setChanged] = useState<Partial<NameAnswers>>({});
  const now = origin === undefined ? undefined : namesIn(origin.fact, animal);
  const form: NameAnswers | undefined = now && { ...now, ...changed };
  const stood = origin === undefined ? undefined : originIn(origin.fact);
  const [moved, setMoved] = useState<Origin>();
  const cameFrom = moved ?? stood;
  const corrected = (fact: Fact): Fact => {
    const named = form === undefined ? fact : renamed(fact, animal, form);
    return cameFrom === undefined ? named : withOrigin(named, cameFrom);
  };
  const wrong = now && form && chipMended(now, form);
  const body = origin && form && wrong === undefined && { entry: origin.entry, fact: corrected(origin.fact) };
  const storing = useStoring(body ? { kind: "replace", on: today, body } : undefined, `/animal/${id}`);
  const title = ref === undefined ? s.correct.title : words.label(ref);
  if (origin === undefined || form === undefined)
    return (
      <Frame heading={s.correct.title} title={title} back={`/animal/${id}`} capture="capture">
        <h1>{s.correct.title}</h1>
      </Frame>
    );
  const say = (answer: Partial<NameAnswers>): void => setChanged({ ...changed, ...answer });
  return (
    <Frame
      heading={s.correct.title}
      title={title}
      back={`/animal/${id}`}
      capture="capture"
      dock={<StoreDock storing={storing} label={s.correct.store} />}
    >
      <Lacks of={storing.lacking(wrong === undefined ? [] : [{ field: "chip", said: s.lists.chipWrong[wrong] }])}>
        <h1>{s.correct.title}</h1>
        <p className="quiet">{s.correct.hint}</p>
        <TextField label={s.animalForm.name} value={form.name} onText={(name) => say({ name })} />
        <TextField
          label={s.animalForm.tag}
          hint={s.animalForm.tagHint}
          value={form.tag}
          onText={(tag) => say({ tag })}
        />
        <TextField
          label={s.kidding.mark}
          hint={s.kidding.markHint}
          value={form.mark}
          onText={(mark) => say({ mark })}
        />
        {form.chip !== undefined && (
          <TextField
            label={s.lists.chip}
            hint={s.lists.chipHint}
            keys="numeric"
            value={form.chip}
            onText={(chip) => say({ chip })}
            name="chip"
          />
        )}
        <Answers
          name="sex"
          legend={s.animalForm.sex}
          value={form.sex}
          onAnswer={(sex) => say({ sex })}
          choices={SEXES.map((sex) => ({
            value: sex,
            label: s.animals.sex[sex],
            drawing: <SexMark sex={sex} />,
            ...(sex === "unsure" ? { weight: "faint" as const } : {}),
          }))}
        />
        {cameFrom !== undefined && <OriginFields of={animal} answers={cameFrom} onAnswers={setMoved} />}
      </Lacks>
    </Frame>
  );
}
