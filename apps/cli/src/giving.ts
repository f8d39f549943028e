import { ok, type Result } from "@pollard/base";
import type { Arguments } from "./command.ts";
import { failed, type Stop } from "./outcome.ts";
import type { FileFailure, World } from "./world.ts";

/** Why a file could not be written, in a sentence. */
const WHY: Readonly<Record<FileFailure, string>> = {
  "not-there": "has no folder to stand in",
  "a-folder": "is a folder",
  "not-allowed": "may not be written by you",
  unreadable: "could not be written",
};

/** Prints a text, or writes it to the file that was named with `-o`. */
export async function give(text: string, args: Arguments, world: World): Promise<Result<undefined, Stop>> {
  const path = args.value("out");
  if (path === undefined) {
    world.out(text);
    return ok(undefined);
  }
  const written = await world.writeText(path, text);
  return written.ok ? ok(undefined) : failed(`${path} ${WHY[written.error]}.`);
}
