import { WEIGHT_UNITS } from "@pollard/base";
import { LANGUAGES } from "@pollard/words";
import type { Outcome } from "./outcome.ts";
import type { World } from "./world.ts";

/** An option of a command. Without `value` it is a switch; with it, `value` stands for what is to be given. */
export interface Option {
  readonly name: string;
  /** One letter that stands for it: `-o` for `--out`. */
  readonly short?: string;
  readonly value?: string;
  readonly about: string;
}

/** What was typed after a command's name, checked against what the command knows. */
export interface Arguments {
  /** The words that are no options, in order; never more than the command takes. */
  readonly words: readonly string[];
  /** The value given to an option. */
  value(name: string): string | undefined;
  /** Whether a switch is on. */
  has(name: string): boolean;
}

/** One question the terminal can be asked. */
export interface Command {
  readonly name: string;
  /** What stands after the name, as shown in the help: `HERD`, `PROBLEM.json`. */
  readonly takes: readonly string[];
  readonly about: string;
  readonly options: readonly Option[];
  run(args: Arguments, world: World): Promise<Outcome>;
}

export const JSON_OPTION: Option = { name: "json", about: "the same answer as plain data" };

export const OUT_OPTION: Option = {
  name: "out",
  short: "o",
  value: "FILE",
  about: "writes it to a file instead of the terminal",
};

/** Of every command that answers in sentences. */
const LANGUAGE_OPTION: Option = {
  name: "language",
  value: LANGUAGES.join("|"),
  about: "says sentences, sheets and calendars in that language; headings stay English",
};

/** Of every command that says weights. */
export const UNITS_OPTION: Option = {
  name: "units",
  value: WEIGHT_UNITS.join("|"),
  about: "says weights in sentences and sheets in kilograms or pounds; data and exports stay in kg",
};

/** Options of every command that is asked about a herd. */
export const HERD_OPTIONS: readonly Option[] = [
  { name: "demo", value: "NAME", about: "an invented herd instead of HERD, moved to today" },
  { name: "on", value: "YYYY-MM-DD", about: "answer as if this were today" },
  { name: "seed", value: "N", about: "fixes chance, for answers that draw by chance" },
  JSON_OPTION,
  LANGUAGE_OPTION,
  UNITS_OPTION,
];
