import type { Day, Result } from "@pollard/base";

/** Why a file could not be read or written. */
export type FileFailure = "not-there" | "a-folder" | "not-allowed" | "unreadable";

/** Everything outside the program that a command may touch. Tests pass a small one of their own. */
export interface World {
  /** Prints to standard output, as it stands. */
  out(text: string): void;
  /** Prints to standard error, as it stands. */
  err(text: string): void;
  /** The whole text of a file. */
  readText(path: string): Promise<Result<string, FileFailure>>;
  /** The bytes of a file, whatever they are. */
  readBytes(path: string): Promise<Result<Uint8Array, FileFailure>>;
  /** Writes a whole file, in the place of one that is there. */
  writeText(path: string, text: string): Promise<Result<void, FileFailure>>;
  /** The moment in UTC, `YYYY-MM-DDTHH:MM:SSZ`. */
  now(): string;
  /** This machine's own calendar day. */
  today(): Day;
  /** The folder the invented herds lie in. */
  readonly demoFolder: string;
  /** Runs the hub until it ends; gives its exit code. */
  runHub(argv: readonly string[]): Promise<number>;
}
