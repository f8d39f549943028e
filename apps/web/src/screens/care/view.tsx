import type { CareTask } from "@pollard/advice";
import { Link } from "wouter";
import { MoreIcon } from "../../drawings/icons.tsx";
import { StatusMark } from "../../drawings/marks.tsx";
import { care, useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { type Deeds, useDeeds } from "../../parts/keeping/use-deed.ts";
import type { HeldBack } from "../../worker/season-answers.ts";
import { careByDays, type CareGroup, careStatus, doneToday } from "./model.ts";

/** Every task of care that is open today, each goat with its own answer; and whose milk or meat is held back. */
export function CareScreen() {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const model = useAsked((answers) => answers.care(today), [today]).value;
  const { due, past } = careByDays(model?.tasks ?? [], today);
  return (
    <Frame
      heading={s.care.title}
      title={s.care.title}
      back="/"
      place="today"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.care.title}</h1>
      {model === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          {model.held.length > 0 && <Held held={model.held} />}
          {model.tasks.length === 0 && <p className="card say">{s.care.none}</p>}
          {due.map((group) => (
            <Group key={group.code} group={group} deeds={deeds} days="due" />
          ))}
          {past.length > 0 && (
            <section className="stack tight">
              <p className="lead">{s.care.past}</p>
              {past.map((group) => (
                <details key={group.code} className="why">
                  <summary>{s.care.pastWaiting(care.title(group.code), group.tasks.length)}</summary>
                  <Group group={group} deeds={deeds} days="past" />
                </details>
              ))}
            </section>
          )}
          <p className="quiet">{care.vetNote}</p>
          <Link href="/care/days" className="press">
            {s.care.ruleDays}
          </Link>
        </>
      )}
    </Frame>
  );
}

function Held({ held }: { readonly held: readonly HeldBack[] }) {
  const s = useScreens();
  return (
    <section className="card ask">
      <h2>{s.care.heldBack}</h2>
      <ul className="stack tight">
        {held.map((each) => (
          <li key={each.animal.id}>
            <Named of={each.animal} />
            <HeldSaid held={each} />
          </li>
        ))}
      </ul>
      <p className="quiet">{s.care.heldHow}</p>
    </section>
  );
}

/** Until when one animal's milk and meat are held back. */
export function HeldSaid({ held }: { readonly held: HeldBack }) {
  const s = useScreens();
  const today = useToday();
  return (
    <p>
      {held.milkUntil !== undefined && s.care.milkUntil(words.day(held.milkUntil, today))}{" "}
      {held.meatUntil !== undefined && s.care.meatUntil(words.day(held.meatUntil, today))}
    </p>
  );
}

function Group({
  group,
  deeds,
  days,
}: {
  readonly group: CareGroup;
  readonly deeds: Deeds;
  readonly days: "due" | "past";
}) {
  const s = useScreens();
  const today = useToday();
  const title = care.title(group.code);
  const open = group.tasks.filter((task) => careStatus(task, today) !== "planned");
  const all = (): Promise<void> =>
    deeds.act(s.care.allDone(open.length), [
      doneToday(
        group.code,
        open.map(({ animal }) => animal.id),
        today,
      ),
    ]);
  return (
    <section className="part" aria-label={days === "past" ? s.care.pastOf(title) : title}>
      <h2>{title}</h2>
      <p>{care.why(group.code)}</p>
      {group.kind !== "do" && <StatusChip status="unsure" word={care.asks[group.kind]} />}
      {group.kind === "check-law" && <p className="quiet">{care.lawNote}</p>}
      {open.length > 1 && (
        <button
          type="button"
          className="press"
          aria-label={`${s.care.allDone(open.length)}: ${title}`}
          onClick={() => void all()}
        >
          {s.care.allDone(open.length)}
        </button>
      )}
      <CareLines tasks={group.tasks.slice(0, OPEN_LINES)} deeds={deeds} />
      {group.tasks.length > OPEN_LINES && (
        <details className="why">
          <summary>{s.care.moreGoats(group.tasks.length - OPEN_LINES)}</summary>
          <CareLines tasks={group.tasks.slice(OPEN_LINES)} deeds={deeds} />
        </details>
      )}
      <p className="quiet">{s.care.source(sourceSaid(s, group.source))}</p>
    </section>
  );
}

