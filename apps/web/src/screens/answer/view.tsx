import type { KidAdvice, KidModel, WeighedAction } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import type { Day } from "@pollard/base";
import { KID_CHOICES, type KidChoice } from "@pollard/records";
import { useState } from "react";
import { SignDrawing } from "../../drawings/sign-drawing.tsx";
import { TickIcon } from "../../drawings/icons.tsx";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { CountedSquares, Lean } from "../../parts/pictures/chance.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { type AnswerPage, answerPage, bestOfEach, findingDrawn, isOpen, type OpenAdvice } from "./model.ts";
import { NotHere } from "../../parts/frame/not-here.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { capital } from "../../parts/capital.ts";
import { watchOf } from "../animal/model.ts";
import { BlindCard } from "../blind/card.tsx";
import { useGate } from "../blind/use-gate.ts";
import { Apart } from "../compare/apart.tsx";

/** What a read head says, how surely, why, what would change it, and what to do. */
export function AnswerScreen(props: { readonly kid: string; readonly shown: "asked-for" | "not-asked-for" }) {
  const { kid } = props;
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.kid(animalId(kid), today), [kid, today]);
  const model = asked.value;
  const gate = useGate(kid, model, props.shown);
  const mates = useAsked((answers) => answers.mates(animalId(kid)), [kid]).value;
  if (model === undefined && !asked.working)
    return <NotHere said={s.frame.noSuchAnimal} back={`/animal/${kid}`} place="today" />;
  if (model === undefined || gate === "looking")
    return (
      <Frame heading={s.animal.head} title={s.animal.head} back={`/animal/${kid}`} place="today">
        <Told>{s.frame.working}</Told>
      </Frame>
    );
  const name = words.label(model.kid);
  const page = answerPage(model);
  if (gate !== "open")
    return (
      <Frame heading={s.answer.title(name)} title={name} back={`/animal/${kid}`} capture="capture">
        <h1>{s.answer.title(name)}</h1>
        <BlindCard kid={kid} readers={model.belief?.readers ?? []} gate={gate} />
      </Frame>
    );
  return (
    <Frame
      heading={s.answer.title(name)}
      title={name}
      back={`/animal/${kid}`}
      capture="capture"
      dock={isOpen(model.advice) ? <Choosing model={model} advice={model.advice} /> : undefined}
    >
      <h1>{s.answer.title(name)}</h1>
      {asked.working && <Told>{s.frame.stillWorking}</Told>}
      {page === undefined ? (
        <section className="card">
          <p className="say">{s.answer.notRead}</p>
          <p>{s.answer.readFirst}</p>
          <a className="press main" href={`#/reading/${kid}`}>
            {s.animal.readHead}
          </a>
        </section>
      ) : (
        <Believed model={model} page={page} />
      )}
      <Apart of={model} />
      <Advised advice={model.advice} today={today} />
      <section className="card ask">
        <h2>{s.answer.askVet}</h2>
        <p>{s.answer.askVetWhy}</p>
        {model.fourBuds && <p>{s.answer.fourBuds}</p>}
        {model.intersexWatch && (
          <p>
            {s.animal.intersexWatch[watchOf(model.kid)]} {s.animal.intersexWatchDo}
          </p>
        )}
      </section>
      {page !== undefined && (
        <nav className="two" aria-label={s.compare.more}>
          {(mates ?? []).length > 1 && (
            <a className="press snug" href={`#/compare/${kid}`}>
              {s.compare.link}
            </a>
          )}
          <a className="press snug" href={`#/photo/${kid}`}>
            {s.photo.title}
          </a>
        </nav>
      )}
      {page !== undefined && (
        <p>
          {s.answer.secondLook} <a href={`#/reading/${kid}`}>{s.animal.readAgain}</a>
        </p>
      )}
    </Frame>
  );
}

function Believed({ model, page }: { readonly model: KidModel; readonly page: AnswerPage }) {
  const s = useScreens();
  const belief = model.belief;
  if (belief === undefined) return null;
  const sentence = words.horns(page.horns);
  return (
    <section className="stack tight">
      <p className="say">{sentence}</p>
      <CountedSquares counted={page.horns} label={sentence} />
      <p className="key-line">
        <span>
          <i className="filled-key" aria-hidden="true" /> {s.answer.key.horns}
        </span>
        <span>
          <i className="hollow-key" aria-hidden="true" /> {s.answer.key.hornless}
        </span>
      </p>
      <p>{s.answer.basedOn(belief.readings, words.named(page.readers))}</p>
      {page.horns.sense !== "proven" && words.counted(page.low) !== words.counted(page.high) && (
        <p className="doubt">{s.answer.range(words.counted(page.low), words.counted(page.high))}</p>
      )}
      <details className="why">
        <summary>{s.frame.why}</summary>
        <div className="stack tight">
          <p>{s.answer.before(words.counted(page.forecast))}</p>
          <h3>{s.answer.spoke}</h3>
          <p className="lean-head" aria-hidden="true">
            <span>{s.answer.towardsHornless}</span>
            <span>{s.answer.towardsHorns}</span>
          </p>
          <ul>
            {belief.weighed.map((weighed, at) => (
              // Facts have no id of their own; their order is their name.
              <li key={at} className="weigh">
                <span>
                  {weighed.fact.kind === "sign" && (
                    <SignDrawing sign={weighed.fact.sign} finding={findingDrawn(weighed.fact.finding) ?? ""} />
                  )}
                </span>
                <span>
                  {words.weighed(weighed)}
                  <Lean logOdds={weighed.logOdds} />
                </span>
              </li>
            ))}
          </ul>
          {belief.learntFrom > 0 && <p>{s.score.withoutThem(words.counted(page.unlearnt), belief.learntFrom)}</p>}
          <p className="quiet">
            {s.answer.noStudy} <a href="#/score">{s.score.short}</a>
          </p>
          <p className="quiet">{s.answer.misjudged}</p>
          <p className="quiet">{s.answer.fresh}</p>
        </div>
      </details>
      <details className="why">
        <summary>{s.answer.change}</summary>
        <div className="stack tight">
          {page.leaveUpTo !== undefined && <p>{s.answer.leaveUpTo(words.counted(page.leaveUpTo))}</p>}
          {page.listFrom !== undefined && <p>{s.answer.listFrom(words.counted(page.listFrom))}</p>}
          {page.leaveUpTo === undefined && page.listFrom === undefined && <p>{s.answer.neverFlips}</p>}
        </div>
      </details>
    </section>
  );
}

