import type { RequestLine } from "./request-line.ts";

/** Where a hub writes down what happens, for whoever runs it. */
export interface Journal {
  /** Something that whoever runs the hub should know. */
  readonly said: (text: string) => void;
  readonly problem: (text: string) => void;
  readonly request: (line: RequestLine) => void;
}

/** A day and time as in a file or a log, UTC. */
export type Clock = () => Date;

/** Sentences for a person at a screen; requests are not told. */
export const spokenJournal = (out: (text: string) => void, err: (text: string) => void): Journal => ({
  said: out,
  problem: err,
  request: () => undefined,
});

/**
 * One JSON object a line, for a machine that gathers logs: `time`, `level`, `what`, and what belongs to it.
 *
 * Source: JSON Lines; times by RFC 3339.
 */
export function jsonJournal(out: (text: string) => void, clock: Clock): Journal {
  const write = (level: "info" | "error", what: string, more: object): void =>
    out(JSON.stringify({ time: clock().toISOString(), level, what, ...more }));
  return {
    said: (text) => write("info", "said", { text }),
    problem: (text) => write("error", "problem", { text }),
    request: (line) => write("info", "request", line),
  };
}
