import { type Day, parseDay } from "@pollard/base";
import { useEffect, useState } from "react";
import { Link } from "wouter";
import type { KeptHerd } from "../../adapters/device.ts";
import type { VisitOfDay } from "../../adapters/hub/visit-peer.ts";
import { useExchangeNow } from "../../house/use-exchange-now.ts";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Told } from "../../parts/frame/told.tsx";
import type { VisitDone } from "../../worker/visit-answers.ts";
import { DoneForm } from "../vet-list/done-view.tsx";

/** A vet's first page: whom to see on which day, as the keeper showed it; what was done goes back by itself. */
export function VisitsScreen() {
  const s = useScreens();
  const asked = useAsked((answers) => answers.visits(), []);
  const model = asked.value?.ok ? asked.value.value : undefined;
  return (
    <Frame heading={s.shown.visitsTitle} title={s.shown.visitsTitle}>
      <h1 className="in-board">{s.shown.visitsTitle}</h1>
      {asked.value?.ok === false && <p role="alert">{s.frame.notSavedUnavailable}</p>}
      {model !== undefined && (
        <>
          <HandOver waiting={model.waiting} refused={model.refused} />
          {model.visits.length === 0 && (
            <div className="card">
              <p className="say">{s.shown.noVisits}</p>
              <p>{s.shown.noVisitsHow}</p>
            </div>
          )}
          {model.visits.map((visit) => (
            <VisitList key={visit.day} visit={visit} done={model.done} />
          ))}
        </>
      )}
      <OtherHerds />
    </Frame>
  );
}

function HandOver({ waiting, refused }: { readonly waiting: number; readonly refused: number }) {
  const s = useScreens();
  const { state, now } = useExchangeNow();
  return (
    <section className="part" aria-label={s.shown.handOver}>
      <p>
        <StatusChip status={waiting === 0 ? "done" : "soon"} word={s.shown.waiting(waiting)} />
      </p>
      {refused > 0 && <Told>{s.safe.refused(refused)}</Told>}
      {state === "away" && <Told>{s.safe.hubAway}</Told>}
      {state === "later" && <Told>{s.safe.hubLater}</Told>}
      {(state === "turned-away" || state === "not-let-in") && <Told>{s.phones.turnedAway}</Told>}
      <button type="button" className="press" aria-disabled={state === "working"} onClick={() => void now()}>
        {state === "working" ? s.shown.handing : s.shown.handOver}
      </button>
    </section>
  );
}

function VisitList({ visit, done }: { readonly visit: VisitOfDay; readonly done: readonly VisitDone[] }) {
  const s = useScreens();
  const today = useToday();
  const doneFor = (kid: string) => done.findLast((each) => each.kid === kid && each.on === visit.day);
  return (
    <section className="part">
      <h2>{capital(words.day(visit.day as Day, today))}</h2>
      <p>{s.shown.of(visit.herd)}</p>
      <ul className="stack">
        {visit.kids.map(({ kid, name, lines }) => {
          const was = doneFor(kid);
          return (
            <li key={kid} className="card">
              <h3>{name}</h3>
              <ul className="plain-lines">
                {lines.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              {was === undefined ? (
                <Link href={`/visit/${visit.day}/${kid}`} className="press main" aria-label={s.shown.enterFor(name)}>
                  {s.shown.enter}
                </Link>
              ) : (
                <StatusChip status="done" word={s.vetDone.doneAnswers[was.done]} />
              )}
            </li>
          );
        })}
      </ul>
      {visit.cautions.length > 0 && (
        <>
          <h3>{s.vetList.cautions}</h3>
          <ul className="cautions">
            {visit.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** A vet comes to more than one herd: each is joined and opened by itself. */
function OtherHerds() {
  const s = useScreens();
  const { device, house, openHerd } = useGround();
  const [herds, setHerds] = useState<readonly KeptHerd[]>([]);
  useEffect(() => {
    void device.herds().then((all) => setHerds(all.filter(({ id }) => id !== house.herd.id)));
  }, [device, house]);
  return (
    <section className="part" aria-label={s.shown.otherHerds}>
      {herds.length > 0 && <h2>{s.shown.otherHerds}</h2>}
      {herds.map((herd) => (
        <button key={herd.id} type="button" className="press" onClick={() => void openHerd(herd)}>
          {herd.name}
        </button>
      ))}
      <Link href="/join" className="press">
        {s.phones.join}
      </Link>
    </section>
  );
}

/** What was done for one kid of a list, written by whoever did it. */
export function VisitDoneScreen({ day, kid }: { readonly day: string; readonly kid: string }) {
  const s = useScreens();
  const { who } = useGround();
  const asked = useAsked((answers) => answers.visits(), []);
  if (asked.value === undefined) return null;
  const visits = asked.value.ok ? asked.value.value.visits : [];
  const found = visits.find((visit) => visit.day === day)?.kids.find((each) => each.kid === kid);
  const on = parseDay(day);
  if (found === undefined || on === undefined)
    return (
      <Frame heading={s.shown.visitsTitle} title={s.shown.visitsTitle} back="/">
        <h1>{s.shown.gone}</h1>
      </Frame>
    );
  return <DoneForm kid={kid} name={found.name} on={on} operator={who ?? ""} back="/" />;
}
