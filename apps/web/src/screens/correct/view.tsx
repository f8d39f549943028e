import { animalId } from "@pollard/genetics";
import { SEXES } from "@pollard/records";
import { useState } from "react";
import { SexMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { goTo } from "../../parts/address.ts";
import { Answers } from "../../parts/answers.tsx";
import { Frame } from "../../parts/frame.tsx";
import { SavedLine, type Saving } from "../../parts/saved-line.tsx";
import { TextField } from "../../parts/text-field.tsx";
import { hasMark, type NameAnswers, namesIn, renamed } from "./model.ts";

/** What a goat is called: a kid named weeks after it was born, a tag that was misread, a sex that was taken wrongly. */
export function CorrectScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const animal = animalId(id);
  const origin = useAsked((answers) => answers.origin(animal), [id]).value;
  const ref = useAsked((answers) => answers.ref(animal), [id]).value;
  const [entry] = useState(() => house.newId());
  const [changed, setChanged] = useState<Partial<NameAnswers>>({});
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const now = origin === undefined ? undefined : namesIn(origin.fact, animal);
  const title = ref === undefined ? s.correct.title : words.label(ref);
  if (origin === undefined || now === undefined)
    return (
      <Frame heading={s.correct.title} title={title} back={`/animal/${id}`} capture="capture">
        <h1>{s.correct.title}</h1>
      </Frame>
    );
  const form: NameAnswers = { ...now, ...changed };
  const say = (answer: Partial<NameAnswers>): void => setChanged({ ...changed, ...answer });
  const store = async (): Promise<void> => {
    if (saving.state === "saving") return;
    setSaving({ state: "saving" });
    const body = { entry: origin.entry, fact: renamed(origin.fact, animal, form) };
    const kept = await house.record([{ id: entry, fact: { kind: "replace", on: today, body } }]);
    if (kept.ok) goTo(`/animal/${id}`, { replace: true });
    else setSaving({ state: "failed", why: kept.error.code, retry: () => void store() });
  };
  return (
    <Frame
      heading={s.correct.title}
      title={title}
      back={`/animal/${id}`}
      capture="capture"
      dock={
        <>
          {saving.state !== "nothing" && <SavedLine saving={saving} />}
          <button type="button" className="press main" onClick={() => void store()}>
            {s.correct.store}
          </button>
        </>
      }
    >
      <h1>{s.correct.title}</h1>
      <p className="quiet">{s.correct.hint}</p>
      <TextField label={s.animalForm.name} value={form.name} onText={(name) => say({ name })} />
      <TextField label={s.animalForm.tag} hint={s.animalForm.tagHint} value={form.tag} onText={(tag) => say({ tag })} />
      {hasMark(origin.fact) && (
        <TextField
          label={s.kidding.mark}
          hint={s.kidding.markHint}
          value={form.mark}
          onText={(mark) => say({ mark })}
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
    </Frame>
  );
}
