import { type Day, parseDay } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { BodyOf } from "@pollard/records";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { capital } from "../../parts/capital.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { NotHere } from "../../parts/frame/not-here.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { useDraft } from "../../parts/keeping/use-draft.ts";
import { disbuddingFact, type DoneAnswers, type DoneDraft, DONE_STEPS, readDone } from "./model.ts";

const DONE = ["both-sides", "left", "right", "not-done"] as const satisfies readonly BodyOf<"disbudding">["done"][];
const TECHNIQUES = ["bud-removed", "bud-left", "unsure"] as const;
const FINDINGS = ["bud", "no-bud", "unsure"] as const;

/** What the vet did and found on one kid, entered from the list. */
export function VetDoneScreen({ day, kid }: { readonly day: string; readonly kid: string }) {
  const s = useScreens();
  const on = parseDay(day);
  return on === undefined ? (
    <NotHere said={s.frame.noSuchDay} back="/plan" place="plan" />
  ) : (
    <DoneOn on={on} kid={kid} />
  );
}

function DoneOn({ on, kid }: { readonly on: Day; readonly kid: string }) {
  const today = useToday();
  const ref = useAsked((answers) => answers.ref(animalId(kid)), [kid]).value;
  const list = useAsked((answers) => answers.vetList(on, today), [on, today]).value;
  if (ref === undefined) return null;
  // What is entered before the day that was agreed was done by today: the vet came early.
  const done = on > today ? today : on;
  return <DoneForm kid={kid} name={words.label(ref)} on={done} operator={list?.vet ?? ""} back={`/vet/${on}`} />;
}

/**
 * The questions themselves; `operator` stands in the field until another is named.
 *
 * Answers that were left half given keep the day that they were given for.
 */
export function DoneForm(props: {
  readonly kid: string;
  readonly name: string;
  readonly on: Day;
  readonly operator: string;
  readonly back: string;
}) {
  const { kid, name, back } = props;
  const s = useScreens();
  const today = useToday();
  const draft = useDraft<DoneDraft>("disbudding", kid, () => ({ on: props.on }), readDone);
  const { answers } = draft;
  const operator = answers?.operator ?? props.operator;
  const storing = useStoring(
    answers && disbuddingFact({ ...answers, operator }, animalId(kid), answers.on),
    back,
    draft,
  );
  const title = s.vetDone.title(name);
  if (answers === undefined)
    return (
      <Frame heading={title} title={title} back={back} capture="capture">
        {null}
      </Frame>
    );
  const say = (answer: DoneAnswers): void =>
    draft.keep({ ...answers, ...answer }, DONE_STEPS.find((step) => step in answer) ?? "done");
  return (
    <Frame
      heading={title}
      title={title}
      back={back}
      capture="capture"
      dock={<StoreDock storing={storing} label={s.vetDone.store} needs={s.vetDone.missing} line="always" />}
    >
      <h1 className="in-board">{title}</h1>
      <p className="quiet">{capital(words.day(answers.on, today))}</p>
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
      <TextField label={s.vetDone.operator} value={operator} onText={(text) => say({ operator: text })} />
    </Frame>
  );
}
