import { Bug } from "@pollard/base";
import { languageOf, parseArguments, unitsOf } from "./arguments.ts";
import type { Command } from "./command.ts";
import { COMMANDS } from "./commands.ts";
import { type Stop, wrong } from "./outcome.ts";
import { speak } from "./spoken.ts";
import { table } from "./table.ts";
import type { World } from "./world.ts";

/**
 * Answers one question asked in a terminal, and gives the exit code.
 *
 * Shape:  0 done; 1 the answer is no, or problems were found;
2 the command was wrong; 3 the world failed.
 * Errors: none escape. Whatever is wrong is one sentence on standard error; a fault of the program itself too (code 3).
 */
export async function run(argv: readonly string[], world: World): Promise<number> {
  try {
    const [name, ...rest] = argv;
    if (name === undefined || name === "help" || name === "--help" || name === "-h") {
      world.out(help(rest[0]));
      return 0;
    }
    const command = COMMANDS.find((one) => one.name === name);
    if (!command) return stopped(wrong(`There is no command "${name}"; \`pollard help\` lists them.`).error, world);
    if (rest.includes("--help") || rest.includes("-h")) {
      world.out(help(name));
      return 0;
    }
    const args = parseArguments(command, rest);
    if (!args.ok) return stopped(args.error, world);
    const language = languageOf(args.value);
    if (!language.ok) return stopped(language.error, world);
    const units = unitsOf(args.value);
    if (!units.ok) return stopped(units.error, world);
    await speak(language.value, units.value);
    const outcome = await command.run(args.value, world);
    return outcome.ok ? outcome.value : stopped(outcome.error, world);
  } catch (fault) {
    const what = fault instanceof Bug || fault instanceof Error ? fault.message : String(fault);
    return stopped({ exit: 3, sentence: `Pollard itself made a mistake, your file is unharmed: ${what}.` }, world);
  }
}

function stopped({ exit, sentence }: Stop, world: World): number {
  world.err(`${sentence}\n`);
  return exit;
}

/** How to ask: every command, or one with its options. */
function help(name: string | undefined): string {
  const command = COMMANDS.find((one) => one.name === name);
  return command ? helpOn(command) : helpOnAll();
}

function helpOnAll(): string {
  const lines = table(
    [{ title: "Command" }, { title: "Answers" }],
    COMMANDS.map((command) => [usage(command), command.about]),
  );
  return `${lines}
HERD is a backup file; --demo demo takes an invented herd instead.
\`pollard help COMMAND\` tells a command's options.
Exit code: 0 done; 1 the answer is no, or problems were found;
2 the command was wrong; 3 the world failed.
`;
}

function helpOn(command: Command): string {
  const options = table(
    [{ title: "Option" }, { title: "" }],
    command.options.map(({ name, value, about }) => [`--${name}${value === undefined ? "" : ` ${value}`}`, about]),
  );
  return `pollard ${usage(command)}\n${command.about}\n${options === "" ? "" : `\n${options}`}`;
}

const usage = ({ name, takes }: Command): string => [name, ...takes].join(" ");
