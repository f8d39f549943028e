import { ok, type Result } from "@pollard/base";
import { failed, type Stop, wrong } from "./outcome.ts";
import type { World } from "./world.ts";

/** The whole text of a file named on the command line, or one sentence why there is none; `ofFolder` follows a folder's name. */
export async function textOf(
  world: World,
  path: string,
  ofFolder = "is a folder, not a file.",
): Promise<Result<string, Stop>> {
  const read = await world.readText(path);
  if (read.ok) return read;
  switch (read.error) {
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
