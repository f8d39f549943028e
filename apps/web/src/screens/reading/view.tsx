import type { AnimalRef } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { Told } from "../../parts/frame/told.tsx";
import { animalId } from "@pollard/genetics";
import { NO_FINDINGS } from "@pollard/husbandry";
import { type RefObject, useEffect, useState } from "react";
import { timeOfDay } from "../../adapters/clock.ts";
import { SideDrawing } from "../../drawings/head-signs.tsx";
import { SignDrawing } from "../../drawings/sign-drawing.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { goTo, leaveJob } from "../../parts/frame/address.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { EnteredDay } from "../../parts/answers/entered-day.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { useBelowDock } from "../../parts/frame/use-below-dock.ts";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { type OpenDraft, useDraft } from "../../parts/keeping/use-draft.ts";
import {
  answerSign,
  findingOf,
  FINDINGS,
  firstOpen,
  firstReading,
  hasAnswer,
  isAnswered,
  linesOf,
  nextStep,
  type ReadingDraft,
  readingFact,
  readReading,
  type Side,
  sideShown,
  type Sign,
  SIGNS,
} from "./model.ts";

interface Common {
  readonly kid: AnimalRef;
  readonly answers: ReadingDraft;
  readonly draft: OpenDraft<ReadingDraft>;
}

/**
 * Reading one head: fingers and eyes only. Nothing here knows what the family forecasts, nor what another reader found
 * (rule UI-7): this screen never asks for either.
 */
export function ReadingScreen({ kid, step }: { readonly kid: string; readonly step: string | undefined }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.ref(animalId(kid)), [kid]);
  const draft = useDraft("head-reading", kid, () => firstReading(today, timeOfDay()), readReading);
  const { answers } = draft;
  if (answers === undefined || asked.value === undefined)
    return (
      <Frame heading={s.reading.title} title={s.reading.title} back={`/animal/${kid}`} capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  if (step === undefined) return <Begin kid={kid} answers={answers} left={draft.step} />;
  const common: Common = { kid: asked.value, answers, draft };
  if (step === "check") return <Check {...common} today={today} />;
  if (step === "all") return <AllQuestions {...common} />;
  const sign = SIGNS.find((each) => each === step) ?? "feel";
  return <OneQuestion key={sign} {...common} sign={sign} />;
}

/** Opens the question that was left, or the first one; it stands in the history in place of the way in. */
function Begin(props: { readonly kid: string; readonly answers: ReadingDraft; readonly left: string }) {
  const { kid, answers, left } = props;
  useEffect(() => {
    const open = answers.layout === "all" ? "all" : firstOpen(answers.signs);
    goTo(`/reading/${kid}/${left === "" ? open : left}`, { replace: true });
  }, [kid, answers, left]);
  return null;
}

function OneQuestion({ kid, answers, draft, sign }: Common & { readonly sign: Sign }) {
  const s = useScreens();
  const at = SIGNS.indexOf(sign);
  const before = SIGNS[at - 1];
  const last = before === undefined ? undefined : saidOf(s, answers, before);
  const { part, where } = useBelowDock();
  const more = where === "below" && !isAnswered(answers.signs, sign) ? s.reading.moreBelow : undefined;
  return (
    <Frame
      heading={s.reading.of(words.label(kid))}
      title={`${words.label(kid)}, ${s.reading.step(at + 1, SIGNS.length)}`}
      back={`/animal/${kid.id}`}
      capture="capture"
      dock={
        <>
          <SavedLine
            saving={draft.saving}
            last={more ?? (last === undefined ? undefined : s.reading.last(last))}
            first={more}
          />
          <button type="button" className="press main" onClick={() => step(nextStep(sign), draft, answers, kid)}>
            {s.frame.next}
          </button>
        </>
      }
    >
      <Question sign={sign} answers={answers} draft={draft} step={sign} alone="alone" lastAnswers={part} />
      {at === 0 && (
        <>
          <p className="quiet">{s.reading.finger}</p>
          <p className="quiet">{s.reading.blind}</p>
          <button
            type="button"
            className="press"
            onClick={() => step("all", draft, { ...answers, layout: "all" }, kid)}
          >
            {s.reading.allAtOnce}
          </button>
        </>
      )}
    </Frame>
  );
}

