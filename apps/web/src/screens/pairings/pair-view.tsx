import { useState } from "react";
import { ANIMAL_SETTINGS, countedOf, type PairModel } from "@pollard/advice";
import { CountedSquares } from "../../parts/pictures/chance.tsx";
import { usePairingPlan } from "../../house/use-pairing-plan.ts";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import { countedPair, doubtsShown, neverText, OF, type Wished } from "./model.ts";

/** One doe and one buck: what their kids would be, what is luck and what is doubt, kin, and the keeper's wish. */
export function PairScreen({ doe, buck }: { readonly doe: string; readonly buck: string }) {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const { model } = usePairingPlan(today);
  const wishes = useAsked((answers) => answers.wishesFor(doe), [doe]).value;
  const found = model?.pairs.flat().find((each) => each.doe.id === doe && each.buck.id === buck);
  const pair = found && countedPair(found);
  const title = pair === undefined ? s.pairings.title : `${words.label(pair.doe)} × ${words.label(pair.buck)}`;
  const [tapped, setTapped] = useState<Wished>();
  const kept: Wished = wishes?.must === buck ? "must" : wishes?.never.includes(buck) ? "never" : "free";
  const wish = async (next: Wished): Promise<void> => {
    if (pair === undefined || wishes === undefined) return;
    setTapped(next);
    const [her, him] = [words.label(pair.doe), words.label(pair.buck)];
    const told = {
      must: s.pairings.mustNow(her, him),
      never: s.pairings.neverNow(her, him),
      free: s.pairings.freeNow(her),
    };
    const must = next === "must" ? buck : wishes.must === buck ? "" : (wishes.must ?? "");
    const set = (key: string, value: string) => ({
      kind: "setting" as const,
      on: today,
      body: { key: `${key}:${doe}`, value },
    });
    await deeds.act(told[next], [
      set(ANIMAL_SETTINGS.must, must),
      set(ANIMAL_SETTINGS.never, neverText(wishes.never, buck, next)),
    ]);
  };
  return (
    <Frame
      heading={title}
      title={title}
      back={`/pairings/${doe}`}
      place="plan"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{title}</h1>
      {model === undefined && <Told>{s.pairings.working}</Told>}
      {model !== undefined && pair === undefined && <p>{s.frame.notFound}</p>}
      {pair !== undefined && (
        <div className="wide-two">
          <Kids pair={pair} />
          <div className="stack">
            <Doubt pair={pair} />
            <section className="part">
              <h2>{s.pairings.kin}</h2>
              <p>{said.kin(pair)}</p>
            </section>
            {pair.loci.length > 0 && (
              <section className="part">
                <h2>{s.pairings.otherLoci}</h2>
                <ul className="plain-lines">
                  {pair.loci.map((locus) => (
                    <li key={locus.locus}>{said.locus(locus)}</li>
                  ))}
                </ul>
              </section>
            )}
            <Answers<Wished>
              name="wish"
              legend={s.pairings.wish}
              shape="column"
              value={tapped ?? kept}
              choices={[
                { value: "must", label: s.pairings.must },
                { value: "never", label: s.pairings.never },
                { value: "free", label: s.pairings.free },
              ]}
              onAnswer={(next) => void wish(next)}
            />
          </div>
        </div>
      )}
    </Frame>
  );
}

function Kids({ pair }: { readonly pair: PairModel }) {
  const s = useScreens();
  return (
    <section className="part">
      <h2>{s.pairings.kids}</h2>
      <p className="say">{said.pair(pair)}</p>
      {pair.fertile > 0 && <CountedSquares counted={pair.hornedCounted} label={said.pair(pair)} />}
      <p className="quiet">{s.pairings.squares}</p>
      {pair.closedBy.map((rule) => (
        <p key={said.rule(rule)} className="card">
          {said.rule(rule)}.
        </p>
      ))}
      <p className="quiet">{said.caution}</p>
    </section>
  );
}

/** Luck and doubt by themselves: which gene is drawn, and what the two may be. */
function Doubt({ pair }: { readonly pair: PairModel }) {
  const s = useScreens();
  return (
    <section className="card hatched">
      <h2>{s.pairings.doubtTitle}</h2>
      <p>{said.luckAndDoubt(pair)}</p>
      {doubtsShown(pair).length > 1 && (
        <ul className="plain-lines">
          {doubtsShown(pair).map(({ buck, doe, chance }) => (
            <li key={`${buck} ${doe}`}>
              {s.pairings.maybe(
                words.label(pair.buck),
                buck,
                words.label(pair.doe),
                doe,
                words.counted(countedOf(chance, OF)),
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
