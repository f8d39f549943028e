import type { KidModel } from "@pollard/advice";
import { useScreens, words } from "../../house/use-house.tsx";

/** Two readers of one head who found different things, said kindly: both count, and what to do about it. */
export function Apart({ of }: { readonly of: KidModel }) {
  const s = useScreens();
  if (of.belief === undefined || of.apart.length === 0) return null;
  return (
    <section className="card hatched">
      <h2>{s.compare.apartTitle}</h2>
      <p>{s.compare.apart}</p>
      <table className="pair">
        {of.apart.map(({ sign, readings }) => (
          <tbody key={sign}>
            <tr className="sign-name">
              <th colSpan={readings.length} scope="rowgroup">
                {s.sign[sign].name}
              </th>
            </tr>
            <tr>
              {readings.map(({ by, ageDays, finding }) => (
                <td key={by}>
                  <b>{words.finding(sign, finding)}</b>
                  <br />
                  <span className="quiet">{s.compare.seen(s.animal.ageDays(ageDays), by)}</span>
                </td>
              ))}
            </tr>
          </tbody>
        ))}
      </table>
      {of.advice.kind !== "done" && <p>{s.compare.apartDo}</p>}
    </section>
  );
}
