import { type Day, parseDay } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { BodyOf } from "@pollard/records";
import { useState } from "react";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { goTo } from "../../parts/address.ts";
import { Answers } from "../../parts/answers.tsx";
import { Frame } from "../../parts/frame.tsx";
import { SavedLine, type Saving } from "../../parts/saved-line.tsx";
import { TextField } from "../../parts/text-field.tsx";
import { type DoneAnswers, disbuddingFact } from "./model.ts";

const DONE = ["both-sides", "left", "right", "not-done"] as const satisfies readonly BodyOf<"disbudding">["done"][];
const TECHNIQUES = ["bud-removed", "bud-left", "unsure"] as const;
const FINDINGS = ["bud", "no-bud", "unsure"] as const;

/** What the vet did and found on one kid, entered from the list. */
export function VetDoneScreen({ day, kid }: { readonly day: string; readonly kid: string }) {
  const today = useToday();
  const on = parseDay(day) ?? today;
  const ref = useAsked((answers) => answers.ref(animalId(kid)), [kid]).value;
  const list = useAsked((answers) => answers.vetList(on, today), [on, today]).value;
  if (ref === undefined) return null;
  return <DoneForm kid={kid} name={words.label(ref)} on={on} operator={list?.vet ?? ""} back={`/vet/${on}`} />;
}

/** The questions themselves; `operator` stands in the field until another is named. */
export function DoneForm(props: {
  readonly kid: string;
  readonly name: string;
  readonly on: Day;
  readonly operator: string;
  readonly back: string;
}) {
  const { kid, name, on, back } = props;
  const s = useScreens();
  const { house } = useGround();
  const today = useToday();
  const [entry] = useState(() => house.newId());
  const [answers, setAnswers] = useState<DoneAnswers>({});
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const say = (answer: DoneAnswers): void => setAnswers({ ...answers, ...answer });
  const fact = disbuddingFact({ ...answers, operator: answers.operator ?? props.operator }, animalId(kid), on);
  const store = async (): Promise<void> => {
    if (fact === undefined || saving.state === "saving") return;
    setSaving({ state: "saving" });
    const kept = await house.record([{ id: entry, fact }]);
    if (kept.ok) goTo(back, { replace: true });
    else setSaving({ state: "failed", why: kept.error.code, retry: () => void store() });
  };
  return (
    <Frame
      heading={s.vetDone.title(name)}
      title={s.vetDone.title(name)}
      back={back}
      capture="capture"
      dock={
        <>
          {saving.state !== "nothing" && <SavedLine saving={saving} />}
          <button type="button" className="press main" aria-disabled={fact === undefined} onClick={() => void store()}>
            {s.vetDone.store}
          </button>
        </>
      }
    >
      <h1 className="in-board">{s.vetDone.title(name)}</h1>
      <p className="quiet">{words.day(on, today)}</p>
      <Answers
        name="done"
        legend={s.vetDone.done}
        value={answers.done}
        onAnswer={(done) => say({ done })}
        choices={DONE.map((done) => ({ value: done, label: s.vetDone.doneAnswers[done] }))}
      />
      {(["left", "right"] as const).map((side) => (
        <Answers
          key={side}
          name={`found-${side}`}
          legend={`${s.vetDone.foundSide[side]} ${s.frame.optional}`}
          shape="three"
          value={answers[side]}
          onAnswer={(finding) => say({ [side]: finding })}
          choices={FINDINGS.map((finding) => ({ value: finding, label: s.vetDone.findings[finding] }))}
        />
      ))}
      {answers.done !== undefined && answers.done !== "not-done" && (
        <Answers
          name="technique"
          legend={`${s.vetDone.technique} ${s.frame.optional}`}
          shape="three"
          value={answers.technique}
          onAnswer={(technique) => say({ technique })}
          choices={TECHNIQUES.map((technique) => ({ value: technique, label: s.vetDone.techniques[technique] }))}
        />
      )}
      <TextField
        label={s.vetDone.operator}
        value={answers.operator ?? props.operator}
        onText={(operator) => say({ operator })}
      />
    </Frame>
  );
}
