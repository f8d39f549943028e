import type { Command } from "./command.ts";
import { carriers } from "./commands/carriers.ts";
import { check } from "./commands/check.ts";
import { exportHerd } from "./commands/export.ts";
import { genotypes } from "./commands/genotypes.ts";
import { heads } from "./commands/heads.ts";
import { start } from "./commands/start.ts";
import { today } from "./commands/today.ts";
import { vetdays } from "./commands/vetdays.ts";

/** Every question the terminal can be asked, in the order of the help. */
export const COMMANDS: readonly Command[] = [start, today, heads, vetdays, carriers, genotypes, check, exportHerd];
