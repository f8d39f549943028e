import type { EntryId, StoreFailure } from "@pollard/records";
import { useCallback, useEffect, useRef, useState } from "react";
import { localMinute, timeOfDay } from "../../adapters/clock.ts";
import { type Draft, type DraftKind, draftKey } from "../../adapters/database/idb-drafts.ts";
import { useGround } from "../../house/use-house.tsx";
import type { Saving } from "./saved-line.tsx";

/** An answer in the making. */
export interface OpenDraft<T> {
  /** `undefined` while the phone is looking whether there is one, and as long as it cannot look (`saving` says so). */
  readonly answers: T | undefined;
  readonly step: string;
  /** The id that the finished entry will have. */
  readonly entry: EntryId;
  readonly key: string;
  readonly saving: Saving;
  /** Takes the answers as they are now and puts them on disk. */
  keep(answers: T, step: string): void;
  /** Waits until the last answer is on disk. */
  settled(): Promise<void>;
}

/**
 * Keeps an unfinished answer on disk at every tap, and brings it back.
 *
 * Only the newest state is written: while one write is under way, later taps replace one another and go next.
 * `readAnswers` turns what was stored, perhaps by an earlier version, into answers; `undefined` starts anew.
 */
export function useDraft<T>(
  kind: DraftKind,
  about: string,
  first: () => T,
  readAnswers: (stored: unknown) => T | undefined,
): OpenDraft<T> {
  const { house } = useGround();
  const key = draftKey(kind, about);
  const [answers, setAnswers] = useState<T>();
  const [step, setStep] = useState("");
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const [entry, setEntry] = useState<EntryId>(() => house.newId());
  const waiting = useRef<Draft | undefined>(undefined);
  const running = useRef(false);
  const writing = useRef<Promise<void>>(Promise.resolve());

  const pump = useCallback(async (): Promise<void> => {
    if (running.current) return;
    running.current = true;
    while (waiting.current) {
      const draft = waiting.current;
      waiting.current = undefined;
      const kept = await house.drafts.save(draft);
      if (!kept.ok) {
        waiting.current ??= draft;
        setSaving(failed(kept.error, () => void again()));
        break;
      }
      if (!waiting.current) setSaving({ state: "kept", time: timeOfDay() });
    }
    running.current = false;
    function again(): Promise<void> {
      setSaving({ state: "saving" });
      return pump();
    }
  }, [house]);

  useEffect(() => {
    let wanted = true;
    const look = async (): Promise<void> => {
      const found = await house.drafts.find(key);
      if (!wanted) return;
      // Beginning anew here would write over answers that the phone only cannot read now.
      if (!found.ok) {
        setSaving(failed(found.error, () => void look()));
        return;
      }
      const draft = found.value;
      const stored = draft === undefined ? undefined : readAnswers(draft.answers);
      setSaving({ state: "nothing" });
      if (draft && stored !== undefined) {
        setEntry(draft.entry);
        setStep(draft.step);
        setSaving({ state: "kept", time: draft.savedAt.slice(11) });
        if (house.drafts.isHeld(key)) {
          setSaving({ state: "saving" });
          waiting.current = draft;
          writing.current = writing.current.then(pump);
        }
      }
      setAnswers(stored ?? first());
    };
    void look();
    return () => {
      wanted = false;
    };
    // oxlint-disable-next-line react/exhaustive-deps -- looked up once for each key
  }, [house, key, pump]);

  useEffect(() => {
    // Leaving for another app is the last moment the phone is sure to tell us of: nothing may still be waiting then.
    const flush = (): void => {
      if (document.visibilityState === "hidden") void pump();
    };
    document.addEventListener("visibilitychange", flush);
    return () => document.removeEventListener("visibilitychange", flush);
  }, [pump]);

  return {
    answers,
    step,
    entry,
    key,
    saving,
    keep(next, at) {
      setAnswers(next);
      setStep(at);
      setSaving({ state: "saving" });
      waiting.current = {
        key,
        kind,
        about,
        entry,
        step: at,
        savedAt: localMinute(),
        state: "open",
        answers: next,
      };
      writing.current = writing.current.then(pump);
    },
    settled: async () => {
      await writing.current;
    },
  };
}

const failed = (failure: StoreFailure, retry: () => void): Saving => ({ state: "failed", why: failure.code, retry });
