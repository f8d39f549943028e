import { animalId } from "@pollard/genetics";
import { GROWTHS, KNOB_SHAPES } from "@pollard/husbandry";
import { GrowthDrawing, KnobDrawing } from "../../drawings/growths.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { SavedLine } from "../../parts/keeping/saved-line.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { useDraft } from "../../parts/keeping/use-draft.ts";
import { asksKnobs, firstOutcome, outcomeFact, readOutcome } from "./model.ts";

/** What grew on a head, side by side, weeks after birth: the truth that the readings are judged by. */
export function OutcomeScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.animal(animalId(id), today), [id, today]);
  const draft = useDraft("outcome", id, () => firstOutcome(today), readOutcome);
  const { answers } = draft;
  const fact = answers && outcomeFact(answers, animalId(id));
  const storing = useStoring(fact, `/animal/${id}`, draft);
  const page = asked.value;
  const name = page === undefined ? "" : words.label(page.model.ref);
  if (answers === undefined || page === undefined)
    return (
      <Frame heading={s.outcome.title} title={s.outcome.title} back={`/animal/${id}`} capture="capture">
        {page === undefined && !asked.working && <p>{s.frame.noSuchAnimal}</p>}
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  const say = (answer: Partial<typeof answers>): void => draft.keep({ ...answers, ...answer }, "sides");
  const disbudded = page.model.animal.disbuddings.some((each) => each.done !== "not-done");
  return (
    <Frame
      heading={s.outcome.of(name)}
      title={s.outcome.of(name)}
      back={`/animal/${id}`}
      capture="capture"
      dock={<StoreDock storing={storing} label={s.outcome.store} needs={s.outcome.missing} line="always" />}
    >
      <h1 className="unseen">{s.outcome.of(name)}</h1>
      {disbudded && <p className="lead">{s.outcome.disbudded}</p>}
      {(["left", "right"] as const).map((side) => (
        <Answers
          key={side}
          name={side}
          legend={s.outcome[side]}
          shape="tiles"
          value={answers[side]}
          onAnswer={(growth) => say({ [side]: growth })}
          choices={GROWTHS.map((growth) => ({
            value: growth,
            label: s.outcome.growths[growth],
            hint: s.outcome.growthHints[growth],
            drawing: <GrowthDrawing growth={growth} />,
            ...(growth === "unsure" ? { weight: "faint" as const } : {}),
          }))}
        />
      ))}
      {asksKnobs(answers) && <p className="quiet">{s.outcome.knobsHint}</p>}
      {asksKnobs(answers) && (
        <Answers
          name="knobs"
          legend={`${s.outcome.knobs} ${s.frame.optional}`}
          shape="tiles"
          value={answers.knobs}
          onAnswer={(knobs) => say({ knobs })}
          choices={KNOB_SHAPES.map((shape) => ({
            value: shape,
            label: s.outcome.knobShapes[shape],
            drawing: <KnobDrawing shape={shape} />,
            ...(shape === "unsure" ? { weight: "faint" as const } : {}),
          }))}
        />
      )}
      <p className="quiet">{s.reading.sideHint}</p>
      <DayChoice legend={s.day.question} today={today} value={answers.on} onDay={(on) => say({ on })} />
    </Frame>
  );
}
