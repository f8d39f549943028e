import { animalId } from "@pollard/genetics";
import { PREGNANCY_CHECKS, PREGNANCY_FINDINGS } from "@pollard/records";
import { useState } from "react";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { KID_COUNTS, SEEN_KINDS, type SeenAnswers, seenFact, seenMissing } from "./model.ts";

/** What was seen of a doe that was served: heat again, a pregnancy check, kids lost. One hand, nearest days first. */
export function DoeSeenScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const ref = useAsked((answers) => answers.ref(animalId(id)), [id]).value;
  const [answers, setAnswers] = useState<SeenAnswers>({ kids: "0" });
  const storing = useStoring(seenFact(answers, animalId(id)), `/animal/${id}`);
  if (ref === undefined) return null;
  const name = words.label(ref);
  const say = (answer: Partial<SeenAnswers>): void => setAnswers({ ...answers, ...answer });
  const missing = seenMissing(answers);
  return (
    <Frame
      heading={s.doeSeen.of(name)}
      title={name}
      back={`/animal/${id}`}
      capture="capture"
      dock={<StoreDock storing={storing} label={s.doeSeen.store} needs={missing && s.doeSeen.needs[missing]} />}
    >
      <h1 className="unseen">{s.doeSeen.of(name)}</h1>
      <Answers
        name="kind"
        legend={s.doeSeen.title}
        shape="column"
        value={answers.kind}
        onAnswer={(kind) => say({ kind })}
        choices={SEEN_KINDS.map((kind) => ({
          value: kind,
          label: s.doeSeen.kinds[kind],
          hint: s.doeSeen.kindHints[kind],
        }))}
      />
      {answers.kind === "abortion" && (
        <section className="card ask">
          <p>
            <b>{s.doeSeen.lossCare}</b>
          </p>
          <p>{s.doeSeen.lossPeople}</p>
        </section>
      )}
      {answers.kind === "pregnancy-check" && (
        <>
          <Answers
            name="found"
            legend={s.doeSeen.found}
            shape="three"
            value={answers.found}
            onAnswer={(found) => say({ found })}
            choices={PREGNANCY_FINDINGS.map((found) => ({
              value: found,
              label: s.doeSeen.findings[found],
              ...(found === "unsure" ? { weight: "faint" as const } : {}),
            }))}
          />
          {answers.found === "pregnant" && (
            <Answers
              name="kids"
              legend={s.doeSeen.kids}
              shape="small"
              value={answers.kids}
              onAnswer={(kids) => say({ kids })}
              choices={KID_COUNTS.map((count) => ({ value: count, label: s.doeSeen.kidCounts[count] }))}
            />
          )}
          <Answers
            name="way"
            legend={s.doeSeen.way}
            value={answers.way}
            onAnswer={(way) => say({ way })}
            choices={PREGNANCY_CHECKS.map((way) => ({ value: way, label: s.doeSeen.ways[way] }))}
          />
        </>
      )}
      {answers.kind !== undefined && (
        <DayChoice legend={s.doeSeen.on} today={today} value={answers.on} onDay={(on) => say({ on })} />
      )}
    </Frame>
  );
}
