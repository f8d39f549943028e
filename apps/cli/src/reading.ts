import { ok, type Result } from "@pollard/base";
import { failed, type Stop, wrong } from "./outcome.ts";
import type { FileFailure, World } from "./world.ts";

/** The whole text of a file named on the command line, or one sentence why there is none; `ofFolder` follows a folder's name. */
export async function textOf(world: World, path: string, ofFolder?: string): Promise<Result<string, Stop>> {
  const read = await world.readText(path);
  return read.ok ? read : notRead(read.error, path, ofFolder);
}

/** The same for a file that need not be text. */
export async function bytesOf(world: World, path: string): Promise<Result<Uint8Array, Stop>> {
  const read = await world.readBytes(path);
  return read.ok ? read : notRead(read.error, path);
}

function notRead(why: FileFailure, path: string, ofFolder = "is a folder, not a file.") {
  switch (why) {
    case "not-there":
      return wrong(`There is no file "${path}".`);
    case "a-folder":
      return wrong(`"${path}" ${ofFolder}`);
    case "not-allowed":
      return failed(`This computer does not allow "${path}" to be read.`);
    case "unreadable":
      return failed(`"${path}" could not be read.`);
  }
}

/** The JSON value in a file named on the command line, or one sentence why there is none. */
export async function jsonOf(world: World, path: string): Promise<Result<unknown, Stop>> {
  const text = await textOf(world, path);
  if (!text.ok) return text;
  try {
    return ok(JSON.parse(text.value.replace(/^\uFEFF/, "")) as unknown);
  } catch (cause) {
    if (cause instanceof SyntaxError) return wrong(`"${path}" is not JSON.`);
    throw cause;
  }
}
