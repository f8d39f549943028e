import type { ForecastModel } from "@pollard/advice";
import type { PolicyForecast } from "@pollard/planning";
import { useScreens } from "../../house/use-house.tsx";
import { forecasts as said } from "../../house/wording-later.ts";
import { BandPlot } from "../../parts/pictures/band-plot.tsx";
import { bandOf, DRAWN, mostOf } from "./model.ts";

/** What one way of breeding comes to, year by year, as pictures that share their scale with the other ways'. */
export function PolicyBands({ model, policy }: { readonly model: ForecastModel; readonly policy: PolicyForecast }) {
  const s = useScreens();
  const last = policy.years.at(-1);
  if (last === undefined || policy.years.length < 2) return null;
  return (
    <>
      <div className="side-by-side">
        {DRAWN.map((measure) => (
          <BandPlot
            key={measure}
            steps={bandOf(policy, measure)}
            most={mostOf(model, measure)}
            label={s.plots.band(said.measure(measure), model.years, said.spread(measure, last[measure]))}
            across={s.plots.years}
            up={said.measure(measure)}
          />
        ))}
      </div>
      <p className="quiet">{s.plots.bandIs}</p>
      <details className="why">
        <summary>{s.plots.figures}</summary>
        <table className="table">
          <thead>
            <tr>
              <th scope="col">{s.plots.years}</th>
              {DRAWN.map((measure) => (
                <th key={measure} scope="col" className="num">
                  {said.measure(measure)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {policy.years.map((year, i) => (
              // oxlint-disable-next-line react/no-array-index-key -- years have no other name than their place
              <tr key={i}>
                <th scope="row">{i + 1}</th>
                {DRAWN.map((measure) => (
                  <td key={measure} className="num">
                    {said.spread(measure, year[measure])}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}
