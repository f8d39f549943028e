import { SERVICE_WAYS } from "@pollard/records";
import { useState } from "react";
import { StatusMark } from "../../drawings/marks.tsx";
import { care, useAsked, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { capital } from "../../parts/capital.ts";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatChoice } from "../../parts/answers/goat-choice.tsx";
import { isGrown } from "../../parts/grown.ts";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { bothPolled, cautionsAsked, penEnds, type ServiceAnswers, serviceFacts, serviceMissing } from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";

/** A mating: seen, or a spell together in a pen, of one doe or several, with one buck or with several that it could be. */
export function ServiceScreen({ id }: { readonly id: string | undefined }) {
  const s = useScreens();
  const today = useToday();
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  const here = (goats ?? []).filter((goat) => !goat.gone && isGrown(goat, today));
  const does = here.filter((goat) => goat.ref.sex === "doe");
  const bucks = here.filter((goat) => goat.ref.sex === "buck");
  const [given, setGiven] = useState<ServiceAnswers>();
  const answers = given ?? start();
  const asked = cautionsAsked(answers, today);
  const cautions = useAsked(
    async (herd) => (await Promise.all(asked.map((of) => herd.serviceCautions(of)))).flat(),
    [answers.does.join(" "), answers.bucks.join(" "), answers.on],
  ).value;
  const storing = useStoring(serviceFacts(answers), "/plan");
  if (goats === undefined) return null;
  const polled = bothPolled(answers, goats);
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
          name="does"
          legend={`${s.service.does} ${s.service.doesHint}`}
          goats={does}
          many="many"
          values={answers.does}
          onValues={(chosen) => say({ does: chosen })}
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
        {polled.length > 0 && (
          <Told className="card ask with-mark">
            <StatusMark status="soon" />
            <span>{s.service.twoPolled(words.named(polled.map((goat) => words.label(goat))))}</span>
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
          <>
            <DayChoice
              key={answers.on}
              name="until"
              legend={s.service.until}
              today={today}
              value={answers.until}
              onDay={(until) => say({ until })}
              ahead="ahead"
              near={penEnds(answers.on, today).map(({ day, weeks }) => ({
                day,
                label: capital(
                  weeks === undefined ? words.day(day, today) : s.service.afterWeeks(weeks, words.day(day, today)),
                ),
              }))}
            />
            <p className="quiet">{s.service.untilHint}</p>
          </>
        )}
      </Lacks>
    </Frame>
  );

  /** Opened from a goat's page, that goat is chosen already, until somebody answers. */
  function start(): ServiceAnswers {
    const from = here.find((goat) => goat.ref.id === id);
    const of = (sex: "doe" | "buck"): readonly string[] => (from?.ref.sex === sex ? [from.ref.id] : []);
    return { does: of("doe"), bucks: of("buck") };
  }
}
