import { parseArgs } from "node:util";
import { type Day, ok, parseDay, type Result, WEIGHT_UNITS, type WeightUnit } from "@pollard/base";
import { type Language, LANGUAGES } from "@pollard/words";
import type { Arguments, Command, Option } from "./command.ts";
import { type Stop, wrong } from "./outcome.ts";

/**
 * Reads what was typed after a command's name.
 *
 * Errors: one sentence that says what is wrong and what is known: an unknown option, a value that is missing, was not
 *         asked for or was given twice, a word too many.
 */
export function parseArguments(command: Command, argv: readonly string[]): Result<Arguments, Stop> {
  const byName = new Map(command.options.map((option) => [option.name, option]));
  const { tokens } = parseArgs({
    args: [...argv],
    strict: false,
    tokens: true,
    allowPositionals: true,
    options: Object.fromEntries(
      command.options.map(({ name, short, value }) => {
        const type = value === undefined ? ("boolean" as const) : ("string" as const);
        return [name, short === undefined ? { type } : { type, short }] as const;
      }),
    ),
  });
  const words: string[] = [];
  const values = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind === "option-terminator") continue;
    if (token.kind === "positional") {
      words.push(token.value);
      continue;
    }
    const option = byName.get(token.name);
    if (!option) return wrong(`pollard ${command.name} knows no option ${token.rawName}; ${known(command.options)}`);
    if (values.has(option.name)) return wrong(`--${option.name} is given twice.`);
    if (option.value === undefined) {
      if (token.value !== undefined) return wrong(`--${option.name} is a switch and takes no value.`);
      values.set(option.name, "");
    } else {
      if (token.value === undefined || token.value === "")
        return wrong(`--${option.name} needs a value: --${option.name} ${option.value}.`);
      values.set(option.name, token.value);
    }
  }
  const surplus = words[command.takes.length];
  if (surplus !== undefined) return wrong(`pollard ${command.name} does not know what to do with "${surplus}".`);
  return ok({ words, value: (name) => values.get(name), has: (name) => values.has(name) });
}

const known = (options: readonly Option[]): string =>
  options.length === 0 ? "it has none." : `it knows ${options.map(({ name }) => `--${name}`).join(", ")}.`;

/** Days that a command may be asked about; further off, a herd's own days could leave the calendar. */
const ASKED = { from: "1900-01-01", to: "2999-12-31" } as const;

/** The day given to an option, or `otherwise` where it was not given. */
export function dayOf(args: Arguments, name: string, otherwise: Day): Result<Day, Stop> {
  const text = args.value(name);
  if (text === undefined) return ok(otherwise);
  const day = parseDay(text);
  if (day === undefined) return wrong(`"${text}" is not a day of the calendar; write --${name} YYYY-MM-DD.`);
  return day < ASKED.from || day > ASKED.to ? wrong(`--${name} goes from ${ASKED.from} to ${ASKED.to}.`) : ok(day);
}

/** The language that answers are asked for in; English where none is. */
export function languageOf(args: Arguments): Result<Language, Stop> {
  const text = args.value("language") ?? LANGUAGES[0];
  const language = LANGUAGES.find((one) => one === text);
  return language === undefined
    ? wrong(`There is no language "${text}"; there are ${LANGUAGES.join(" and ")}.`)
    : ok(language);
}

/** The unit that weights are asked for in; kilograms where none is. */
export function unitsOf(args: Arguments): Result<WeightUnit, Stop> {
  const text = args.value("units") ?? "kg";
  const unit = WEIGHT_UNITS.find((one) => one === text);
  return unit === undefined
    ? wrong(`Weights are not said in "${text}"; there are ${WEIGHT_UNITS.join(" and ")}.`)
    : ok(unit);
}

/** Largest seed: seeds are whole numbers in the 32-bit range. */
const LARGEST_SEED = 2 ** 32 - 1;

/** The seed given to an option, or `otherwise`. */
export function seedOf(args: Arguments, name: string, otherwise: number): Result<number, Stop> {
  const text = args.value(name);
  if (text === undefined) return ok(otherwise);
  const seed = /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
  return seed <= LARGEST_SEED
    ? ok(seed)
    : wrong(`"${text}" is not a seed; write a whole number from 0 to ${LARGEST_SEED}.`);
}
