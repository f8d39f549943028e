import type { ReactNode } from "react";
import type { KeptKid } from "@pollard/advice";
import { useAsked, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { KeptTable } from "./table.tsx";

/** The young goats side by side on what is known, and what each is open to; at the desk as a table. No score: what counts is the keeper's to say. */
export function KeptScreen() {
  const s = useScreens();
  const today = useToday();
  const wide = useWide();
  const kids = useAsked((answers) => answers.kept(today), [today]).value;
  return (
    <Frame heading={s.kept.title} title={s.kept.title} back="/pairings" place="plan">
      <h1 className="sentence over-table">{s.kept.lead}</h1>
      <p>{s.kept.noScore}</p>
      {kids === undefined && <Told>{s.frame.working}</Told>}
      {kids?.length === 0 && <p>{s.kept.none}</p>}
      {wide === "desk" && kids !== undefined && kids.length > 0 && <KeptTable kids={kids} />}
      {wide === "phone" && (
        <div className="side-by-side">
          {kids?.map((kid) => (
            <Kid key={kid.kid.id} kid={kid} />
          ))}
        </div>
      )}
    </Frame>
  );
}

function Kid({ kid }: { readonly kid: KeptKid }) {
  const s = useScreens();
  const closed = said.closedUses(kid);
  return (
    <article className="card">
      <h2>
        <a href={`#/animal/${kid.kid.id}`}>
          <Named of={kid.kid} />
        </a>
      </h2>
      <p className="lead">
        {s.kept.openTo}: {said.uses(kid)}
      </p>
      {closed !== "" && (
        <p>
          {s.kept.notOpen}: {closed}
        </p>
      )}
      <p>{kid.genotype === undefined ? `${s.kept.headUnread}.` : words.genotype(kid.genotype)}</p>
      <details className="why">
        <summary>{s.kept.known(words.label(kid.kid))}</summary>
        <KnownOf kid={kid} />
      </details>
    </article>
  );
}

/** What else is known of a kid, one tap away. */
function KnownOf({ kid }: { readonly kid: KeptKid }) {
  const s = useScreens();
  const today = useToday();
  return (
    <dl className="facts">
      <Line term={s.kept.inbreeding}>{words.number(kid.inbreeding, 2)}</Line>
      <Line term={s.kept.litter}>{kid.litter}</Line>
      {kid.dam !== undefined && <Line term={s.kept.damKids(words.label(kid.dam))}>{kid.damKids}</Line>}
      {kid.weight !== undefined && (
        <Line term={s.kept.weight}>
          {weights.said(kid.weight.kg)}, {words.day(kid.weight.on, today)}
        </Line>
      )}
      {kid.growth !== undefined && (
        <Line term={s.kept.gain}>{s.kept.gainSaid(weights.gainBetween(kid.growth.gainKgADay), kid.growth.state)}</Line>
      )}
    </dl>
  );
}

function Line({ term, children }: { readonly term: string; readonly children: ReactNode }) {
  return (
    <>
      <dt>{term}</dt>
      <dd>{children}</dd>
    </>
  );
}
