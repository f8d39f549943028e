import type { PairingsModel, PlanModel } from "@pollard/advice";
import { Link } from "wouter";
import { type PairingPlan, usePairingPlan } from "../../house/use-pairing-plan.ts";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { PairGrid } from "./grid.tsx";

/** Which buck for which doe: the plan, the grid of every pair, what the rules cost. */
export function PairingsScreen() {
  const s = useScreens();
  const today = useToday();
  const wide = useWide();
  const plan = usePairingPlan(today);
  const { model } = plan;
  return (
    <Frame
      heading={s.pairings.title}
      title={s.pairings.title}
      back="/plan"
      place="plan"
      dock={
        plan.state === "working" ? (
          <button type="button" className="press" onClick={plan.stop}>
            {s.pairings.stop}
          </button>
        ) : plan.state === "stopped" ? (
          <button type="button" className="press main" onClick={plan.again}>
            {s.pairings.again}
          </button>
        ) : (
          model?.plan.kind === "plan" && (
            <button type="button" className="press" onClick={() => window.print()}>
              {s.pairings.print}
            </button>
          )
        )
      }
    >
      <h1 className="sentence">{s.pairings.lead}</h1>
      {plan.state !== "ready" && <Told>{s.pairings[waitingSaid(plan)]}</Told>}
      {model !== undefined && (
        <>
          <div className="plan-and-grid">
            {wide === "desk" && model.pairs.length > 0 && model.bucks.length > 0 && (
              <section className="part no-print">
                <h2>{s.pairings.everyPair}</h2>
                <p>{s.pairings.gridSaid}</p>
                <PairGrid model={model} />
              </section>
            )}
            <div className="sheet-page stack">
              <PlanPart model={model} />
            </div>
          </div>
          <Around plan={model.plan} />
          <LeftOut model={model} />
        </>
      )}
      {wide === "phone" && <More />}
    </Frame>
  );
}

/** What is said while the plan of the herd as it is now is not there. */
function waitingSaid({ state, model }: PairingPlan): "working" | "stillWorking" | "stopped" | "stoppedOld" {
  if (state === "stopped") return model === undefined ? "stopped" : "stoppedOld";
  return model === undefined ? "working" : "stillWorking";
}

function PlanPart({ model }: { readonly model: PairingsModel }) {
  const s = useScreens();
  const wide = useWide();
  const { plan } = model;
  return (
    <section className="part">
      <h2>{s.pairings.plan}</h2>
      <ul className="plain-lines">
        {said.plan(plan).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {plan.kind === "plan" && (
        <>
          <ul className="plain-lines">
            {plan.bucks.map(({ buck, does }) => (
              <li key={buck.id}>{s.pairings.bucksUse(words.label(buck), does)}</li>
            ))}
          </ul>
          {wide === "phone" ? (
            <Lines>
              {plan.does.map(({ doe, buck }) => (
                <GoatLine key={doe.id} of={doe} href={`/pairings/${doe.id}`}>
                  {buck === undefined ? s.pairings.open : s.plan.with(words.label(buck))}
                </GoatLine>
              ))}
            </Lines>
          ) : (
            <ChosenTable does={plan.does} />
          )}
          <p className="quiet">{s.pairings.notEntered}</p>
        </>
      )}
    </section>
  );
}

/** At a desk the doe and her buck in one line, beside the grid that says the same of every pair. */
function ChosenTable({ does }: { readonly does: (PlanModel & { kind: "plan" })["does"] }) {
  const s = useScreens();
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">{s.pairings.doe}</th>
          <th scope="col">{s.animals.sex.buck}</th>
        </tr>
      </thead>
      <tbody>
        {does.map(({ doe, buck }) => (
          <tr key={doe.id}>
            <th scope="row">
              <Link href={`/pairings/${doe.id}`} className="cell-link">
                {words.label(doe)}
              </Link>
            </th>
            <td>{buck === undefined ? s.pairings.open : words.label(buck)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Around({ plan }: { readonly plan: PlanModel }) {
  const s = useScreens();
  if (plan.kind !== "plan") return null;
  return (
    <div className="wide-two">
      {plan.next.length > 0 && (
        <section className="part">
          <h2>{s.pairings.otherPlans}</h2>
          <ul className="plain-lines">
            {plan.next.map((next) => (
              <li key={said.nextPlan(next)}>{said.nextPlan(next)}</li>
            ))}
          </ul>
          {plan.next.some((next) => !next.asGood) && <p className="quiet">{said.unit}</p>}
        </section>
      )}
      {plan.prices.length > 0 && (
        <section className="part">
          <h2>{s.pairings.prices}</h2>
          <ul className="plain-lines">
            {plan.prices.map((price) => (
              <li key={said.price(price)}>{said.price(price)}</li>
            ))}
          </ul>
          <p className="quiet">{said.unit}</p>
        </section>
      )}
    </div>
  );
}

function LeftOut({ model }: { readonly model: PairingsModel }) {
  const s = useScreens();
  if (model.leftOut.length === 0) return null;
  // Of these something can be entered that settles it, each on its own page.
  const doubted = model.leftOut.filter(({ why }) => why === "intersex-not-ruled-out");
  return (
    <section className="part">
      <h2>{s.pairings.leftOut}</h2>
      <ul className="plain-lines">
        {said.leftOut(model.leftOut).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {doubted.length > 0 && (
        <Lines>
          {doubted.map(({ animal }) => (
            <GoatLine key={animal.id} of={animal} href={`/animal/${animal.id}`} />
          ))}
        </Lines>
      )}
      <p className="quiet">{said.caution}</p>
    </section>
  );
}

function More() {
  const s = useScreens();
  return (
    <section className="part stack no-print">
      <h2>{s.pairings.more}</h2>
      <BreedingLinks />
    </section>
  );
}

/** The screens that belong to planning a year's breeding. */
function BreedingLinks() {
  const s = useScreens();
  return (
    <div className="answers">
      <Link href="/forecast" className="press start">
        {s.pairings.toForecast}
      </Link>
      <Link href="/tests" className="press start">
        {s.pairings.toTests}
      </Link>
      <Link href="/review" className="press start">
        {s.pairings.toReview}
      </Link>
      <Link href="/kept" className="press start">
        {s.pairings.toKept}
      </Link>
    </div>
  );
}
