import { wrap } from "comlink";
import type { AskHerd, HerdAnswers } from "./herd-answers.ts";

/** A thread on which a herd is worked out, and how to be rid of it whatever it is at. */
export interface HerdThread {
  readonly answers: AskHerd;
  /** Ends it at once; what it had not answered stays unanswered. */
  readonly end: () => void;
}

/** Starts a thread of its own; it knows no herd before one is opened on it. */
export function herdThread(): HerdThread {
  const worker = new Worker(new URL("./herd-worker.ts", import.meta.url), { type: "module" });
  return { answers: wrap<HerdAnswers>(worker), end: () => worker.terminate() };
}
