import type { FactKind, HistoryLine } from "@pollard/records";
import { useId, useState } from "react";
import { useAsked, useScreens, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { HistoryList } from "../../parts/lists/history-list.tsx";
import { Told } from "../../parts/frame/told.tsx";

/** How many lines are shown at first, and how many more each time. */
const PAGE = 60;

/** Everything entered in this herd, newest first, narrowed by kind, person and goat; each line with its undo. */
export function EntriesScreen() {
  const s = useScreens();
  const id = useId();
  const [kind, setKind] = useState("");
  const [person, setPerson] = useState("");
  const [goat, setGoat] = useState("");
  const [most, setMost] = useState(PAGE);
  const entered = useAsked(
    (answers) =>
      answers.entered({
        kind: kind === "" ? undefined : (kind as FactKind),
        person: person === "" ? undefined : person,
        goat,
        most,
      }),
    [kind, person, goat, most],
  ).value;
  const goats = new Map(entered?.lines.map((each) => [each.line.entry, each.goats]));
  const about = (line: HistoryLine): string => {
    const named = (goats.get(line.entry) ?? []).map((ref) => words.label(ref));
    return named.length === 0 ? "" : named.slice(0, NAMED).join(", ") + (named.length > NAMED ? " …" : "");
  };
  return (
    <Frame heading={s.entries.title} title={s.entries.title} back="/animals" place="animals">
      <h1 className="in-board">{s.entries.title}</h1>
      <p>{s.entries.hint}</p>
      <div className="table-tools three">
        <div className="field">
          <label htmlFor={`${id}-kind`}>{s.entries.kind}</label>
          <select id={`${id}-kind`} value={kind} onChange={(event) => setKind(event.target.value)}>
            <option value="">{s.entries.anyKind}</option>
            {(entered?.kinds ?? []).map((each) => (
              <option key={each} value={each}>
                {s.animal.kinds[each]}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-person`}>{s.entries.person}</label>
          <select id={`${id}-person`} value={person} onChange={(event) => setPerson(event.target.value)}>
            <option value="">{s.entries.anyPerson}</option>
            {(entered?.people ?? []).map((each) => (
              <option key={each}>{each}</option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-goat`}>{s.entries.goat}</label>
          <input id={`${id}-goat`} value={goat} autoComplete="off" onChange={(event) => setGoat(event.target.value)} />
        </div>
      </div>
      {entered === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          <output>{entered.fitting === 0 ? s.entries.none : s.entries.count(entered.fitting, entered.all)}</output>
          {entered.undoings > 0 && <p className="quiet">{s.entries.undoings(entered.undoings)}</p>}
          <HistoryList
            lines={entered.lines.map(({ line }) => line)}
            about={about}
            until={({ entry }) => entered.lines.find(({ line }) => line.entry === entry)?.until}
          />
          {entered.fitting > entered.lines.length && (
            <button type="button" className="press" onClick={() => setMost(most + PAGE)}>
              {s.entries.more}
            </button>
          )}
        </>
      )}
    </Frame>
  );
}

/** How many goats a line names before it is cut short. */
const NAMED = 4;
