import type { HeadRecordModel, RegrowthModel } from "@pollard/advice";
import { Link } from "wouter";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { type RecordPage, recordPage } from "./model.ts";
import { CallsPicture } from "./picture.tsx";

/** How the readings' calls came out, whether the sums are worth it, what the herd has taught, and what grew after disbudding. */
export function ScoreScreen() {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.record(today), [today]);
  const { value } = asked;
  return (
    <Frame heading={s.score.title} title={s.score.title} back="/plan" place="plan">
      <h1 className="in-board">{s.score.title}</h1>
      {value === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          {asked.working && <Told>{s.frame.stillWorking}</Told>}
          <div className="wide-two">
            <div className="stack">
              <Calls record={value.heads} page={recordPage(value.heads)} />
            </div>
            <div className="stack">
              <Learnt record={value.heads} page={recordPage(value.heads)} />
              <Regrowth regrowth={value.regrowth} />
            </div>
          </div>
        </>
      )}
    </Frame>
  );
}

interface Shown {
  readonly record: HeadRecordModel;
  readonly page: RecordPage;
}

function Calls({ record, page }: Shown) {
  const s = useScreens();
  if (record.kids === 0)
    return (
      <section className="card">
        <p className="say">{s.score.none}</p>
        <p>{s.score.noneHow}</p>
        <p>{s.score.waiting(record.readNotKnown)}</p>
      </section>
    );
  const said = record.calls.map((line) => words.call(line));
  return (
    <>
      <section className="stack tight">
        <p className="say">{s.score.lead(record.kids, record.horned)}</p>
        {record.readNotKnown > 0 && <p>{s.score.waiting(record.readNotKnown)}</p>}
        <p>{s.score.honest}</p>
        <details className="why">
          <summary>{s.score.knownFrom}</summary>
          <ul>
            {page.truths.map(({ from, kids }) => (
              <li key={from}>{s.score.truthLine(kids, s.score.truths[from])}</li>
            ))}
          </ul>
          <p>{s.score.vetMayErr}</p>
        </details>
      </section>
      <section className="part">
        <h2>{s.score.picture}</h2>
        <ul className="stack tight">
          {said.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
        <CallsPicture
          rings={page.rings}
          label={s.score.pictureSays(said.join(" "))}
          called={s.score.axisCalled}
          came={s.score.axisCame}
        />
        <p className="quiet">{s.score.onLine}</p>
        <details className="why">
          <summary>{s.score.asTable}</summary>
          <div className="scrolls">
            <table className="table">
              <thead>
                <tr>
                  <th scope="col">{s.score.columns.called}</th>
                  <th scope="col" className="num">
                    {s.score.columns.heads}
                  </th>
                  <th scope="col" className="num">
                    {s.score.columns.horned}
                  </th>
                  <th scope="col">{s.score.columns.range}</th>
                </tr>
              </thead>
              <tbody>
                {record.calls.map((line) => (
                  <tr key={line.meanCall}>
                    <th scope="row">{words.counted(line.said)}</th>
                    <td className="num">{line.kids}</td>
                    <td className="num">{line.horned}</td>
                    <td>{s.score.rangeOf(Math.round(line.low * 20), Math.round(line.high * 20))}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </details>
      </section>
      <Rivals page={page} />
      <section className="part">
        <h2>{s.score.readers}</h2>
        <p>{s.score.readersHow}</p>
        <ul className="stack tight">
          {record.readers.map((reader) => (
            <li key={reader.reader}>{words.reader(reader)}</li>
          ))}
        </ul>
      </section>
    </>
  );
}

function Rivals({ page }: { readonly page: RecordPage }) {
  const s = useScreens();
  const [nearest] = page.ways;
  if (nearest === undefined) return null;
  return (
    <section className="part">
      <h2>{s.score.rivals}</h2>
      <p className="say">{s.score.closest(s.score.ways[nearest.way])}</p>
      {nearest.way !== "together" && <p>{s.score.notOurs}</p>}
      {page.mayBeLuck && <p>{s.score.luck}</p>}
      <p>{s.score.rivalsHow}</p>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">{s.score.way}</th>
            <th scope="col" className="num">
              {s.score.miss}
            </th>
            <th scope="col" className="num desk-only">
              {s.score.surprise}
            </th>
          </tr>
        </thead>
        <tbody>
          {page.ways.map(({ way, brier, logScore, share }) => (
            <tr key={way}>
              <th scope="row">
                {s.score.ways[way]}
                <span className="miss-bar" aria-hidden="true" style={{ width: `${share * 100}%` }} />
              </th>
              <td className="num">{words.number(brier, 3)}</td>
              <td className="num desk-only">{words.number(logScore, 3)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">{s.score.thumbIs}</p>
      <p className="quiet desk-only">{s.score.missHow}</p>
    </section>
  );
}

function Learnt({ record, page }: Shown) {
  const s = useScreens();
  const { learnt } = record;
  return (
    <section className="part">
      <h2>{s.score.learnt}</h2>
      <p className="say">{s.score.learntFrom(learnt.kids)}</p>
      <Lessons of={page.moved} />
      {page.unmoved.length > 0 && (
        <details className="why">
          <summary>{s.score.unmoved}</summary>
          <Lessons of={page.unmoved} />
        </details>
      )}
      {learnt.breeds
        .filter(({ days }) => days !== 0)
        .map(({ breed, days }) => (
          <p key={breed}>
            {days > 0 ? s.score.breedLater(capital(breed), days) : s.score.breedEarlier(capital(breed), -days)}
          </p>
        ))}
      {learnt.readers.length > 0 && <p>{s.score.ownTables(words.named(learnt.readers.map(({ reader }) => reader)))}</p>}
      <p className="quiet">{s.answer.noStudy}</p>
    </section>
  );
}

function Lessons({ of }: { readonly of: RecordPage["moved"] }) {
  const s = useScreens();
  return (
    <ul>
      {of.map((lesson) => {
        const said = words.lesson(lesson);
        return (
          <li key={lesson.code} className="lesson">
            <b>{said.about}</b>
            <span>
              {s.score.before}: {said.before}. {s.score.now}: {said.after}.
            </span>
            <span className="quiet">{said.from}</span>
          </li>
        );
      })}
    </ul>
  );
}

function Regrowth({ regrowth }: { readonly regrowth: RegrowthModel }) {
  const s = useScreens();
  return (
    <section className="part">
      <h2>{s.score.regrowth}</h2>
      {regrowth.buds === 0 ? <p>{s.score.regrowthNone}</p> : <p>{s.score.regrowthHow}</p>}
      {regrowth.techniques.map(({ technique, all, operators, ages }) => (
        <div key={technique} className="stack tight">
          <h3>{s.score.techniques[technique]}</h3>
          <p>{words.regrowth(all)}</p>
          <details className="why">
            <summary>{s.score.byHand}</summary>
            <ul className="stack tight">
              {operators.map((group) => (
                <li key={group.of}>
                  <b>{s.score.byOperator(group.of)}.</b> {words.regrowth(group)}
                </li>
              ))}
              {ages.map((group) => (
                <li key={group.of}>
                  <b>{s.score.byAge(s.score.ages[group.of as keyof typeof s.score.ages])}.</b> {words.regrowth(group)}
                </li>
              ))}
            </ul>
          </details>
        </div>
      ))}
      {regrowth.techniqueNotSaid > 0 && <p>{s.score.regrowthNoTechnique(regrowth.techniqueNotSaid)}</p>}
      {regrowth.notSeen > 0 && (
        <p>
          {s.score.regrowthNotSeen(regrowth.notSeen)} <Link href="/">{s.frame.toToday}</Link>
        </p>
      )}
      <p className="quiet">{s.score.vetDecides}</p>
    </section>
  );
}
