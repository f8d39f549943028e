import type { AnimalLine, DatedTask, Urgency } from "@pollard/advice";
import { Link } from "wouter";
import { KiddingIcon, PlusIcon, SafeIcon, SearchIcon } from "../../drawings/icons.tsx";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { KiddingTimeBanner } from "../visitors/banner.tsx";
import { HeldDeedsCard } from "./held.tsx";
import { ResumeBanners } from "./resume.tsx";
import { backupNag, hrefOfTask, isMatingNext, stillAhead } from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";
import { capital } from "../../parts/capital.ts";
import { longDay } from "../../parts/long-day.ts";

/** What needs doing, most urgent first; each line opens the job itself. */
export function TodayScreen() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const asked = useAsked((answers) => answers.today(today), [today]);
  const safety = useAsked((answers) => answers.safety(), []);
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  const model = asked.value;
  const safe = safety.value?.ok ? safety.value.value : undefined;
  const clash = model?.tasks.find(({ task }) => task.kind === "problems");
  const nag = safe === undefined ? undefined : backupNag(safe, today);
  return (
    <Frame
      heading={s.today.title}
      place="today"
      title={capital(words.day(today, today))}
      dock={
        <div className="two">
          <Link href="/kidding" className="press">
            <KiddingIcon />
            {s.today.enterKidding}
          </Link>
          <Link href="/find" className="press">
            <SearchIcon />
            {s.find.findShort}
          </Link>
        </div>
      }
    >
      <h1>{capital(longDay(today))}</h1>
      {house.otherTab && <Told className="lead">{s.frame.otherTab}</Told>}
      {house.lastExchange === "turned-away" && <Told className="lead">{s.phones.turnedAway}</Told>}
      <HeldDeedsCard />
      <ResumeBanners />
      <KiddingTimeBanner />
      {model === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          {asked.working && <Told className="unseen">{s.frame.stillWorking}</Told>}
          <Told className="unseen">{clash === undefined ? "" : words.task(clash, today).title}</Told>
          <div className="today-columns">
            {([["now", "soon"], ["planned"]] as const).map((column) => (
              <div key={column[0]} className="stack">
                {column.map((urgency) => (
                  <Group
                    key={urgency}
                    urgency={urgency}
                    tasks={model.tasks.filter((task) => task.urgency === urgency)}
                  />
                ))}
              </div>
            ))}
          </div>
          {model.tasks.length === 0 && <NothingToDo kids={model.kidsInWindow} does={model.doesToKid} goats={goats} />}
        </>
      )}
      {nag !== undefined && (
        <div className="rows">
          <Link href="/safe" className="row">
            <span className="margin">
              <SafeIcon />
            </span>
            <span className="body">
              <span className="who">{s.today.backupDue}</span>
              <span>{s.today.backupDueWhy(nag)}</span>
            </span>
          </Link>
        </div>
      )}
    </Frame>
  );
}

function Group({ urgency, tasks }: { readonly urgency: Urgency; readonly tasks: readonly DatedTask[] }) {
  const s = useScreens();
  const today = useToday();
  if (tasks.length === 0) return null;
  return (
    <section className="stack tight" aria-label={s.today.groups[urgency]}>
      <h2>{s.today.groups[urgency]}</h2>
      <ul className="rows">
        {tasks.map((dated, at) => {
          const said = words.task(dated, today);
          return (
            // Two tasks of one kind may name the same goat; their order is their name.
            <li key={at}>
              <Link href={hrefOfTask(dated)} className={`row ${urgency}`}>
                <span className="margin">
                  <StatusMark status={urgency} />
                  <span>{words.urgency(urgency, dated.daysLeft)}</span>
                </span>
                <span className="body">
                  <span className="who">{said.title}</span>
                  {capital(said.when) !== s.today.groups[urgency] && <span>{capital(said.when)}</span>}
                  <span className="quiet">{said.why}</span>
                </span>
              </Link>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function NothingToDo(props: {
  readonly kids: number;
  readonly does: number;
  readonly goats: readonly AnimalLine[] | undefined;
}) {
  const s = useScreens();
  const today = useToday();
  const empty = props.goats?.length === 0;
  return (
    <div className="card">
      <p className="say">{empty ? s.today.empty : s.today.nothing}</p>
      {empty ? (
        <div className="stack tight">
          <Link href="/add" className="press main">
            <PlusIcon />
            {s.today.addGoat}
          </Link>
          <Link href="/list" className="press">
            {s.lists.title}
          </Link>
        </div>
      ) : (
        stillAhead(s, props).map((line) => <p key={line}>{line}</p>)
      )}
      {isMatingNext(props, props.goats ?? [], today) && (
        <div className="stack tight">
          <p>{s.today.noMating}</p>
          <Link href="/service" className="press main">
            {s.today.enterMating}
          </Link>
          <Link href="/pairings" className="press">
            {s.today.seePairings}
          </Link>
        </div>
      )}
    </div>
  );
}
