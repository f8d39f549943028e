import { err, type Result } from "@pollard/base";

/** 0: done. 1: the answer is no, or problems were found. */
export type Exit = 0 | 1;

/** Why a command gave no answer, in one sentence for a person. 2: the command was wrong. 3: the world failed. */
export interface Stop {
  readonly exit: 2 | 3;
  readonly sentence: string;
}

/** How a command ends. */
export type Outcome = Result<Exit, Stop>;

/** The command itself was wrong: a name mistyped, a file that is something else. */
export const wrong = (sentence: string) => err<Stop>({ exit: 2, sentence });

/** The command was right and the world failed it. */
export const failed = (sentence: string) => err<Stop>({ exit: 3, sentence });
