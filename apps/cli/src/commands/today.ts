import { err, ok } from "@pollard/base";
import { type TodayModel, todayModel } from "@pollard/advice";
import type { Words } from "@pollard/words";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { answered, openHerd } from "../herd-source.ts";
import { table } from "../table.ts";

/** What needs doing, in order, with by-when and why. */
export const today: Command = {
  name: "today",
  takes: ["HERD"],
  about: "what needs doing, in order, with by-when and why",
  options: HERD_OPTIONS,
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { situation, words } = opened.value;
    const model = todayModel(situation);
    world.out(args.has("json") ? `${JSON.stringify(model, undefined, 2)}\n` : printed(model, words));
    return ok(answered(opened.value, world));
  },
};

function printed(model: TodayModel, words: Words): string {
  const rows = model.tasks.map((dated) => {
    const { title, when, why } = words.task(dated, model.today);
    return [words.urgency(dated.urgency, dated.daysLeft), title, when, why];
  });
  const columns = [{ title: "Urgency" }, { title: "What", most: 32 }, { title: "When", most: 20 }, { title: "Why" }];
  return `${table(columns, rows)}${rows.length === 0 ? "Nothing to do today.\n" : ""}
Kids whose heads still matter: ${model.kidsInWindow}. Does still to kid: ${model.doesToKid}.
`;
}
