import type { Day } from "@pollard/base";
import { useState } from "react";
import { Link } from "wouter";
import { PlusIcon } from "../../drawings/icons.tsx";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { DayChoice } from "../../parts/day-choice.tsx";
import { Frame } from "../../parts/frame.tsx";
import { GoatLine, Lines } from "../../parts/lines.tsx";
import { SavedLine, type Saving } from "../../parts/saved-line.tsx";
import { TextField } from "../../parts/text-field.tsx";
import { Told } from "../../parts/told.tsx";
import { capital } from "../../parts/capital.ts";

/** What lies ahead: does due to kid, vet days; and the matings behind it. */
export function PlanScreen() {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.plan(today), [today]);
  const plan = asked.value;
  return (
    <Frame heading={s.plan.title} title={s.plan.title} place="plan">
      <h1>{s.plan.title}</h1>
      {plan === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <div className="wide-two">
          <div className="stack">
            <section className="part">
              <h2>{s.plan.visits}</h2>
              {plan.visits.length === 0 ? (
                <p>{s.plan.visitsNone}</p>
              ) : (
                <Lines>
                  {plan.visits.map((visit) => (
                    <li key={visit.entry}>
                      <Link href={`/vet/${visit.on}`} className="row">
                        <span className="margin">
                          <StatusMark status="planned" />
                        </span>
                        <span className="body">
                          <span className="who">{capital(words.day(visit.on, today))}</span>
                          <span>{visit.vet ?? s.plan.openList}</span>
                        </span>
                      </Link>
                    </li>
                  ))}
                </Lines>
              )}
              <AddVisit />
            </section>
            <section className="part">
              <h2>{s.plan.due}</h2>
              {plan.due.length === 0 ? (
                <p>{s.plan.dueNone}</p>
              ) : (
                <Lines>
                  {plan.due.map(({ doe, from, likely, to }) => (
                    <GoatLine key={doe.id} of={doe} href={`/animal/${doe.id}`}>
                      {capital(words.day(likely, today))}
                      <br />
                      <span className="quiet">{s.plan.dueRange(words.day(from, today), words.day(to, today))}</span>
                    </GoatLine>
                  ))}
                </Lines>
              )}
            </section>
          </div>
          <section className="part">
            <h2>{s.plan.services}</h2>
            <Link href="/service" className="press">
              <PlusIcon />
              {s.plan.addService}
            </Link>
            {plan.services.length === 0 ? (
              <p>{s.plan.servicesNone}</p>
            ) : (
              <Lines>
                {plan.services.map(({ service, doe, bucks }) => (
                  <GoatLine key={service.entry} of={doe} href={`/animal/${doe.id}`}>
                    {s.plan.with(bucks.map((buck) => words.label(buck)).join(s.plan.orJoin))}
                    <br />
                    <span className="quiet">
                      {capital(words.day(service.on, today))}
                      {service.until !== service.on && ` – ${words.day(service.until, today)}`}
                    </span>
                  </GoatLine>
                ))}
              </Lines>
            )}
          </section>
        </div>
      )}
    </Frame>
  );
}

function AddVisit() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [open, setOpen] = useState<"open" | "shut">("shut");
  const [day, setDay] = useState<Day>();
  const [vet, setVet] = useState("");
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const plan = async (): Promise<void> => {
    if (day === undefined || saving.state === "saving") return;
    setSaving({ state: "saving" });
    const body = vet.trim() === "" ? {} : { vet: vet.trim() };
    const kept = await house.record([{ id: house.newId(), fact: { kind: "vet-day", on: day, body } }]);
    if (!kept.ok) {
      setSaving({ state: "failed", why: kept.error.code, retry: () => void plan() });
      return;
    }
    setSaving({ state: "kept", time: kept.value.time });
    setOpen("shut");
    setDay(undefined);
  };
  if (open === "shut")
    return (
      <>
        {saving.state !== "nothing" && <SavedLine saving={saving} />}
        <button type="button" className="press" onClick={() => setOpen("open")}>
          <PlusIcon />
          {s.plan.addVisit}
        </button>
      </>
    );
  return (
    <div className="card">
      <DayChoice legend={s.vetList.forDay} today={today} value={day} onDay={setDay} ahead="ahead" />
      <TextField label={s.plan.vetName} value={vet} onText={setVet} />
      {saving.state !== "nothing" && <SavedLine saving={saving} />}
      <button type="button" className="press main" aria-disabled={day === undefined} onClick={() => void plan()}>
        {s.plan.planDay}
      </button>
    </div>
  );
}
