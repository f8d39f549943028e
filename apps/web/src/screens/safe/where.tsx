import type { EntryId } from "@pollard/records";
import { useState } from "react";
import { useExchangeNow } from "../../house/use-exchange-now.ts";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Told } from "../../parts/frame/told.tsx";
import type { Safety } from "../../worker/safety.ts";
import type { Held, Places } from "../../worker/places.ts";
import { clockSaid, isAtRisk, refusedPhotosSaid, whenSaid } from "./model.ts";
import { RefusedEntries } from "./refused.tsx";

/** In which places the herd is, what is nowhere but here, and what the hub would not take. */
export function Where({ safety }: { readonly safety: Safety }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const asked = useAsked((answers) => answers.places(), []).value;
  const places = asked?.ok ? asked.value : undefined;
  const { state: exchange, now } = useExchangeNow();
  const [lines, setLines] = useState<readonly string[]>();
  const ended = exchange === "idle" ? house.lastExchange : exchange;
  const hub = safety.hubAnswered;
  const isDemo = house.herd.sort === "demo";
  const name = async (entries: readonly EntryId[]): Promise<void> => {
    const found = await house.answers.lines(entries);
    setLines(found.map((line) => s.problems.entry(s.animal.kinds[line.kind], words.day(line.on, today), line.by)));
  };
  return (
    <section className="part">
      <h2>{s.safe.where}</h2>
      <p className="say">{s.safe.onThisPhone(safety.entries)}</p>
      {places !== undefined && <PlacesShown places={places} isDemo={isDemo} answered={hub !== undefined} />}
      {isDemo && <p>{s.safe.demoStays}</p>}
      {!isDemo && (
        <Told>
          {hub === undefined ? (
            s.safe.hubNever
          ) : (
            <StatusChip
              status={safety.onlyHere.length === 0 ? "done" : "soon"}
              word={s.safe.onlyHere(safety.onlyHere.length)}
            />
          )}
        </Told>
      )}
      {!isDemo && hub !== undefined && <p>{s.safe.hubLast(whenSaid(hub, today))}</p>}
      {places !== undefined && <RefusedPhotos refused={places.refusedPhotos} />}
      {safety.hubRefused.length > 0 && <RefusedEntries refused={safety.hubRefused} />}
      {!isDemo && safety.ownClock !== undefined && <Told>{clockSaid(s, safety.ownClock)}</Told>}
      {!isDemo && safety.drift !== undefined && <Told>{s.safe.drift(safety.drift)}</Told>}
      {exchange === "away" && <Told>{s.safe.hubAway}</Told>}
      {exchange === "later" && <Told>{s.safe.hubLater}</Told>}
      {ended === "turned-away" && <Told>{s.phones.turnedAway}</Told>}
      {ended === "not-let-in" && <Told>{s.phones.notLetIn}</Told>}
      {hub !== undefined && safety.onlyHere.length > 0 && (
        <button type="button" className="press plain start" onClick={() => void name(safety.onlyHere)}>
          {s.safe.list}
        </button>
      )}
      {lines !== undefined && (
        <ul className="named-lines">
          {lines.map((line, at) => (
            // The same thing may be entered twice on one day: the place in the list is its name.
            <li key={at}>{line}</li>
          ))}
        </ul>
      )}
      {!isDemo && (
        <button type="button" className="press" aria-disabled={exchange === "working"} onClick={() => void now()}>
          {exchange === "working" ? s.safe.hubWorking : s.safe.hubNow}
        </button>
      )}
    </section>
  );
}

/** The three places, each with how much it holds; then what a lost phone would take along, by the goats it is about. */
function PlacesShown(props: {
  readonly places: Places;
  readonly isDemo: boolean;
  /** Has a hub ever answered? */
  readonly answered: boolean;
}) {
  const { places, isDemo, answered } = props;
  const s = useScreens();
  const today = useToday();
  const { here, onHub, inBackup, alone, aloneDays } = places;
  const held = ({ entries, photos }: Held): string => s.safe.held(entries, photos);
  const isAlone = alone.entries + alone.photos > 0;
  const atRisk = isAtRisk(places);
  return (
    <>
      <ul className="named-lines">
        <li>
          <b>{s.safe.places.phone}</b>
          <br />
          {held(here)}
        </li>
        {!isDemo && (
          <li>
            <b>{s.safe.places.hub}</b>
            <br />
            {answered ? held(onHub) : s.safe.noHub}
          </li>
        )}
        <li>
          {inBackup === undefined ? (
            <b>{s.safe.noBackup}</b>
          ) : (
            <>
              <b>{s.safe.places.backup(whenSaid(`${inBackup.on}T${inBackup.time}`, today))}</b>
              <br />
              {held(inBackup)}
            </>
          )}
        </li>
      </ul>
      {!isDemo && (
        <>
          <p>
            {atRisk ? (
              <StatusChip status="now" word={s.safe.atRisk(aloneDays)} />
            ) : (
              <StatusChip
                status={isAlone ? "soon" : "done"}
                word={isAlone ? s.safe.alone(held(alone)) : s.safe.aloneNone}
              />
            )}
          </p>
          {atRisk && <p>{s.safe.atRiskWhy}</p>}
          {isAlone && (
            <details className="why">
              <summary>{s.safe.aloneWhich}</summary>
              <ul className="named-lines">
                {places.aloneOf.map(({ goat, entries, photos }) => (
                  <li key={goat?.id ?? ""}>
                    {s.safe.aloneOf(
                      goat === undefined ? s.safe.aloneOther : words.label(goat),
                      s.safe.held(entries, photos),
                    )}
                  </li>
                ))}
              </ul>
            </details>
          )}
        </>
      )}
    </>
  );
}

/** Pictures that the hub would not take, each once under the reason, with its goat. */
function RefusedPhotos({ refused }: { readonly refused: Places["refusedPhotos"] }) {
  const s = useScreens();
  return refusedPhotosSaid(s, refused).map(({ said, each }) => (
    <div key={said} className="stack tight">
      <Told>{said}</Told>
      <ul className="named-lines">
        {each.map(({ which, why }, at) => (
          // One goat may have several: the place in the list is its name.
          <li key={at}>
            <b>{which}</b>
            {why !== undefined && (
              <>
                <br />
                {why}
              </>
            )}
          </li>
        ))}
      </ul>
    </div>
  ));
}
