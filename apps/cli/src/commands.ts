import type { Command } from "./command.ts";
import { carriers } from "./commands/carriers.ts";
import { check } from "./commands/check.ts";
import { counts } from "./commands/counts.ts";
import { exportHerd } from "./commands/export.ts";
import { forecast } from "./commands/forecast.ts";
import { genotypes } from "./commands/genotypes.ts";
import { heads } from "./commands/heads.ts";
import { importList } from "./commands/import.ts";
import { inbreeding } from "./commands/inbreeding.ts";
import { pairings } from "./commands/pairings.ts";
import { review } from "./commands/review.ts";
import { sheet } from "./commands/sheet.ts";
import { start } from "./commands/start.ts";
import { testworth } from "./commands/testworth.ts";
import { today } from "./commands/today.ts";
import { vetdays } from "./commands/vetdays.ts";

/** Every question the terminal can be asked, in the order of the help. */
export const COMMANDS: readonly Command[] = [
  start,
  today,
  heads,
  vetdays,
  carriers,
  pairings,
  forecast,
  testworth,
  review,
  genotypes,
  inbreeding,
  counts,
  check,
  importList,
  exportHerd,
  sheet,
];
