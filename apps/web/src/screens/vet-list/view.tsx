import type { VetListLine, VetListModel } from "@pollard/advice";
import { type Day, parseDay } from "@pollard/base";
import { useState } from "react";
import { Link } from "wouter";
import { PrintIcon } from "../../drawings/icons.tsx";
import { SexMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { NotHere } from "../../parts/frame/not-here.tsx";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { forVet, sincePrinted, type SincePrinted } from "./for-vet.ts";
import { inTurn } from "./model.ts";
import { usePrinted } from "./use-printed.ts";
import { Told } from "../../parts/frame/told.tsx";
import { VisitShown } from "../shown/visit-shown.tsx";
import { capital } from "../../parts/capital.ts";

/** Which kids the vet is to see on a day, what the vet must know, and what was done. */
export function VetListScreen({ day }: { readonly day: string }) {
  const s = useScreens();
  const on = parseDay(day);
  if (on === undefined) return <NotHere said={s.frame.noSuchDay} back="/plan" place="plan" />;
  return <ListOf day={on} />;
}

function ListOf({ day }: { readonly day: Day }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const asked = useAsked((answers) => answers.vetList(day, today), [day, today]);
  const model = asked.value;
  const title = s.vetList.on(words.day(day, today));
  const { printed } = usePrinted(day);
  const since = model === undefined ? undefined : sincePrinted(model, printed);
  const { toSee, seen } = inTurn(model?.list ?? []);
  const cards = (lines: readonly VetListLine[]) =>
    lines.length > 0 && (
      <ul className="stack">
        {lines.map((line) => (
          <KidCard key={line.kid.id} line={line} day={day} isNew={since?.fresh.has(line.kid.id) ? "new" : "listed"} />
        ))}
      </ul>
    );
  return (
    <Frame
      heading={title}
      title={title}
      back="/plan"
      place="plan"
      dock={
        <Link href={`/sheet/vet/${day}`} className="press">
          <PrintIcon />
          {s.vetList.print}
        </Link>
      }
    >
      <div className="stack">
        <h1 className="in-board">{title}</h1>
        {model === undefined ? (
          <Told>{s.frame.working}</Told>
        ) : (
          <>
            <Visit model={model} />
            {since !== undefined && <PrintedLine since={since} />}
            <section className="part">
              <h2>{s.vetList.list}</h2>
              {toSee.length === 0 && <p className="card">{seen.length === 0 ? s.vetList.nobody : s.vetList.allSeen}</p>}
              {cards(toSee)}
            </section>
            {model.lookFirst.length > 0 && (
              <section className="part">
                <h2>{s.vetList.lookFirst}</h2>
                <ul className="stack">
                  {model.lookFirst.map((line) => (
                    <LookFirst key={line.kid.id} line={line} day={day} />
                  ))}
                </ul>
              </section>
            )}
            {seen.length > 0 && (
              <section className="part">
                <h2>{s.vetList.seen(seen.length)}</h2>
                {cards(seen)}
              </section>
            )}
            {house.herd.sort === "own" && <VisitShown model={model} day={day} />}
            <section className="part">
              <h2>{s.vetList.cautions}</h2>
              <ul className="cautions">
                {model.cautions.map((code) => (
                  <li key={code}>{words.caution(code)}</li>
                ))}
              </ul>
            </section>
          </>
        )}
      </div>
    </Frame>
  );
}

function Visit({ model }: { readonly model: VetListModel }) {
  const s = useScreens();
  const { house } = useGround();
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  if (model.planned)
    return (
      <p>
        <StatusChip status="planned" word={s.vetList.planned} /> {model.vet}
      </p>
    );
  const plan = async (): Promise<void> => {
    if (saving.state === "saving") return;
    setSaving({ state: "saving" });
    const kept = await house.record([{ id: house.newId(), fact: { kind: "vet-day", on: model.day, body: {} } }]);
    if (!kept.ok) setSaving({ state: "failed", why: kept.error.code, retry: () => void plan() });
  };
  return (
    <div className="card stack">
      <p>{s.vetList.notPlanned}</p>
      {saving.state !== "nothing" && <SavedLine saving={saving} />}
      <button type="button" className="press main" onClick={() => void plan()}>
        {s.vetList.plan}
      </button>
    </div>
  );
}

function PrintedLine({ since }: { readonly since: SincePrinted }) {
  const s = useScreens();
  const today = useToday();
  const when = `${words.day(since.at.slice(0, 10) as Day, today)} ${since.at.slice(11)}`;
  const changes = [
    ...(since.fresh.size > 0 ? [s.forVet.newCount(since.fresh.size)] : []),
    ...(since.gone > 0 ? [s.forVet.goneCount(since.gone)] : []),
  ];
  return (
    <p className="lead">
      {s.forVet.printed(when)} <b>{changes.length === 0 ? s.forVet.same : changes.join(" ")}</b>
    </p>
  );
}

function KidCard({
  line,
  day,
  isNew,
}: {
  readonly line: VetListLine;
  readonly day: Day;
  readonly isNew: "new" | "listed";
}) {
  const s = useScreens();
  const today = useToday();
  const done = line.done;
  return (
    <li className="card">
      <div className="with-mark">
        <SexMark sex={line.kid.sex} label={s.animals.sex[line.kid.sex]} />
        <Named of={line.kid} />
      </div>
      {isNew === "new" && <StatusChip status="soon" word={s.forVet.newSince} />}
      <dl className="facts">
        <dt>{s.vetList.age}</dt>
        <dd>
          {s.vetList.ageDays(line.ageOnDay)}
          {line.daysFromDueOnDay !== undefined &&
            line.daysFromDueOnDay !== line.ageOnDay &&
            `, ${s.vetList.fromDue(line.daysFromDueOnDay)}`}
        </dd>
        <dt>{s.vetList.weight}</dt>
        <dd>
          {line.weight === undefined
            ? s.vetList.notWeighed
            : s.vetList.weighed(weights.forVet.said(line.weight.kg), words.day(line.weight.on, today))}
        </dd>
        <dt>{s.vetList.horns}</dt>
        <dd>{line.belief === undefined ? s.vetList.notRead : capital(words.counted(line.belief.counted))}</dd>
        <dt>{s.vetList.end}</dt>
        <dd>{capital(words.day(line.end, today))}</dd>
      </dl>
      {line.pressing
        .filter((code) => code === "very-small-kid")
        .map((code) => (
          <p key={code} className="lead">
            <b>{words.caution(code)}</b>
          </p>
        ))}
      <ul className="plain-lines">
        {forVet(s, line, { day, sayDay: (each) => words.day(each, today) }).map((said) => (
          <li key={said}>{said}</li>
        ))}
      </ul>
      {line.notes.map((note) => (
        <p key={note} className="lead">
          {note}
        </p>
      ))}
      {done !== undefined && <StatusChip status="done" word={s.vetDone.doneAnswers[done.done]} />}
      <div className="two">
        <Link href={`/answer/${line.kid.id}`} className="press">
          {s.animal.seeAnswer}
        </Link>
        {done === undefined && (
          <Link href={`/vet/${day}/${line.kid.id}`} className="press snug">
            {s.vetList.enterDone}
          </Link>
        )}
      </div>
    </li>
  );
}

function LookFirst({ line, day }: { readonly line: VetListLine; readonly day: Day }) {
  const s = useScreens();
  return (
    <li className="card hatched">
      <div className="with-mark">
        <SexMark sex={line.kid.sex} label={s.animals.sex[line.kid.sex]} />
        <Named of={line.kid} />
      </div>
      <p>
        <StatusChip status="unsure" word={s.vetList.whys[line.why]} /> {s.vetList.ageDays(line.ageOnDay)}
      </p>
      <div className="two">
        <Link href={`/reading/${line.kid.id}`} className="press main">
          {line.why === "unread" ? s.animal.readHead : s.animal.readAgain}
        </Link>
        <Link href={`/vet/${day}/${line.kid.id}`} className="press snug">
          {s.vetList.enterDone}
        </Link>
      </div>
    </li>
  );
}
