import type { AnimalLine } from "@pollard/advice";
import { useId, useState } from "react";
import { TickIcon } from "../../drawings/icons.tsx";
import { useScreens, words } from "../../house/use-house.tsx";
import { AsksFor } from "./answers.tsx";
import { findGoats } from "./find-goats.ts";
import { Named } from "../lists/lines.tsx";

/** Goats to choose from as radio lines; a list that is long is narrowed by typing. */
export function GoatChoice(props: {
  readonly legend: string;
  readonly name?: string;
  readonly goats: readonly AnimalLine[];
  readonly values: readonly string[];
  readonly many?: "many";
  readonly onValues: (ids: readonly string[]) => void;
  readonly none?: string;
  /** The answer that it is none of these, where that is one. */
  readonly unknown?: string;
}) {
  const s = useScreens();
  const id = useId();
  const [typed, setTyped] = useState("");
  const chosen = props.goats.filter((goat) => props.values.includes(goat.ref.id));
  const fitting = typed === "" ? props.goats : findGoats(props.goats, "any", typed);
  const [isWhole, setWhole] = useState(false);
  const all = [...chosen, ...fitting.filter((goat) => !chosen.includes(goat))];
  const listed = isWhole ? [...fitting, ...chosen.filter((goat) => !fitting.includes(goat))] : all;
  const shown = isWhole ? listed : listed.slice(0, Math.max(SHOWN, chosen.length));
  const pick = (goat: string): void => {
    if (!props.many) props.onValues([goat]);
    else
      props.onValues(
        props.values.includes(goat) ? props.values.filter((other) => other !== goat) : [...props.values, goat],
      );
  };
  return (
    <AsksFor field={props.name}>
      <legend>{props.legend}</legend>
      {props.goats.length > SHOWN && (
        <div className="field">
          <label htmlFor={id}>{s.find.find}</label>
          <input id={id} value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
        </div>
      )}
      {props.goats.length === 0 && <p>{props.none}</p>}
      <div className="answers column">
        {props.unknown !== undefined && (
          <label className="answer faint">
            <input
              type="radio"
              name={`goat-${id}`}
              checked={props.values.length === 0}
              onChange={() => props.onValues([])}
              aria-label={props.unknown}
            />
            <span>{props.unknown}</span>
            <Chosen />
          </label>
        )}
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
            <Chosen />
          </label>
        ))}
      </div>
      {shown.length < listed.length && (
        <button type="button" className="press" onClick={() => setWhole(true)}>
          {s.find.showAll(listed.length)}
        </button>
      )}
    </AsksFor>
  );
}

/** The tick of what is chosen: a filled line alone would be a shade in the sun. */
const Chosen = () => (
  <span className="tick" aria-hidden="true">
    <TickIcon />
  </span>
);

/** How many goats are listed before typing narrows them, so that the next question stays in sight. */
const SHOWN = 5;
