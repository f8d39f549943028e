import type { VetDayLine } from "@pollard/advice";
import { VISIT_SETTINGS } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { useState } from "react";
import { Link } from "wouter";
import { PlusIcon } from "../../drawings/icons.tsx";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { season } from "../../house/wording-later.ts";
import { capital } from "../../parts/capital.ts";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Fold } from "../../parts/lists/fold.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Stepper } from "../../parts/answers/stepper.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { type Deeds, useDeeds } from "../../parts/keeping/use-deed.ts";
import type { SeasonModel } from "../../worker/season-answers.ts";
import { DotFigures, TwentyDots } from "./dots.tsx";
import { acrossFor, blockedText, countMarks, countMayShow, type Dot, enoughIn, headDots, usualRoom } from "./model.ts";

interface Trying {
  readonly days: readonly Day[];
  readonly setDays: (days: readonly Day[]) => void;
}

/** The days to ask the vet for: what to expect of each, one tap to agree, to refuse or to call off. */
export function VetDays({ model, trying }: { readonly model: SeasonModel; readonly trying: Trying }) {
  const s = useScreens();
  const deeds = useDeeds();
  const { plan } = model;
  const wide = useWide();
  const others = (
    <>
      {plan.fewer !== undefined && <p className="lead">{season.otherCount(plan.fewer, "fewer")}</p>}
      {plan.more !== undefined && <p className="lead">{season.otherCount(plan.more, "more")}</p>}
    </>
  );
  return (
    <section className="part">
      <h2>{s.plan.visits}</h2>
      <p className="say">{season.plan(plan)}</p>
      <DeedLine deeds={deeds} />
      {plan.visits.length > 0 && (
        <ul className="stack">
          {plan.visits.map((visit) => (
            <Visit key={visit.day} visit={visit} model={model} trying={trying} deeds={deeds} />
          ))}
        </ul>
      )}
      {wide === "desk" && plan.visits.length > 0 && <p className="quiet">{s.season.dotIs}</p>}
      {wide === "desk" && others}
      {plan.limit !== undefined && <p className="lead">{season.limit(plan.limit)}</p>}
      <details className="why">
        <summary>{s.season.whyPlan}</summary>
        <div className="stack tight">
          {wide === "phone" && others}
          <ul className="cautions">
            {s.season.why.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      </details>
      <TryDay trying={trying} />
      <Link href="/season/vet" className="press">
        {s.season.whenVet}
      </Link>
    </section>
  );
}

function Visit(props: {
  readonly visit: VetDayLine;
  readonly model: SeasonModel;
  readonly trying: Trying;
  readonly deeds: Deeds;
}) {
  const s = useScreens();
  const today = useToday();
  const { visit, model, trying, deeds } = props;
  const day = words.day(visit.day, today);
  const tried = visit.state === "proposed" && trying.days.includes(visit.day);
  const said = s.season.headsDots(visit.low, visit.high);
  const dots = headDots(visit);
  const most = Math.max(...dots.map(({ at }) => at));
  const entries = model.agreed.filter(({ on }) => on === visit.day).map(({ entry }) => entry);
  const wide = useWide();
  const from = visit.from.length > 0 && <p>{capital(season.visitFrom(visit))}</p>;
  const letGo = (): void => trying.setDays(trying.days.filter((each) => each !== visit.day));
  const agree = async (): Promise<void> => {
    const body = model.vet === undefined ? {} : { vet: model.vet };
    await deeds.act(s.season.agreedNow(day), [{ kind: "vet-day", on: visit.day, body }]);
    letGo();
  };
  const block = (): Promise<void> => {
    const days = [...model.wishes.blocked.filter((each) => each >= today), visit.day];
    const body = { key: VISIT_SETTINGS.blocked, value: blockedText(days) };
    return deeds.act(s.season.blockedNow(day), [{ kind: "setting", on: today, body }]);
  };
  return (
    <li className={visit.state === "agreed" ? "card" : "card hatched"}>
      <div className="line-with-key">
        <h3>{capital(day)}</h3>
        <StatusChip
          status={visit.state === "agreed" ? "planned" : "unsure"}
          word={tried ? s.season.trying : s.season[visit.state]}
        />
      </div>
      {countMayShow(visit) ? (
        <>
          <p>{said}</p>
          <Fold line={s.season.expectThen}>
            <figure className="stack tight">
              <TwentyDots
                dots={dots}
                span={most + 1}
                across={acrossFor(most + 1)}
                marks={countMarks(most).map((count) => ({ at: count, text: String(count) }))}
                label={said}
              />
              <span className="quiet axis-word">{s.season.headsAxis}</span>
              {wide === "phone" && <figcaption className="quiet">{s.season.dotIs}</figcaption>}
              <Room dots={dots} day={day} />
              <DotFigures dots={dots} of={s.season.headsAxis} nameOf={String} />
            </figure>
            {from}
          </Fold>
        </>
      ) : (
        <>
          <p>{s.season.noHeadsYet}</p>
          {from}
        </>
      )}
      <div className="two">
        {visit.state === "agreed" ? (
          <>
            <button
              type="button"
              className="press"
              aria-label={`${s.season.callOff}: ${day}`}
              onClick={() => void deeds.strike(s.season.calledOffNow(day), entries)}
            >
              {s.season.callOff}
            </button>
            <Link href={`/vet/${visit.day}`} className="press main snug">
              {s.plan.openList}
            </Link>
          </>
        ) : (
          <>
            <button
              type="button"
              className="press"
              aria-label={`${tried ? s.season.letGo : s.season.notThisDay}: ${day}`}
              onClick={() => (tried ? letGo() : void block())}
            >
              {tried ? s.season.letGo : s.season.notThisDay}
            </button>
            <button
              type="button"
              className="press main snug"
              aria-label={`${s.season.agree}: ${day}`}
              onClick={() => void agree()}
            >
              {s.season.agree}
            </button>
          </>
        )}
      </div>
    </li>
  );
}

/** How many heads the vet is asked to have time for, and in how many seasons that is enough. */
function Room({ dots, day }: { readonly dots: readonly Dot[]; readonly day: string }) {
  const s = useScreens();
  const [room, setRoom] = useState(() => usualRoom(dots));
  const step = (way: "less" | "more"): void => setRoom(Math.max(0, room + (way === "less" ? -1 : 1)));
  return (
    <details className="why">
      <summary aria-label={`${s.season.roomAsk} ${day}`}>{s.season.roomAsk}</summary>
      <div className="stack tight">
        <Stepper label={s.season.roomLabel} value={room} onStep={step} />
        <Told>{s.season.roomEnough(room, enoughIn(dots, room))}</Told>
      </div>
    </details>
  );
}

/** Asks what a day of the keeper's own would change, before anything is stored. */
function TryDay({ trying }: { readonly trying: Trying }) {
  const s = useScreens();
  const today = useToday();
  const [open, setOpen] = useState<"open" | "shut">("shut");
  const [day, setDay] = useState<Day>();
  if (open === "shut")
    return (
      <button type="button" className="press" onClick={() => setOpen("open")}>
        <PlusIcon />
        {s.season.tryDay}
      </button>
    );
  const show = (): void => {
    if (day === undefined) return;
    trying.setDays([...trying.days.filter((each) => each !== day), day]);
    setOpen("shut");
    setDay(undefined);
  };
  return (
    <div className="card">
      <DayChoice legend={s.season.tryWhich} today={today} value={day} onDay={setDay} ahead="ahead" />
      <button type="button" className="press main" aria-disabled={day === undefined} onClick={show}>
        {s.season.tryIt}
      </button>
    </div>
  );
}
