import { join } from "node:path";
import { type Day, daysFrom, ok, type Result } from "@pollard/base";
import { animalRef, type Situation, situationOf } from "@pollard/advice";
import { type Entry, fold, type HerdFile, movedDays, readHerdFile, type TooNewEntry } from "@pollard/records";
import { dayOf, seedOf } from "./arguments.ts";
import type { Arguments } from "./command.ts";
import { type Exit, type Stop, wrong } from "./outcome.ts";
import { textOf } from "./reading.ts";
import type { World } from "./world.ts";
import type { Words } from "@pollard/words";
import { files, wordsOf } from "./spoken.ts";

/** A herd as a command was pointed at it: its entries, and everything needed to answer about it. */
export interface OpenHerd {
  readonly file: HerdFile;
  /** The file's entries; of an invented herd, moved so that its anchor is today. */
  readonly entries: readonly (Entry | TooNewEntry)[];
  readonly situation: Situation;
  readonly words: Words;
  readonly today: Day;
}

/** What a folder given as a herd is told. A hub keeps its herds in a database that only the hub opens. */
const OF_FOLDER = "is a folder. A hub's own data cannot be read here; make a backup file in the app.";

const noDemo = (name: string) => wrong(`There is no invented herd "${name}"; there is "demo".`);

/** The usual shape of an invented herd's name; keeps a name from leading out of its folder. */
const DEMO_NAME = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/**
 * Reads the herd that a command was asked about: a backup file by its path, or an invented herd by `--demo NAME`.
 *
 * `place` is the herd's among the words of the command.
 *
 * Errors: no herd named, or two; a file that is none; a day or seed that is none.
 */
export async function openHerd(args: Arguments, world: World, place = 0): Promise<Result<OpenHerd, Stop>> {
  const path = args.words[place];
  const demo = args.value("demo");
  if (path === undefined && demo === undefined)
    return wrong("Which herd? Give a backup file, or --demo demo for an invented one.");
  if (path !== undefined && demo !== undefined)
    return wrong(`Which herd, "${path}" or the invented one? Give one of them.`);
  if (demo !== undefined && !DEMO_NAME.test(demo)) return noDemo(demo);
  const today = dayOf(args, "on", world.today());
  if (!today.ok) return today;
  const seed = seedOf(args, "seed", 0);
  if (!seed.ok) return seed;
  const text = await textOf(world, path ?? join(world.demoFolder, `${demo}.jsonl`), OF_FOLDER);
  if (!text.ok) return demo === undefined ? text : noDemo(demo);
  const file = readHerdFile(text.value);
  const stranger = files.notAHerd(path ?? "", file);
  if (stranger !== undefined) return wrong(stranger);
  const anchor = demo === undefined ? undefined : file.header?.asOf;
  const entries = anchor === undefined ? file.entries : movedDays(file.entries, daysFrom(anchor, today.value));
  const situation = situationOf(fold(entries, today.value), today.value);
  const words = wordsOf((id) => animalRef(situation.herd, id));
  return ok({ file, entries, situation, words, today: today.value });
}

/**
 * How a command that has answered ends: 1 where parts of the file could not be read, which is said in one sentence, since
 * the answer may then lack something.
 */
export function answered({ file }: OpenHerd, world: World): Exit {
  const [first, ...others] = file.problems;
  if (first === undefined) return 0;
  const more = others.length === 0 ? "" : ` And ${others.length} more; \`pollard check\` lists them.`;
  world.err(`${files.problem(first)}${more}\n`);
  return 1;
}
