import { SERVICE_WAYS } from "@pollard/records";
import { useState } from "react";
import { StatusMark } from "../../drawings/marks.tsx";
import { care, useAsked, useScreens, useToday, weights } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers.tsx";
import { DayChoice } from "../../parts/day-choice.tsx";
import { Frame } from "../../parts/frame.tsx";
import { GoatChoice } from "../../parts/goat-choice.tsx";
import { isGrown } from "../../parts/grown.ts";
import { Lacks } from "../../parts/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/storing.tsx";
import { bothPolled, cautionsAsked, type ServiceAnswers, serviceFact, serviceMissing } from "./model.ts";
import { Told } from "../../parts/told.tsx";

/** A mating: seen, or a spell together in a pen, with one buck or with several that it could be. */
export function ServiceScreen({ id }: { readonly id: string | undefined }) {
  const s = useScreens();
  const today = useToday();
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  const here = (goats ?? []).filter((goat) => !goat.gone && isGrown(goat, today));
  const does = here.filter((goat) => goat.ref.sex === "doe");
  const bucks = here.filter((goat) => goat.ref.sex === "buck");
  const [given, setGiven] = useState<ServiceAnswers>({ bucks: [] });
  const answers = withStart(given);
  const asked = cautionsAsked(answers, today);
  const cautions = useAsked(
    async (herd) => (asked === undefined ? [] : herd.serviceCautions(asked)),
    [asked?.doe, asked?.bucks.join(" "), asked?.on],
  ).value;
  const storing = useStoring(serviceFact(answers), "/plan");
  if (goats === undefined) return null;
  const say = (answer: Partial<ServiceAnswers>): void => setGiven({ ...answers, ...answer });
  return (
    <Frame
      heading={s.service.title}
      title={s.service.title}
      back="/plan"
      capture="capture"
      dock={<StoreDock storing={storing} label={s.service.store} />}
    >
      <Lacks
        of={storing.lacking(
          serviceMissing(answers).map((field) => ({ field, said: s.frame.toAnswer(s.service[field]) })),
        )}
      >
        <h1 className="in-board">{s.service.title}</h1>
        <GoatChoice
          name="doe"
          legend={s.service.doe}
          goats={does}
          values={answers.doe === undefined ? [] : [answers.doe]}
          onValues={([doe]) => say(doe === undefined ? {} : { doe })}
          none={s.kidding.noDoes}
        />
        <GoatChoice
          name="bucks"
          legend={`${s.service.bucks} ${s.service.bucksHint}`}
          goats={bucks}
          many="many"
          values={answers.bucks}
          onValues={(chosen) => say({ bucks: chosen })}
          none={s.service.noBucks}
        />
        {bothPolled(answers, goats) && (
          <Told className="card ask with-mark">
            <StatusMark status="soon" />
            <span>{s.service.twoPolled}</span>
          </Told>
        )}
        {(cautions ?? []).map((caution) => (
          <Told
            key={`${caution.code} ${"doe" in caution ? caution.doe.id : caution.buck.id}`}
            className="card ask with-mark"
          >
            <StatusMark status="soon" />
            <span>{care.serviceCaution(caution, weights)}</span>
          </Told>
        ))}
        <Answers
          name="way"
          legend={s.service.way}
          shape="column"
          value={answers.way}
          onAnswer={(way) => say({ way })}
          choices={SERVICE_WAYS.map((way) => ({ value: way, label: s.service.ways[way] }))}
        />
        <DayChoice
          name="on"
          legend={answers.way === "pen" ? s.service.from : s.service.on}
          today={today}
          value={answers.on}
          onDay={(on) => say({ on })}
        />
        {answers.way === "pen" && (
          <DayChoice
            legend={`${s.service.until} ${s.frame.optional}`}
            today={today}
            value={answers.until}
            onDay={(until) => say({ until })}
            ahead="ahead"
          />
        )}
      </Lacks>
    </Frame>
  );

  /** Opened from a goat's page, that goat is chosen already, until somebody chooses another. */
  function withStart(now: ServiceAnswers): ServiceAnswers {
    const from = here.find((goat) => goat.ref.id === id);
    if (from === undefined || now.doe !== undefined || now.bucks.length > 0) return now;
    return from.ref.sex === "doe" ? { ...now, doe: from.ref.id } : { ...now, bucks: [from.ref.id] };
  }
}