function AllQuestions({ kid, answers, draft }: Common) {
  const s = useScreens();
  return (
    <Frame
      heading={s.reading.of(words.label(kid))}
      title={words.label(kid)}
      back={`/animal/${kid.id}`}
      capture="capture"
      dock={
        <>
          <SavedLine saving={draft.saving} />
          <button type="button" className="press main" onClick={() => step("check", draft, answers, kid)}>
            {s.reading.checkTitle}
          </button>
        </>
      }
    >
      <h1 className="unseen">{s.reading.of(words.label(kid))}</h1>
      {SIGNS.map((sign) => (
        <section className="part" key={sign}>
          <Question sign={sign} answers={answers} draft={draft} step="all" />
        </section>
      ))}
      <FourBumps answers={answers} draft={draft} step="all" />
      <button type="button" className="press" onClick={() => step(SIGNS[0], draft, { ...answers, layout: "one" }, kid)}>
        {s.reading.oneByOne}
      </button>
    </Frame>
  );
}

/** One step on: the answers and the place are on disk, and Back leads here again. */
function step(to: string, draft: OpenDraft<ReadingDraft>, answers: ReadingDraft, kid: AnimalRef): void {
  draft.keep(answers, to);
  goTo(`/reading/${kid.id}/${to}`, { within: "job" });
}

function Question({
  sign,
  answers,
  draft,
  step,
  alone,
  lastAnswers,
}: {
  readonly sign: Sign;
  readonly answers: ReadingDraft;
  readonly draft: OpenDraft<ReadingDraft>;
  readonly step: string;
  readonly alone?: "alone";
  readonly lastAnswers?: RefObject<HTMLDivElement | null>;
}) {
  const s = useScreens();
  const [side, setSide] = useState<Side>(() => sideShown(answers.signs, sign));
  const said = s.sign[sign];
  const Heading = alone === undefined ? "h2" : "h1";
  const found = findingOf(answers.signs, sign, side);
  const findings: readonly string[] = FINDINGS[sign];
  const say = (finding: string): void => {
    draft.keep(answerSign(answers, sign, side, finding), step);
    // Once the left is answered the right is asked; both are kept apart.
    if (side === "left" && findingOf(answers.signs, sign, "right") === undefined) setSide("right");
  };
  return (
    <div className="stack tight">
      <div>
        <Heading className="question">{said.question}</Heading>
        <p>{said.how}</p>
      </div>
      {sign !== "crown" && (
        <Answers
          name={`side-${sign}`}
          legend={s.reading.sides}
          legendShown="unseen"
          shape="three"
          value={side}
          onAnswer={setSide}
          choices={(["both", "left", "right"] as const).map((each) => ({
            value: each,
            label: s.reading[each],
          }))}
        />
      )}
      {side !== "both" && (
        <p className="side-line">
          <SideDrawing side={side} />
          <span>
            <b>{s.reading[side]}.</b> {s.reading.sideHint}
          </span>
        </p>
      )}
      <Answers
        name={`found-${sign}`}
        legend={said.question}
        legendShown="unseen"
        shape={findings.length === 3 ? "tiles-3" : "tiles"}
        value={found}
        onAnswer={say}
        choices={findings.map((finding) => ({
          value: finding,
          label: (said.answers as Readonly<Record<string, string>>)[finding] ?? finding,
          drawing: <SignDrawing sign={sign} finding={finding} />,
        }))}
      />
      <div ref={lastAnswers}>
        <Answers
          name={`no-finding-${sign}`}
          legend={`${said.question} ${s.reading.notSureIsFine}`}
          legendShown="unseen"
          shape="small"
          value={found}
          onAnswer={say}
          choices={NO_FINDINGS.map((finding) => ({
            value: finding as string,
            label: s.sign[finding],
            weight: "faint" as const,
          }))}
        />
      </div>
      <details className="why">
        <summary>{s.reading.whatIs}</summary>
        <p>{said.means}</p>
      </details>
    </div>
  );
}

