import { animalId } from "@pollard/genetics";
import { CARE_ANSWERS } from "@pollard/records";
import { useState } from "react";
import { care, useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { type CareAnswers, careFact, careMissing, firstCare, REASONS, taskTitle } from "./model.ts";

/** What became of one task for one goat: done, not needed, put off, and why; milk and meat held back as the vet said. */
export function CareAnswerScreen({ code, id }: { readonly code: string; readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const ref = useAsked((answers) => answers.ref(animalId(id)), [id]).value;
  const [answers, setAnswers] = useState<CareAnswers>(() => firstCare(today));
  const fact = careFact(answers, code, [animalId(id)], today, (reason) => s.care.reasons[reason]);
  const storing = useStoring(fact, "/care");
  if (ref === undefined) return null;
  const say = (answer: Partial<CareAnswers>): void => setAnswers({ ...answers, ...answer });
  const missing = careMissing(answers, today);
  const title = taskTitle(code, care.title);
  const name = words.label(ref);
  return (
    <Frame
      heading={`${title}: ${name}`}
      title={name}
      back="/care"
      capture="capture"
      dock={<StoreDock storing={storing} label={s.care.store} needs={missing && s.care.needs[missing]} />}
    >
      <h1>{title}</h1>
      <Answers
        name="answer"
        legend={s.care.which}
        shape="column"
        value={answers.answer}
        onAnswer={(answer) => say({ answer })}
        choices={CARE_ANSWERS.map((answer) => ({ value: answer, label: care.answers[answer] }))}
      />
      {answers.answer === "done" && (
        <>
          <DayChoice legend={s.care.on} today={today} value={answers.on} onDay={(on) => say({ on })} />
          <TextField
            label={s.care.means}
            hint={s.care.meansHint}
            value={answers.means}
            onText={(means) => say({ means })}
          />
          <Answers
            name="hold"
            legend={`${s.care.holdBack} ${s.frame.optional}`}
            shape="small"
            value={answers.hold}
            onAnswer={(hold) => say({ hold })}
            choices={(["no", "yes"] as const).map((hold) => ({ value: hold, label: s.care.holdAnswers[hold] }))}
          />
          {answers.hold === "yes" && (
            <>
              <DayChoice
                legend={`${s.care.noMilk} ${s.frame.optional}`}
                today={today}
                value={answers.noMilkUntil}
                onDay={(noMilkUntil) => say({ noMilkUntil })}
                ahead="ahead"
              />
              <DayChoice
                legend={`${s.care.noMeat} ${s.frame.optional}`}
                today={today}
                value={answers.noMeatUntil}
                onDay={(noMeatUntil) => say({ noMeatUntil })}
                ahead="ahead"
              />
            </>
          )}
        </>
      )}
      {answers.answer === "put-off" && (
        <DayChoice
          legend={s.care.until}
          today={today}
          value={answers.until}
          onDay={(until) => say({ until })}
          ahead="ahead"
        />
      )}
      {(answers.answer === "put-off" || answers.answer === "not-needed") && (
        <>
          <Answers
            name="reason"
            legend={s.care.why}
            shape="column"
            value={answers.reason}
            onAnswer={(reason) => say({ reason })}
            choices={REASONS.map((reason) => ({ value: reason, label: s.care.reasons[reason] }))}
          />
          {answers.reason === "other" && (
            <TextField
              label={s.care.reasonText}
              need="needed"
              value={answers.reasonText}
              onText={(reasonText) => say({ reasonText })}
            />
          )}
        </>
      )}
    </Frame>
  );
}
