import { type Day, daysFrom, weightIn } from "@pollard/base";
import type { Animal } from "@pollard/records";
import { useScreens, weights } from "../../house/use-house.tsx";
import { CurvePlot } from "../../parts/pictures/band-plot.tsx";

/** A goat's weights over its age, once there are two; the same figures one tap away. */
export function GrowthCurve({ animal, born }: { readonly animal: Animal; readonly born: Day }) {
  const s = useScreens();
  const weighings = animal.weights.map(({ entry, on, kg, how }) => ({ entry, kg, how, days: daysFrom(born, on) }));
  const last = weighings.at(-1);
  if (last === undefined || weighings.length < 2) return null;
  const said = s.plots.growthSays(weighings.length, weights.said(last.kg), last.days);
  return (
    <section className="part">
      <h2>{s.plots.growth}</h2>
      <p>{said}</p>
      <CurvePlot
        points={weighings.map(({ days, kg, how }) => ({
          at: days,
          value: weightIn(kg, weights.unit),
          mark: how === "weighed" ? "filled" : "open",
        }))}
        label={said}
        across={s.plots.age}
        up={s.plots.weight[weights.unit]}
      />
      {weighings.some(({ how }) => how === "guessed") && <p className="quiet">{s.plots.growthKey}</p>}
      <details className="why">
        <summary>{s.plots.figures}</summary>
        <table className="table">
          <thead>
            <tr>
              <th scope="col">{s.plots.age}</th>
              <th scope="col" className="num">
                {s.plots.weight[weights.unit]}
              </th>
              <th scope="col">{s.plots.how}</th>
            </tr>
          </thead>
          <tbody>
            {weighings.map(({ entry, days, kg, how }) => (
              <tr key={entry}>
                <th scope="row">{days}</th>
                <td className="num">{weights.figure(kg)}</td>
                <td>{s.plots[how]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}
