import type { AnimalLine } from "@pollard/advice";
import { useId, useState } from "react";
import { useScreens, words } from "../house/use-house.tsx";
import { findGoats } from "./find-goats.ts";
import { GoatLine, Lines, Named } from "./lines.tsx";
import { Told } from "./told.tsx";

/** The pad for tags: digits only, large, under the thumb; names second. Gives the goats that fit. */
export function GoatFinder(props: {
  readonly goats: readonly AnimalLine[];
  readonly hrefOf: (goat: AnimalLine) => string;
  readonly recent: readonly AnimalLine[];
}) {
  const s = useScreens();
  const [way, setWay] = useState<"tag" | "name">("tag");
  const [typed, setTyped] = useState("");
  const id = useId();
  const found = findGoats(props.goats, way, typed);
  return (
    <div className="stack">
      <fieldset className="two" aria-label={s.find.find}>
        {(["tag", "name"] as const).map((each) => (
          <button
            key={each}
            type="button"
            className={way === each ? "press main" : "press"}
            aria-pressed={way === each}
            onClick={() => {
              setWay(each);
              setTyped("");
            }}
          >
            {each === "tag" ? s.find.byTag : s.find.byName}
          </button>
        ))}
      </fieldset>
      {typed !== "" && (
        <div>
          <Told className="quiet">
            {found.length === 0 ? (way === "tag" ? s.find.none : s.find.noneByName) : s.find.many(found.length)}
          </Told>
          <Lines>
            {found.slice(0, SHOWN).map((goat) => (
              <GoatLine key={goat.ref.id} of={goat.ref} href={props.hrefOf(goat)} />
            ))}
          </Lines>
        </div>
      )}
      {typed === "" && props.recent.length > 0 && (
        <div>
          <p className="quiet">{s.find.recent}</p>
          <Lines>
            {props.recent.map((goat) => (
              <GoatLine key={goat.ref.id} of={goat.ref} href={props.hrefOf(goat)} />
            ))}
          </Lines>
        </div>
      )}
      {way === "tag" ? (
        <>
          <output className="typed" aria-label={s.find.typed}>
            {typed || " "}
          </output>
          <div className="pad">
            {["1", "2", "3", "4", "5", "6", "7", "8", "9"].map((digit) => (
              <button key={digit} type="button" onClick={() => setTyped(typed + digit)}>
                {digit}
              </button>
            ))}
            <button type="button" className="word" onClick={() => setTyped("")}>
              {s.find.clear}
            </button>
            <button type="button" onClick={() => setTyped(`${typed}0`)}>
              0
            </button>
            <button type="button" className="word" onClick={() => setTyped(typed.slice(0, -1))}>
              {s.find.rub}
            </button>
          </div>
        </>
      ) : (
        <div className="field">
          <label htmlFor={id}>{s.find.byName}</label>
          <input id={id} value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
        </div>
      )}
    </div>
  );
}

/** Goats to choose from as radio lines; a list that is long is narrowed by typing. */
export function GoatChoice(props: {
  readonly legend: string;
  readonly goats: readonly AnimalLine[];
  readonly values: readonly string[];
  readonly many?: "many";
  readonly onValues: (ids: readonly string[]) => void;
  readonly none?: string;
}) {
  const s = useScreens();
  const id = useId();
  const [typed, setTyped] = useState("");
  const chosen = props.goats.filter((goat) => props.values.includes(goat.ref.id));
  const fitting = typed === "" ? props.goats : findGoats(props.goats, "any", typed);
  const shown = [...chosen, ...fitting.filter((goat) => !chosen.includes(goat))].slice(
    0,
    Math.max(SHOWN, chosen.length),
  );
  const pick = (goat: string): void => {
    if (!props.many) props.onValues([goat]);
    else
      props.onValues(
        props.values.includes(goat) ? props.values.filter((other) => other !== goat) : [...props.values, goat],
      );
  };
  return (
    <fieldset className="asks">
      <legend>{props.legend}</legend>
      {props.goats.length > SHOWN && (
        <div className="field">
          <label htmlFor={id}>{s.find.find}</label>
          <input id={id} value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
        </div>
      )}
      {props.goats.length === 0 && <p>{props.none}</p>}
      <div className="answers column">
        {shown.map((goat) => (
          <label key={goat.ref.id} className="answer">
            <input
              type={props.many ? "checkbox" : "radio"}
              name={`goat-${id}`}
              checked={props.values.includes(goat.ref.id)}
              onChange={() => pick(goat.ref.id)}
              aria-label={words.label(goat.ref)}
            />
            <Named of={goat.ref} />
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** How many goats are listed before typing narrows them: a phone's screen and a half. */
const SHOWN = 8;
