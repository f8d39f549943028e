import type { AnimalLine } from "@pollard/advice";
import { useId, useState } from "react";
import { useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { findGoats } from "../../parts/answers/find-goats.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { Told } from "../../parts/frame/told.tsx";

/** How many goats used last are offered. Our judgement. */
const RECENT = 6;

/** Finding one goat: digits of its tag on a pad under the thumb, or its name. `job` is what it is wanted for. */
export function FindScreen({ job }: { readonly job: "open" | "kidding" }) {
  const s = useScreens();
  const today = useToday();
  const all = useAsked((answers) => answers.goats(today), [today]).value ?? [];
  const recent = useAsked((answers) => answers.recent(RECENT), []).value ?? [];
  const [way, setWay] = useState<"tag" | "name">("tag");
  const [typed, setTyped] = useState("");
  const id = useId();
  const goats = job === "kidding" ? all.filter((goat) => goat.ref.sex === "doe" && !goat.gone) : all;
  const lastUsed = recent.flatMap((wanted) => goats.filter((goat) => goat.ref.id === wanted));
  const found = typed === "" ? lastUsed : findGoats(goats, way, typed);
  const hrefOf = (goat: AnimalLine): string =>
    job === "kidding" ? `/kidding/${goat.ref.id}` : `/animal/${goat.ref.id}`;
  const title = job === "kidding" ? s.kidding.whoKidded : s.find.find;
  const told =
    typed === ""
      ? lastUsed.length > 0
        ? s.find.recent
        : goats.length === 0
          ? s.animals.empty
          : ""
      : found.length > 0
        ? s.find.many(found.length)
        : way === "tag"
          ? s.find.none
          : s.find.noneByName;
  return (
    <Frame
      heading={title}
      title={title}
      back={job === "kidding" ? "/kidding" : "/animals"}
      capture="capture"
      dock={
        <>
          <div className="find-head">
            {way === "tag" ? (
              <output className="typed" aria-label={s.find.typed}>
                {typed || "\u2013"}
              </output>
            ) : (
              <div className="field">
                <label htmlFor={id} className="unseen">
                  {s.find.byName}
                </label>
                <input id={id} value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
              </div>
            )}
            <button
              type="button"
              className="press"
              onClick={() => {
                setWay(way === "tag" ? "name" : "tag");
                setTyped("");
              }}
            >
              {way === "tag" ? s.find.byNameInstead : s.find.byTagInstead}
            </button>
          </div>
          {way === "tag" && <Pad typed={typed} onTyped={setTyped} />}
        </>
      }
    >
      <h1 className="unseen">{title}</h1>
      <Told className="quiet">{told}</Told>
      {found.length > 0 && (
        <Lines>
          {found.slice(0, SHOWN).map((goat) => (
            <GoatLine key={goat.ref.id} of={goat.ref} href={hrefOf(goat)} />
          ))}
        </Lines>
      )}
    </Frame>
  );
}

/** How many goats are listed; a few more digits narrow the rest. */
const SHOWN = 20;

/** The keys in the order of a pad: each row of three digits with one word beside it. */
const KEYS = ["1", "2", "3", "rub", "4", "5", "6", "clear", "7", "8", "9", "0"] as const;

function Pad({ typed, onTyped }: { readonly typed: string; readonly onTyped: (typed: string) => void }) {
  const s = useScreens();
  const press = (key: (typeof KEYS)[number]): void => {
    if (key === "clear") onTyped("");
    else onTyped(key === "rub" ? typed.slice(0, -1) : typed + key);
  };
  return (
    <div className="pad">
      {KEYS.map((key) => (
        <button key={key} type="button" className={key.length > 1 ? "word" : undefined} onClick={() => press(key)}>
          {key === "rub" || key === "clear" ? s.find[key] : key}
        </button>
      ))}
    </div>
  );
}
