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
      {of.apart.map(({ sign, readings }) => (
        <dl key={sign} className="facts">
          {readings.map(({ by, ageDays, finding }) => (
            <div key={by} className="facts-row">
              <dt>{s.compare.seen(by, s.animal.ageDays(ageDays))}</dt>
              <dd>{words.finding(sign, finding)}</dd>
            </div>
          ))}
        </dl>
      ))}
      {of.advice.kind !== "done" && <p>{s.compare.apartDo}</p>}
    </section>
  );
}
