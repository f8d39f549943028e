import type { KidGrowthModel } from "@pollard/advice";
import { Link } from "wouter";
import { care, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import type { AnimalCare } from "../../worker/season-answers.ts";
import { isBehind, taskTitle } from "./model.ts";
import { CareCard, HeldSaid } from "./view.tsx";

/** A goat's care on its own page: milk or meat held back, how it grows, what is open or coming up, what was answered. */
export function AnimalCarePart({ of }: { readonly of: AnimalCare }) {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const { tasks, given, held, growth } = of;
  return (
    <>
      {held !== undefined && (
        <section className="card ask">
          <h2>{s.care.heldBack}</h2>
          <HeldSaid held={held} />
          <p className="quiet">{s.care.heldHow}</p>
        </section>
      )}
      {growth !== undefined && <Growth growth={growth} />}
      {(tasks.length > 0 || deeds.saving.state !== "nothing") && (
        <section className="part">
          <h2>{s.care.coming}</h2>
          <DeedLine deeds={deeds} />
          <ul className="stack">
            {tasks.map((task) => (
              <CareCard key={task.code} task={task} deeds={deeds} />
            ))}
          </ul>
        </section>
      )}
      {given.length > 0 && (
        <details className="why">
          <summary>{s.care.given}</summary>
          <ul className="rows">
            {given.map(({ code, on, answer, means }) => (
              <li key={`${code}-${on}-${answer}`} className="history-line">
                <span>
                  <b>{taskTitle(code, care.title)}</b>
                  <br />
                  <span className="quiet">
                    {s.care.answered(care.answers[answer], words.day(on, today))}
                    {means !== undefined && `. ${means}`}
                  </span>
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

/** What the scales say of a kid, and what kids like it gain. */
function Growth({ growth }: { readonly growth: KidGrowthModel }) {
  const s = useScreens();
  const today = useToday();
  const { last, sinceBefore, gainKgADay, expectedGainKgADay, state, ninetyDayKg } = growth;
  const behind = isBehind(growth);
  return (
    <section className={behind ? "card now" : "part"}>
      <h2>{s.care.growth}</h2>
      {behind && (
        <p className="say">
          {words.label(growth.kid)} {care.growth(state)}.
        </p>
      )}
      {last !== undefined && (
        <p>
          {s.care.lastWeighed(weights.said(last.kg), words.day(last.on, today))}{" "}
          {sinceBefore !== undefined &&
            (sinceBefore.kg < 0
              ? s.care.lost(weights.said(-sinceBefore.kg), sinceBefore.days)
              : s.care.gained(weights.said(sinceBefore.kg), sinceBefore.days))}
        </p>
      )}
      {state !== "unknown" && <p>{s.care.gain(weights.gain(gainKgADay.low), weights.gain(gainKgADay.high))}</p>}
      <p className="quiet">{s.care.gainOthers(weights.gain(expectedGainKgADay))}</p>
      {last !== undefined && last.on !== today && <p>{s.care.todayWeighs(weights.between(growth.today))}</p>}
      {ninetyDayKg !== undefined && growth.ageDays > 60 && <p>{s.care.ninety(weights.about(ninetyDayKg))}</p>}
      {behind && <p className="lead">{s.care.behind}</p>}
      <Link href={`/fact/${growth.kid.id}`} className="press">
        {s.care.weigh}
      </Link>
    </section>
  );
}
