import type { Correction, EntryId, Fact } from "@pollard/records";
import { useRef, useState } from "react";
import { useGround, useToday } from "../../house/use-house.tsx";
import type { Saving } from "./saved-line.tsx";
import type { Deed, StoredDeed } from "./word-left.ts";

/** One tap, one deed: kept at once, with an undo beside it and no question before it. */
export interface Deeds {
  readonly saving: Saving;
  /** The last deed, until the next one or its undo. */
  readonly last: Deed | undefined;
  act(said: string, facts: readonly (Fact | Correction)[]): Promise<void>;
  /** Strikes entries; bringing them back is the undo. */
  strike(said: string, entries: readonly EntryId[]): Promise<void>;
  undo(): Promise<void>;
}

/** The deeds of a page; `wordLeft` is what the page before it stored, which can be taken back here. */
export function useDeeds(wordLeft?: StoredDeed): Deeds {
  const { house } = useGround();
  const today = useToday();
  const [saving, setSaving] = useState<Saving>(
    wordLeft === undefined ? { state: "nothing" } : { state: "kept", time: wordLeft.time },
  );
  const [last, setLast] = useState(wordLeft?.deed);

  const doing = useRef<string>(undefined);
  const before = useRef<Promise<void>>(Promise.resolve());

  /** One deed after another, in the order of the taps; the same one tapped twice in a hurry is one. */
  const keep = (deed: Deed, facts: Parameters<typeof house.record>[0], then: Deed | undefined): Promise<void> => {
    if (doing.current === deed.said) return before.current;
    doing.current = deed.said;
    setSaving({ state: "saving" });
    before.current = before.current.then(async () => {
      const kept = await house.record(facts, { said: deed.said });
      if (doing.current === deed.said) doing.current = undefined;
      if (!kept.ok) {
        setSaving({ state: "failed", why: kept.error.code, retry: () => void keep(deed, facts, then) });
        return;
      }
      setLast(then);
      setSaving({ state: "kept", time: kept.value.time });
    });
    return before.current;
  };
  const strikes = (entries: readonly EntryId[]) =>
    entries.map((entry) => ({
      id: house.newId(),
      fact: { kind: "strike" as const, on: today, body: { entry } },
    }));

  return {
    saving,
    last,
    async act(said, facts) {
      const made = facts.map((fact) => ({ id: house.newId(), fact }));
      const deed = { said, entries: made.map(({ id }) => id) };
      await keep(deed, made, deed);
    },
    async strike(said, entries) {
      const made = strikes(entries);
      const deed = { said, entries: made.map(({ id }) => id) };
      await keep(deed, made, deed);
    },
    async undo() {
      if (last !== undefined) await keep(last, strikes(last.entries), undefined);
    },
  };
}
