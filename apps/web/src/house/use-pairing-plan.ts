import type { PairingsModel } from "@pollard/advice";
import { Bug, type Day } from "@pollard/base";
import { useEffect, useState } from "react";
import { type HerdThread, herdThread } from "../worker/herd-thread.ts";
import type { House } from "./house.ts";
import { useAsked, useGround } from "./use-house.tsx";

/** The plan of pairings, as far as it is there. */
export interface PairingPlan {
  /** The last one that was worked out, perhaps before something was entered. */
  readonly model: PairingsModel | undefined;
  /** `looking`: whether there is anything to work out is not known yet. */
  readonly state: "looking" | "working" | "ready" | "stopped";
  readonly stop: () => void;
  readonly again: () => void;
}

/** A plan, with how many entries it rests on, and the day it was made for. */
interface KeptPlan {
  readonly model: PairingsModel;
  readonly entries: number;
  readonly today: Day;
}

/** The last plan of each open herd: whoever comes back finds it, whether or not it has to be worked out anew. */
const keptPlans = new WeakMap<House, KeptPlan>();

/**
 * The plan of pairings, worked out anew whenever something was entered; the last one stays until then.
 *
 * It is worked out on a thread of its own, which reads the herd for itself: the herd's own thread stays free for every other
 * question, and the solver, which cannot be interrupted, is stopped by ending the thread.
 */
export function usePairingPlan(today: Day): PairingPlan {
  const { house } = useGround();
  const entries = useAsked((answers) => answers.entryCount(), []).value;
  const [stopped, setStopped] = useState<Pick<KeptPlan, "entries" | "today">>();
  const [, setDone] = useState<KeptPlan>();
  const [broken, setBroken] = useState<{ readonly reason: unknown }>();
  const isOfNow = (of: Pick<KeptPlan, "entries" | "today"> | undefined): boolean =>
    of !== undefined && of.entries === entries && of.today === today;
  const kept = keptPlans.get(house);
  const state = entries === undefined ? "looking" : isOfNow(kept) ? "ready" : isOfNow(stopped) ? "stopped" : "working";
  useEffect(() => {
    if (entries === undefined || state !== "working") return;
    const thread = herdThread();
    workedOut(thread, house, today).then(
      (model) => {
        const plan = { model, entries, today };
        keptPlans.set(house, plan);
        setDone(plan);
      },
      (reason: unknown) => setBroken({ reason }),
    );
    return thread.end;
  }, [house, entries, today, state]);
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

async function workedOut({ answers }: HerdThread, house: House, today: Day): Promise<PairingsModel> {
  const opened = await answers.open(house.herd.id);
  if (!opened.ok) throw new Bug(`the plan's own thread cannot read the herd: ${opened.error.code}`);
  return answers.pairings(today);
}
