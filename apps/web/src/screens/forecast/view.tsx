import type { ForecastModel } from "@pollard/advice";
import type { PolicyForecast } from "@pollard/planning";
import { Fragment, useEffect, useRef, useState } from "react";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { forecasts as said } from "../../house/wording-later.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { PolicyBands } from "./bands.tsx";
import { DECIDING, RUNS, runInSteps, SEED, shownMeasures, shownYears } from "./model.ts";

const YEARS = ["1", "3", "5", "10"] as const;

/** What becomes of the herd in the coming years, one way of breeding beside another on the same luck. */
export function ForecastScreen() {
  const s = useScreens();
  const today = useToday();
  const wide = useWide();
  const { house } = useGround();
  const [years, setYears] = useState<(typeof YEARS)[number]>("5");
  const [model, setModel] = useState<ForecastModel>();
  const [done, setDone] = useState<number>();
  const wanted = useRef<"go" | "stop">("stop");
  useEffect(
    () => () => {
      wanted.current = "stop";
    },
    [],
  );
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  const noGoats = goats?.every((goat) => goat.gone);
  const start = async (): Promise<void> => {
    wanted.current = "go";
    setDone(0);
    const begun = await house.answers.forecastBegin(today, { years: Number(years), runs: RUNS, seed: SEED });
    const reached = await runInSteps(
      (runs) => house.answers.forecastStep(begun, runs),
      () => wanted.current === "go",
      setDone,
    );
    if (reached > 0) setModel({ ...(await house.answers.forecastResult(begun)), runs: reached });
    setDone(undefined);
  };
  const key =
    goats === undefined || noGoats ? undefined : done === undefined ? (
      <button type="button" className="press main" onClick={() => void start()}>
        {s.forecast.start}
      </button>
    ) : (
      <button
        type="button"
        className="press"
        onClick={() => {
          wanted.current = "stop";
        }}
      >
        {s.forecast.cancel}
      </button>
    );
  return (
    <Frame
      heading={s.forecast.title}
      title={s.forecast.title}
      back="/pairings"
      place="plan"
      dock={wide === "phone" && key}
    >
      <h1 className="sentence">{s.forecast.lead}</h1>
      {noGoats && <p className="card">{s.forecast.noGoats}</p>}
      <Answers
        name="years"
        legend={s.forecast.years}
        shape="small"
        value={years}
        choices={YEARS.map((n) => ({ value: n, label: s.forecast.yearsOne(Number(n)) }))}
        onAnswer={setYears}
      />
      {wide === "desk" && key}
      {done !== undefined && (
        <>
          <Told>{s.forecast.progress(done, RUNS)}</Told>
          <progress className="progress" max={RUNS} value={done} aria-label={s.forecast.progress(done, RUNS)} />
        </>
      )}
      {model !== undefined && <Policies model={model} />}
    </Frame>
  );
}

function Policies({ model }: { readonly model: ForecastModel }) {
  const s = useScreens();
  return (
    <>
      {model.runs < RUNS && <p>{s.forecast.stopped(model.runs)}</p>}
      {model.policies.map((policy, at) => (
        <section key={policy.policy} className="part">
          <h2>{said.policy(policy.policy)}</h2>
          <p>{at === 0 ? s.forecast.first : said.against(policy, model.years)}</p>
          <PolicyBands model={model} policy={policy} />
          <LastYear model={model} policy={policy} />
          <details className="why">
            <summary>{s.forecast.table}</summary>
            <PolicyTable model={model} policy={policy} />
          </details>
        </section>
      ))}
      <ul className="plain-lines">
        {said.note(model).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

/** What the last year comes to, in the measures that decide. */
function LastYear({ model, policy }: { readonly model: ForecastModel; readonly policy: PolicyForecast }) {
  const s = useScreens();
  const last = policy.years.at(-1);
  if (last === undefined) return null;
  return (
    <>
      <h3>{s.forecast.inYear(model.years)}</h3>
      <dl className="facts">
        {DECIDING.map((measure) => (
          <Fragment key={measure}>
            <dt>{said.measure(measure)}</dt>
            <dd>{said.spread(measure, last[measure])}</dd>
          </Fragment>
        ))}
      </dl>
    </>
  );
}

function PolicyTable({ model, policy }: { readonly model: ForecastModel; readonly policy: PolicyForecast }) {
  const s = useScreens();
  const years = shownYears(policy);
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">{s.forecast.what}</th>
          {years.map((year) => (
            <th key={year} scope="col" className="num">
              {s.forecast.year(year + 1)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {shownMeasures(model).map((measure) => (
          <tr key={measure}>
            <th scope="row">{said.measure(measure)}</th>
            {years.map((year) => {
              const of = policy.years[year];
              return (
                <td key={year} className="num">
                  {of && said.spread(measure, of[measure])}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
