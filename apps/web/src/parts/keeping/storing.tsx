import type { Correction, EntryId, Fact } from "@pollard/records";
import { useRef, useState } from "react";
import { useGround } from "../../house/use-house.tsx";
import { goTo } from "../frame/address.ts";
import type { Lack, Lacking } from "./lacks.tsx";
import { SavedLine, type Saving } from "./saved-line.tsx";
import { Told } from "../frame/told.tsx";
import type { OpenDraft } from "./use-draft.ts";
import { leaveWord } from "./word-left.ts";

/** How far a screen is with storing what its answers make. */
export interface Storing {
  readonly saving: Saving;
  /** Whether somebody wanted it stored while an answer was still missing. */
  readonly isMissing: boolean;
  /** What of these is to be shown now: nothing before somebody wanted it stored. */
  readonly lacking: (lacks: readonly Lack[]) => Lacking;
  store(): void;
}

/**
 * Stores once what a screen's answers make, one fact or several in one go, and then leaves for another page, without a way back
 * to the questions.
 *
 * `fact` is `undefined` while answers are missing. However often it is pressed, the entry keeps one id: its draft's, where
 * the answers have been kept as a draft, which then ends in the same breath. Where `said` tells what was done, the page that
 * is left for can say it, with its undo.
 */
export function useStoring(
  fact: Fact | Correction | readonly Fact[] | undefined,
  leaveFor: string,
  draft?: OpenDraft<unknown>,
  said?: string,
): Storing {
  const { house } = useGround();
  const ids = useRef<EntryId[]>([]);
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const [tries, setTries] = useState(0);
  const idOf = (at: number): EntryId => (at === 0 ? draft?.entry : undefined) ?? (ids.current[at] ??= house.newId());
  const store = async (): Promise<void> => {
    if (fact === undefined) {
      setTries(tries + 1);
      return;
    }
    if (saving.state === "saving") return;
    setSaving({ state: "saving" });
    await draft?.settled();
    const made = [fact].flat().map((each, at) => ({ id: idOf(at), fact: each }));
    const kept = await house.record(made, draft === undefined ? {} : { draft: draft.key });
    if (kept.ok) {
      if (said !== undefined) leaveWord({ deed: { said, entries: made.map(({ id }) => id) }, time: kept.value.time });
      goTo(leaveFor, { replace: true });
    } else setSaving({ state: "failed", why: kept.error.code, retry: () => void store() });
  };
  return {
    saving: saving.state === "nothing" && draft !== undefined ? draft.saving : saving,
    isMissing: tries > 0 && fact === undefined,
    lacking: (lacks) => ({ tries, lacks: tries > 0 && fact === undefined ? lacks : [] }),
    store: () => void store(),
  };
}

/** The foot of a screen that stores: what is missing, or how far it has got, above the one button. */
export function StoreDock(props: {
  readonly storing: Storing;
  readonly label: string;
  /** What to answer first; said once somebody wanted to store without it, where no field says so itself. */
  readonly needs?: string | undefined;
  /** Whether answers are kept as they are given, so that the line is there from the start. */
  readonly line?: "always";
}) {
  const { storing } = props;
  return (
    <>
      {storing.isMissing && props.needs !== undefined ? (
        <Told className="saved alarm">{props.needs}</Told>
      ) : (
        (props.line === "always" || storing.saving.state !== "nothing") && <SavedLine saving={storing.saving} />
      )}
      <button type="button" className="press main" onClick={() => storing.store()}>
        {props.label}
      </button>
    </>
  );
}
