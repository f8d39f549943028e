import type { Command } from "./command.ts";
import { genotypes } from "./commands/genotypes.ts";
import { start } from "./commands/start.ts";

/** Every question the terminal can be asked, in the order of the help. */
export const COMMANDS: readonly Command[] = [start, genotypes];
