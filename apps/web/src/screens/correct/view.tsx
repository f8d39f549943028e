import { animalId } from "@pollard/genetics";
import type { Fact } from "@pollard/records";
import { useState } from "react";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import type { Origin } from "../animal-form/model.ts";
import { NameFields } from "../animal-form/name-fields.tsx";
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
        <NameFields answers={form} onAnswer={say} withoutChip={form.chip === undefined} />
        {cameFrom !== undefined && <OriginFields of={animal} answers={cameFrom} onAnswers={setMoved} />}
      </Lacks>
    </Frame>
  );
}
