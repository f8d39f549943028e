import { err, ok, type Result } from "@pollard/base";
import { forecastModel, type ForecastModel, forecastQuestion } from "@pollard/advice";
import { type PolicyForecast, startForecast, type YearTally } from "@pollard/planning";
import { seedOf } from "../arguments.ts";
import { HERD_OPTIONS, type Arguments, type Command } from "../command.ts";
import { answered, openHerd } from "../herd-source.ts";
import { type Stop, wrong } from "../outcome.ts";
import { table } from "../table.ts";
import { forecasts as said } from "../spoken.ts";

/** Most years and runs: beyond ten years a policy is no longer what anybody would do. */
const LIMITS = { years: 10, runs: 5000 } as const;

/** What becomes of the herd in the coming years, policies side by side on the same chances. */
export const forecast: Command = {
  name: "forecast",
  takes: ["HERD"],
  about: "what becomes of the herd in up to ten years, policies side by side",
  options: [
    ...HERD_OPTIONS,
    { name: "years", value: "N", about: "how many years, 1 to 10 (5)" },
    { name: "runs", value: "N", about: "how many simulated herds (300)" },
  ],
  async run(args, world) {
    const years = countOf(args, "years", 5);
    if (!years.ok) return years;
    const runs = countOf(args, "runs", 300);
    if (!runs.ok) return runs;
    const seed = seedOf(args, "seed", 1);
    if (!seed.ok) return seed;
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { situation } = opened.value;
    const question = forecastQuestion(situation, { years: years.value, runs: runs.value, seed: seed.value });
    const run = startForecast(question);
    run.step(question.runs);
    const model = forecastModel(situation, question, run.result());
    world.out(args.has("json") ? `${JSON.stringify(model, undefined, 2)}\n` : printed(model));
    return ok(answered(opened.value, world));
  },
};

function countOf(args: Arguments, name: keyof typeof LIMITS, otherwise: number): Result<number, Stop> {
  const text = args.value(name);
  if (text === undefined) return ok(otherwise);
  const value = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  return value >= 1 && value <= LIMITS[name] ? ok(value) : wrong(`--${name} goes from 1 to ${LIMITS[name]}.`);
}

function printed(model: ForecastModel): string {
  const [first] = model.policies;
  const shown: readonly (keyof YearTally)[] = [
    "kids",
    "horned",
    "visits",
    ...(model.money === "said" ? (["cost"] as const) : []),
    "polledKids",
    "polledDoes",
    "intersex",
    "infertile",
    "openDoes",
    "inbreeding",
    "kinship",
  ];
  const parts = model.policies.map((policy) => {
    const against = policy === first ? "" : `${said.against(policy, model.years)}\n`;
    return `${said.policy(policy.policy)}\n${against}${years(policy, shown)}`;
  });
  return `${parts.join("\n")}\n${said
    .note(model)
    .map((line) => `${line}\n`)
    .join("")}`;
}

/** The first year, the middle one and the last, so that the table stays narrow; the plain data have all. */
function years({ years: all }: PolicyForecast, shown: readonly (keyof YearTally)[]): string {
  const last = all.length - 1;
  const places = [...new Set([0, Math.floor(last / 2), last])];
  return table(
    [{ title: "", most: 24 }, ...places.map((y) => ({ title: `Year ${y + 1}`, align: "right" as const }))],
    shown.map((measure) => [
      said.measure(measure),
      ...places.map((y) => {
        const year = all[y];
        return year === undefined ? "" : said.spread(measure, year[measure]);
      }),
    ]),
  );
}
