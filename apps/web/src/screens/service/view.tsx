import type { AnimalLine } from "@pollard/advice";
import { SERVICE_WAYS } from "@pollard/records";
import { StatusMark } from "../../drawings/marks.tsx";
import { care, useAsked, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { capital } from "../../parts/capital.ts";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatChoice } from "../../parts/answers/goat-choice.tsx";
import { isGrown } from "../../parts/grown.ts";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { SavedLine } from "../../parts/keeping/saved-line.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { useDraft } from "../../parts/keeping/use-draft.ts";
import {
  bothPolled,
  cautionsAsked,
  matingSaid,
  NO_GOAT,
  penEnds,
  readService,
  type ServiceAnswers,
  type ServiceField,
  serviceFacts,
  serviceMissing,
} from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";

/** A mating: seen, or a spell together in a pen, of one doe or several, with one buck or with several that it could be. */
export function ServiceScreen({ id }: { readonly id: string | undefined }) {
  const today = useToday();
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  return goats === undefined ? null : <Mating id={id} goats={goats} />;
}

function Mating({ id, goats }: { readonly id: string | undefined; readonly goats: readonly AnimalLine[] }) {
  const s = useScreens();
  const today = useToday();
  const here = goats.filter((goat) => !goat.gone && isGrown(goat, today));
  const does = here.filter((goat) => goat.ref.sex === "doe");
  const bucks = here.filter((goat) => goat.ref.sex === "buck");
  const draft = useDraft("service", id ?? NO_GOAT, start, (stored) => readService(stored, here));
  const answers = draft.answers ?? { does: [], bucks: [] };
  const asked = cautionsAsked(answers, today);
  const cautions = useAsked(
    async (herd) => (await Promise.all(asked.map((of) => herd.serviceCautions(of)))).flat(),
    [answers.does.join(" "), answers.bucks.join(" "), answers.on],
  ).value;
  const storing = useStoring(serviceFacts(answers), "/plan", draft, matingSaid(s, words, answers, here));
  if (draft.answers === undefined)
    return (
      <Frame heading={s.service.title} title={s.service.title} back="/plan" capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  const polled = bothPolled(answers, goats);
  const say = (step: ServiceField, answer: Partial<ServiceAnswers>): void =>
    draft.keep({ ...answers, ...answer }, step);
  return (
    <Frame
      heading={s.service.title}
      title={s.service.title}
      back="/plan"
      capture="capture"
      dock={<StoreDock storing={storing} label={s.service.store} line="always" />}
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
          onValues={(chosen) => say("does", { does: chosen })}
          none={s.kidding.noDoes}
        />
        <GoatChoice
          name="bucks"
          legend={`${s.service.bucks} ${s.service.bucksHint}`}
          goats={bucks}
          many="many"
          values={answers.bucks}
          onValues={(chosen) => say("bucks", { bucks: chosen })}
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
          onAnswer={(way) => say("way", { way })}
          choices={SERVICE_WAYS.map((way) => ({ value: way, label: s.service.ways[way] }))}
        />
        <DayChoice
          name="on"
          legend={answers.way === "pen" ? s.service.from : s.service.on}
          today={today}
          value={answers.on}
          onDay={(on) => say("on", { on })}
        />
        {answers.way === "pen" && (
          <>
            <DayChoice
              key={answers.on}
              name="until"
              legend={s.service.until}
              today={today}
              value={answers.until}
              onDay={(until) => say("until", { until })}
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