function Advised({ advice, today }: { readonly advice: KidAdvice; readonly today: Day }) {
  const s = useScreens();
  const said = words.advice(advice, today);
  return (
    <section className={advice.kind === "ring-vet" ? "card now" : "card"}>
      <h2 className="with-mark">
        <StatusMark
          status={
            advice.kind === "ring-vet"
              ? "now"
              : advice.kind === "vet-list"
                ? "soon"
                : advice.kind === "done"
                  ? "done"
                  : "planned"
          }
        />
        <span>{said.title}</span>
      </h2>
      {said.when !== undefined && <p className="say">{capital(said.when)}</p>}
      <p>{said.why}</p>
      {isOpen(advice) && <p>{s.answer.windowEnds(words.day(advice.end, today))}</p>}
      {isOpen(advice) && (
        <details className="why">
          <summary>{s.answer.compare}</summary>
          <table className="table">
            <thead>
              <tr>
                <th scope="col">{s.answer.todo}</th>
                <th scope="col">{s.answer.byWhen}</th>
                <th scope="col" className="num">
                  {s.answer.cost}
                </th>
              </tr>
            </thead>
            <tbody>
              {bestOfEach(advice.actions).map((action) => (
                <tr key={`${action.kind}-${action.day}-${action.visit}`}>
                  <th scope="row">{s.answer.actions[action.kind]}</th>
                  <td>{action.day === undefined ? "" : capital(words.day(action.day, today))}</td>
                  <td className="num">{lossSaid(action)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="quiet">{s.answer.compareHint}</p>
        </details>
      )}
    </section>
  );
}

/** How far off the day is that a key would choose; on a key there is no room for its date. */
function KeyDay({ day }: { readonly day: Day | undefined }) {
  const today = useToday();
  return day === undefined ? null : <span className="key-day"> {words.daysFrom(today, day)}</span>;
}

/** The keeper's own choice, stored as such; the advice stays what it is. */
function Choosing({ model, advice }: { readonly model: KidModel; readonly advice: OpenAdvice }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const dayOf = (choice: KidChoice): Day | undefined => advice.actions.find((action) => action.kind === choice)?.day;
  const choose = async (choice: KidChoice): Promise<void> => {
    if (saving.state === "saving") return;
    setSaving({ state: "saving" });
    const on = dayOf(choice);
    const body = { kid: model.kid.id, choice, ...(on === undefined ? {} : { day: on }) };
    const kept = await house.record([{ id: house.newId(), fact: { kind: "choice", on: today, body } }]);
    setSaving(
      kept.ok
        ? { state: "kept", time: kept.value.time }
        : { state: "failed", why: kept.error.code, retry: () => void choose(choice) },
    );
  };
  const chosen = model.chosen?.choice;
  return (
    <>
      {chosen === undefined ? (
        <h2 className="dock-head">{s.answer.choose}</h2>
      ) : (
        <div className="line-with-key">
          <h2 className="dock-head">{s.answer.chosen(s.answer.actions[chosen])}</h2>
          <a className="press snug" href="#/">
            {s.frame.toToday}
          </a>
        </div>
      )}
      {saving.state !== "nothing" && <SavedLine saving={saving} />}
      <div className="three-keys">
        {KID_CHOICES.map((choice) => (
          <button
            key={choice}
            type="button"
            className={choice === (chosen ?? advice.kind) ? "press main snug" : "press snug"}
            aria-pressed={choice === chosen}
            onClick={() => void choose(choice)}
          >
            {choice === chosen && <TickIcon />}
            <span>
              {s.answer.actions[choice]}
              <KeyDay day={dayOf(choice)} />
            </span>
          </button>
        ))}
      </div>
    </>
  );
}

/** An expected loss to one figure after the point, in units of one needless disbudding. */
const lossSaid = (action: WeighedAction): string => words.number(action.expectedLoss, action.expectedLoss < 10 ? 2 : 1);
