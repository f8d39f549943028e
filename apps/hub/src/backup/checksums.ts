import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { readFile } from "node:fs/promises";
import { isAbsolute, join, normalize, sep } from "node:path";

/** The file of a backup that lists all others, each with its SHA-256, as `sha256sum` writes and checks it. */
export const SUMS_FILE = "SHA256SUMS";

/** The lines for files of a folder. */
export async function sumsOf(folder: string, names: readonly string[]): Promise<string> {
  const lines: string[] = [];
  for (const name of [...names].sort()) lines.push(`${await sha256(join(folder, name))}  ${name}\n`);
  return lines.join("");
}

/** What a backup's list of files says about them. */
export interface CheckedFiles {
  /** Every file listed that is whole. */
  readonly whole: readonly string[];
  /** Listed, but missing or not as it was written. */
  readonly damaged: readonly string[];
}

/** Reads a folder against its list. Errors: throws if there is no list, or one that is not ours. */
export async function checkedFiles(folder: string): Promise<CheckedFiles> {
  const whole: string[] = [];
  const damaged: string[] = [];
  const list = await readFile(join(folder, SUMS_FILE), "utf8");
  for (const line of list.split("\n").filter((content) => content !== "")) {
    const [, sum, name] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
    if (sum === undefined || name === undefined || !isInside(name))
      throw new Error(`${SUMS_FILE} is not a list of sums`);
    const found = await sha256(join(folder, name)).catch(() => undefined);
    (found === sum ? whole : damaged).push(name);
  }
  return { whole, damaged };
}

const isInside = (name: string): boolean => !isAbsolute(name) && !normalize(name).split(sep).includes("..");

async function sha256(file: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const piece of createReadStream(file)) hash.update(piece as Buffer);
  return hash.digest("hex");
}
