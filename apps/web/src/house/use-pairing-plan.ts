import type { PairingsModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { longQuestion, useOwnThread, type WorkedOut } from "./use-own-thread.ts";

/** The plan of pairings, as far as it is there. */
export type PairingPlan = WorkedOut<PairingsModel>;

const PLAN = longQuestion((answers, today) => answers.pairings(today));

/** The plan of pairings, on a thread of its own. */
export const usePairingPlan = (today: Day): PairingPlan => useOwnThread(PLAN, today);
