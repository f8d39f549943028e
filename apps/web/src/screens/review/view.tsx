import type { ReviewModel } from "@pollard/advice";
import { Link } from "wouter";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { reviews as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { Kin } from "./kin.tsx";
import { SeasonTables } from "./tables.tsx";

/** The latest season against what was to be expected of it; one page, also on paper. */
export function ReviewScreen() {
  const s = useScreens();
  const today = useToday();
  const model = useAsked((answers) => answers.review(today), [today]).value;
  return (
    <Frame
      heading={s.review.title}
      title={s.review.title}
      back="/pairings"
      place="plan"
      dock={
        model?.kind === "season" && (
          <button type="button" className="press" onClick={() => window.print()}>
            {s.review.print}
          </button>
        )
      }
    >
      <h1 className="in-board">{s.review.title}</h1>
      {model === undefined ? <Told>{s.frame.working}</Told> : <Season model={model} />}
      <Kin />
    </Frame>
  );
}

function Season({ model }: { readonly model: ReviewModel }) {
  const s = useScreens();
  const today = useToday();
  const wide = useWide();
  return (
    <>
      {model.kind === "season" && (
        <p className="quiet">
          {words.day(model.from, today)} – {words.day(model.to, today)}
        </p>
      )}
      {model.kind === "season" && wide === "desk" ? <SeasonTables season={model} /> : <SeasonLines model={model} />}
      {model.kind === "season" && (
        <Link href="/score" className="press start no-print">
          {s.review.toScore}
        </Link>
      )}
    </>
  );
}

/** The season as lines, for a phone. */
function SeasonLines({ model }: { readonly model: ReviewModel }) {
  const s = useScreens();
  return (
    <>
      <ul className="plain-lines">
        {said.season(model).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {model.kind === "season" && (
        <>
          <section className="part">
            <h2>{s.review.surprises}</h2>
            {model.surprises.length === 0 && <p>{s.review.noSurprise}</p>}
            <ul className="plain-lines">
              {model.surprises.map((surprise) => (
                <li key={surprise.kid.id}>
                  <Link href={`/animal/${surprise.kid.id}`}>{said.surprise(surprise)}</Link>
                </li>
              ))}
            </ul>
          </section>
          <section className="part">
            <h2>{s.review.learnt}</h2>
            {model.learnt.length === 0 && <p>{s.review.nothingLearnt}</p>}
            <ul className="plain-lines">
              {model.learnt.map((learnt) => (
                <li key={learnt.animal.id}>{said.learnt(learnt)}</li>
              ))}
            </ul>
          </section>
          {model.sires.length > 0 && (
            <section className="part">
              <h2>{s.review.sires}</h2>
              <ul className="plain-lines">
                {model.sires.map(({ buck, horned }) => (
                  <li key={buck.id}>{said.seen(s.review.sire(words.label(buck)), horned)}</li>
                ))}
              </ul>
            </section>
          )}
        </>
      )}
    </>
  );
}