function FourBumps({ answers, draft, step }: Omit<Common, "kid"> & { readonly step: string }) {
  const s = useScreens();
  return (
    <Answers
      name="bud-sites"
      legend={`${s.reading.four} ${s.frame.optional}`}
      value={answers.budSites === undefined ? undefined : answers.budSites === 2 ? "2" : "4"}
      onAnswer={(sites) => draft.keep({ ...answers, budSites: sites === "4" ? 4 : 2 }, step)}
      choices={[
        { value: "2", label: s.reading.two },
        { value: "4", label: s.reading.fourBumps },
      ]}
    />
  );
}

function Check({ kid, answers, draft, today }: Common & { readonly today: Day }) {
  const s = useScreens();
  const { house, who } = useGround();
  const [storing, setStoring] = useState<Saving>({ state: "nothing" });
  const [empty, setEmpty] = useState(false);
  const store = async (): Promise<void> => {
    if (storing.state === "saving") return;
    if (!hasAnswer(answers.signs)) {
      setEmpty(true);
      return;
    }
    setStoring({ state: "saving" });
    await draft.settled();
    const kept = await house.record([{ id: draft.entry, fact: readingFact(answers, kid.id) }], { draft: draft.key });
    if (kept.ok) leaveJob(`/answer/${kid.id}`);
    else setStoring({ state: "failed", why: kept.error.code, retry: () => void store() });
  };
  return (
    <Frame
      heading={s.reading.checkTitle}
      title={words.label(kid)}
      back={`/animal/${kid.id}`}
      capture="capture"
      dock={
        <>
          {empty ? (
            <Told className="saved alarm">{s.reading.nothingFound}</Told>
          ) : (
            <SavedLine saving={storing.state === "nothing" ? draft.saving : storing} />
          )}
          <button type="button" className="press main" onClick={() => void store()}>
            {s.reading.store}
          </button>
        </>
      }
    >
      <h1>{s.reading.checkTitle}</h1>
      <ul className="rows">
        {linesOf(answers.signs).map(({ sign, side, finding }) => (
          <li key={`${sign}-${side}`} className="check-row">
            <span className="picture">
              {finding === undefined ? null : <SignDrawing sign={sign} finding={finding} />}
            </span>
            <span className="body">
              <span className="quiet">
                {s.sign[sign].name}
                {side !== "both" && `, ${s.reading[side].toLowerCase()}`}
              </span>
              <b>{finding === undefined ? s.sign.notReached : answerWord(s, sign, finding)}</b>
            </span>
            <button
              type="button"
              className="press"
              aria-label={s.frame.changeWhat(s.sign[sign].name)}
              onClick={() => step(sign, draft, { ...answers, layout: "one" }, kid)}
            >
              {s.frame.change}
            </button>
          </li>
        ))}
      </ul>
      <FourBumps answers={answers} draft={draft} step="check" />
      <a className="press" href={`#/photo/${kid.id}`}>
        {s.photo.take}
      </a>
      <section className="card">
        <EnteredDay
          name={s.reading.day}
          value={answers}
          today={today}
          onDay={(when) => draft.keep({ ...answers, ...when }, "check")}
        />
        <div className="line-with-key">
          <p>
            <span className="quiet">{s.reading.reader}</span>
            <br />
            <b>{who}</b>
          </p>
          <a className="press" href="#/holder" aria-label={s.frame.changeWhat(s.reading.reader)}>
            {s.frame.change}
          </a>
        </div>
      </section>
    </Frame>
  );
}

type Words = ReturnType<typeof useScreens>;

/** What an answer is called. */
function answerWord(s: Words, sign: Sign, finding: string): string {
  if (finding === "unsure" || finding === "not-looked") return s.sign[finding];
  return (s.sign[sign].answers as Readonly<Record<string, string>>)[finding] ?? finding;
}

function saidOf(s: Words, answers: ReadingDraft, sign: Sign): string | undefined {
  if (!isAnswered(answers.signs, sign)) return undefined;
  return linesOf(answers.signs)
    .filter((line) => line.sign === sign && line.finding !== undefined)
    .map((line) => answerWord(s, sign, line.finding ?? ""))
    .join(" / ");
}
