import { Bug, type Day } from "@pollard/base";
import { useEffect, useState } from "react";
import type { AskHerd } from "../worker/herd-answers.ts";
import { type HerdThread, herdThread } from "../worker/herd-thread.ts";
import type { House } from "./house.ts";
import { useAsked, useGround } from "./use-house.tsx";

/** An answer that takes long, as far as it is there. */
export interface WorkedOut<T> {
  /** The last one that was worked out, perhaps before something was entered. */
  readonly model: T | undefined;
  /** `looking`: whether there is anything to work out is not known yet. */
  readonly state: "looking" | "working" | "ready" | "stopped";
  readonly stop: () => void;
  readonly again: () => void;
}

/** An answer, with how many entries it rests on, and the day it was made for. */
interface KeptAnswer<T> {
  readonly model: T;
  readonly entries: number;
  readonly today: Day;
}

/** A question that takes long, with the last answer to it of each open herd: whoever comes back finds that at once. */
export interface LongQuestion<T> {
  readonly ask: (answers: AskHerd, today: Day) => Promise<T>;
  readonly kept: WeakMap<House, KeptAnswer<T>>;
}

/** Makes a question that is worked out on a thread of its own. */
export const longQuestion = <T>(ask: LongQuestion<T>["ask"]): LongQuestion<T> => ({ ask, kept: new WeakMap() });

/**
 * The answer to a question that takes long, worked out anew whenever something was entered; the last one stays until then.
 *
 * It is worked out on a thread of its own, which reads the herd for itself: the herd's own thread stays free for every other
 * question, and the solver, which cannot be interrupted, is stopped by ending the thread.
 */
export function useOwnThread<T>(question: LongQuestion<T>, today: Day): WorkedOut<T> {
  const { house } = useGround();
  const entries = useAsked((answers) => answers.entryCount(), []).value;
  const [stopped, setStopped] = useState<Pick<KeptAnswer<T>, "entries" | "today">>();
  const [, setDone] = useState<KeptAnswer<T>>();
  const [broken, setBroken] = useState<{ readonly reason: unknown }>();
  const isOfNow = (of: Pick<KeptAnswer<T>, "entries" | "today"> | undefined): boolean =>
    of !== undefined && of.entries === entries && of.today === today;
  const kept = question.kept.get(house);
  const state = entries === undefined ? "looking" : isOfNow(kept) ? "ready" : isOfNow(stopped) ? "stopped" : "working";
  useEffect(() => {
    if (entries === undefined || state !== "working") return;
    const thread = herdThread();
    workedOut(thread, house, (answers) => question.ask(answers, today)).then(
      (model) => {
        const answer = { model, entries, today };
        question.kept.set(house, answer);
        setDone(answer);
      },
      (reason: unknown) => setBroken({ reason }),
    );
    return thread.end;
  }, [question, house, entries, today, state]);
  if (broken) throw broken.reason;
  return {
    model: kept?.model,
    state,
    stop: () => {
      if (entries !== undefined) setStopped({ entries, today });
    },
    again: () => setStopped(undefined),
  };
}

async function workedOut<T>({ answers }: HerdThread, house: House, ask: (answers: AskHerd) => Promise<T>): Promise<T> {
  const opened = await answers.open(house.herd.id);
  if (!opened.ok) throw new Bug(`a thread of its own cannot read the herd: ${opened.error.code}`);
  return ask(answers);
}
