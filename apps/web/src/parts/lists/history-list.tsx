import type { Day } from "@pollard/base";
import type { HistoryLine } from "@pollard/records";
import { useState } from "react";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { MoreIcon } from "../../drawings/icons.tsx";
import { kindSaid, undoOf, whenSaid } from "../../screens/animal/model.ts";
import { SavedLine, type Saving } from "../keeping/saved-line.tsx";

/**
 * What was entered, newest first; "entered by mistake" strikes a line, and it can be brought back.
 *
 * The newest line of all has that key at once. On others it stands behind three knobs, so that a list reads as a list.
 *
 * `about` says beside each line whom it speaks of, where the page does not.
 */
export function HistoryList(props: {
  readonly lines: readonly HistoryLine[];
  readonly about?: (line: HistoryLine) => string;
  /** What a line says, in a phrase; nothing where that is not to be seen. */
  readonly content?: (line: HistoryLine) => string;
  /** The last day of what went on for several. */
  readonly until?: (line: HistoryLine) => Day | undefined;
  /** `later` where the newest lines stand in a list before this one. */
  readonly start?: "newest" | "later";
}) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const [opened, setOpened] = useState<string>();
  const turn = async (line: HistoryLine): Promise<void> => {
    const entry = undoOf(line) === "bring-back" ? line.undoneBy : line.entry;
    if (entry === undefined) return;
    setSaving({ state: "saving" });
    const kept = await house.record([{ id: house.newId(), fact: { kind: "strike", on: today, body: { entry } } }]);
    setSaving(
      kept.ok
        ? { state: "kept", time: kept.value.time }
        : { state: "failed", why: kept.error.code, retry: () => void turn(line) },
    );
  };
  const when = (line: HistoryLine): string => whenSaid(s, words, line, { until: props.until?.(line), today });
  const lineNamed = (line: HistoryLine): string =>
    [kindSaid(s, line.kind), props.about?.(line) ?? ""].filter((part) => part !== "").join(" ") +
    `, ${when({ ...line, time: undefined })}`;
  return (
    <>
      {saving.state !== "nothing" && <SavedLine saving={saving} />}
      <ul className="rows">
        {props.lines.map((line, at) => (
          <li key={line.entry} className={line.state === "stands" ? "history-line" : "history-line struck"}>
            <span>
              <b>{kindSaid(s, line.kind)}</b>
              {said(" ", props.about?.(line))}
              {said(": ", props.content?.(line))}
              <br />
              <span className="quiet">
                {when(line)} {s.animal.by(line.by)}
              </span>
              {line.state !== "stands" && (
                <>
                  <br />
                  <b>{line.state === "struck" ? s.animal.struck : s.animal.replaced}</b>
                </>
              )}
            </span>
            {undoOf(line) === "strike" && (at > 0 || props.start === "later") && (
              <button
                type="button"
                className="press plain dots"
                aria-expanded={opened === line.entry}
                aria-label={`${s.animal.lineMore}: ${lineNamed(line)}`}
                onClick={() => setOpened(opened === line.entry ? undefined : line.entry)}
              >
                <MoreIcon />
              </button>
            )}
            {(undoOf(line) === "bring-back" ||
              (undoOf(line) === "strike" && (opened === line.entry || (at === 0 && props.start !== "later")))) && (
              <button
                type="button"
                className="press plain"
                aria-label={`${undoOf(line) === "strike" ? s.animal.undo : s.animal.bringBack}: ${lineNamed(line)}`}
                onClick={() => void turn(line)}
              >
                {undoOf(line) === "strike" ? s.animal.undo : s.animal.bringBack}
              </button>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

/** What there is to say of a line, set off from what stands before it; nothing where there is nothing. */
const said = (setOff: string, text = ""): string => (text === "" ? "" : `${setOff}${text}`);