/** How many goats of one task stand open; the others are one tap away. */
const OPEN_LINES = 8;

/** One task's goats as ruled lines: by when and why now, done with one tap, everything else behind three knobs. */
function CareLines({ tasks, deeds }: { readonly tasks: readonly CareTask[]; readonly deeds: Deeds }) {
  return (
    <ul className="rows">
      {tasks.map((task) => (
        <CareLine key={task.animal.id} task={task} deeds={deeds} />
      ))}
    </ul>
  );
}

function CareLine({ task, deeds }: { readonly task: CareTask; readonly deeds: Deeds }) {
  const s = useScreens();
  const today = useToday();
  const title = care.title(task.code);
  const about = `${title}, ${words.label(task.animal)}`;
  const pressing = care.pressing(task.pressing);
  return (
    <li className={careStatus(task, today) === "now" ? "care-line now" : "care-line"}>
      <StatusMark status={careStatus(task, today)} />
      <div>
        <Named of={task.animal} />
        <p>
          <CareDays task={task} />
        </p>
        {pressing !== "" && <p className="lead">{pressing}</p>}
      </div>
      <Link
        href={`/care/${task.code}/${task.animal.id}`}
        className="press plain dots"
        aria-label={`${s.care.more}: ${about}`}
      >
        <MoreIcon />
      </Link>
      <DoneKey task={task} deeds={deeds} />
    </li>
  );
}

/** By when a task is to be done, or until when it was put off, and why. */
function CareDays({ task }: { readonly task: CareTask }) {
  const s = useScreens();
  const today = useToday();
  return (
    <>
      {task.state === "put-off"
        ? s.care.putOffTo(words.day(task.by, today))
        : task.from > today
          ? s.care.opens(words.day(task.from, today))
          : s.care.openUntil(words.day(task.by, today))}
      {task.because !== undefined && ` ${s.care.because(task.because)}`}
    </>
  );
}

function DoneKey({ task, deeds }: { readonly task: CareTask; readonly deeds: Deeds }) {
  const s = useScreens();
  const today = useToday();
  const [title, name] = [care.title(task.code), words.label(task.animal)];
  return (
    <button
      type="button"
      className="press main snug"
      aria-label={`${care.answers.done}: ${title}, ${name}`}
      onClick={() => void deeds.act(s.care.doneNow(title, name), [doneToday(task.code, [task.animal.id], today)])}
    >
      {care.answers.done}
    </button>
  );
}

/** Whose word a task's days are, by name; the key that docs/SOURCES.md explains where a later version names none. */
export function sourceSaid(s: ReturnType<typeof useScreens>, source: string): string {
  const plain: Readonly<Record<string, string>> = s.care.sources;
  return plain[source] ?? source;
}

/** One task on its goat's page: by when, why now, done with one tap; everything else on its own page. */
export function CareCard({ task, deeds }: { readonly task: CareTask; readonly deeds: Deeds }) {
  const s = useScreens();
  const today = useToday();
  const status = careStatus(task, today);
  const title = care.title(task.code);
  const pressing = care.pressing(task.pressing);
  return (
    <li className={status === "now" ? "card now" : "card"}>
      <div className="with-mark">
        <StatusMark status={status} />
        <b className="say">{title}</b>
      </div>
      <p>{care.why(task.code)}</p>
      <p>
        <CareDays task={task} />
      </p>
      {pressing !== "" && <p className="lead">{pressing}</p>}
      {task.kind !== "do" && <StatusChip status="unsure" word={care.asks[task.kind]} />}
      <div className="two">
        <Link
          href={`/care/${task.code}/${task.animal.id}`}
          className="press snug"
          aria-label={`${s.care.more}: ${title}, ${words.label(task.animal)}`}
        >
          {s.care.more}
        </Link>
        <DoneKey task={task} deeds={deeds} />
      </div>
    </li>
  );
}
