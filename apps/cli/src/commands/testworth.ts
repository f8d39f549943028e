import { err, ok } from "@pollard/base";
import { type TestWorthModel, testWorthModel } from "@pollard/advice";
import { loadSolver } from "@pollard/planning";
import { chanceText } from "../chance-text.ts";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { answered, openHerd } from "../herd-source.ts";
import { table } from "../table.ts";
import { pairings as said } from "../spoken.ts";

/** What a DNA test of each animal would save in the coming pairings and head decisions, against its price. */
export const testworth: Command = {
  name: "testworth",
  takes: ["HERD"],
  about: "what a DNA test of each animal would be worth, against its price",
  options: HERD_OPTIONS,
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const model = testWorthModel(opened.value.situation, await loadSolver());
    world.out(args.has("json") ? `${JSON.stringify(model, undefined, 2)}\n` : printed(model));
    return ok(answered(opened.value, world));
  },
};

function printed(model: TestWorthModel): string {
  const open = model.lines.filter((line) => line.advice !== "known-already");
  const known = model.lines.length - open.length;
  const rows = [...open, ...model.together].map((line) => [
    line.worth.toFixed(2),
    line.price.toFixed(2),
    said.testWorth(line),
    line.animals.length > 1
      ? ""
      : line.results.map((r) => `${r.genotypes.join(" ")} ${chanceText(r.chance)}`).join(", "),
  ]);
  const columns = [
    { title: "Worth", align: "right" as const },
    { title: "Price", align: "right" as const },
    { title: "", most: 44 },
    { title: "It would say" },
  ];
  return `${table(columns, rows)}${said.tests(model)}
${known === 0 ? "" : `Known well enough already: ${known} more.\n`}${said.unit}
`;
}
