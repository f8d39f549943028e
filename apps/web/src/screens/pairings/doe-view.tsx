import { Link } from "wouter";
import { usePairingPlan } from "../../house/use-pairing-plan.ts";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { StateMark } from "./grid.tsx";
import { countedPair, gridOf } from "./model.ts";

/** One doe and every buck she could go to: what the plan says, and why not another. */
export function DoeBucksScreen({ doe }: { readonly doe: string }) {
  const s = useScreens();
  const today = useToday();
  const { model } = usePairingPlan(today);
  const row = model?.does.findIndex((each) => each.id === doe) ?? -1;
  const her = model?.does[row];
  const cells = model === undefined ? [] : (gridOf(model)[row] ?? []);
  const planned = model?.plan.kind === "plan" ? model.plan.does.find((each) => each.doe.id === doe) : undefined;
  const aside = model?.leftOut.find(({ animal }) => animal.id === doe);
  const named = her ?? aside?.animal;
  const title = named === undefined ? s.pairings.title : words.label(named);
  return (
    <Frame heading={title} title={title} back="/pairings" place="plan">
      <h1 className="in-board">{title}</h1>
      {model === undefined && <Told>{s.pairings.working}</Told>}
      {model !== undefined && her === undefined && aside === undefined && <p>{s.frame.notFound}</p>}
      {aside !== undefined && (
        <>
          {said.leftOut([aside]).map((line) => (
            <p key={line}>{line}</p>
          ))}
          <Link href={`/animal/${doe}`} className="press">
            {s.problems.open}
          </Link>
        </>
      )}
      {planned !== undefined && (
        <p className="say">{s.pairings.planFor(title, planned.buck && words.label(planned.buck))}</p>
      )}
      {cells.length > 0 && (
        <ul className="rows">
          {cells.map((cell, b) => {
            const pair = model?.pairs[row]?.[b];
            return (
              <li key={cell.buck.id}>
                <Link href={`/pair/${doe}/${cell.buck.id}`} className="row">
                  <span className="margin">
                    <StateMark state={cell.state} />
                    <span>{s.pairings.key[cell.state]}</span>
                  </span>
                  <span className="body">
                    <Named of={cell.buck} />
                    {pair !== undefined && <span>{said.pair(countedPair(pair))}</span>}
                  </span>
                </Link>
              </li>
            );
          })}
        </ul>
      )}
      {planned !== undefined && planned.whyNot.length > 0 && (
        <section className="part">
          <h2>{s.pairings.why}</h2>
          <ul className="plain-lines">
            {planned.whyNot.map(({ buck, reason }) => (
              <li key={buck.id}>{s.pairings.whyNot(words.label(buck), said.reason(reason))}</li>
            ))}
          </ul>
          <p className="quiet">{said.unit}</p>
        </section>
      )}
    </Frame>
  );
}
