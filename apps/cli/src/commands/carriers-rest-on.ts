import { ok } from "@pollard/base";
import { animalRef, restsOn } from "@pollard/advice";
import { genotypesOf, type Locus } from "@pollard/genetics";
import type { Arguments } from "../command.ts";
import { chanceText } from "../chance-text.ts";
import { answered, type OpenHerd } from "../herd-source.ts";
import { namedAnimal } from "../named-animal.ts";
import type { Outcome } from "../outcome.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";
import { loci } from "../spoken.ts";

/** What the belief about one goat rests on: without each fact, and with other founders. */
export function restedOn(
  { opened, locus }: { readonly opened: OpenHerd; readonly locus: Locus },
  text: string,
  args: Arguments,
  world: World,
): Outcome {
  const found = namedAnimal(opened, text);
  if (!found.ok) return found;
  const { situation, words } = opened;
  const model = restsOn(situation, locus, found.value.id);
  if (args.has("json"))
    world.out(`${JSON.stringify({ locus: locus.id, animal: found.value, ...model }, undefined, 2)}\n`);
  else {
    const nameOf = (id: typeof found.value.id): string => words.label(animalRef(situation.herd, id));
    const shown = (chances: readonly number[]): readonly string[] => chances.map(chanceText);
    const rows = [
      [`${nameOf(found.value.id)}, from everything known`, ...shown(model.now)],
      ...model.without.map(({ fact, chances }) => [`without ${loci.namedFact(fact, nameOf)}`, ...shown(chances)]),
      ...model.founders.map(({ times, chances }) => [
        `rarer alleles ${times < 1 ? "half" : "twice"} as common among unknown parents`,
        ...shown(chances),
      ]),
    ];
    const columns = genotypesOf(locus).map((title) => ({ title, align: "right" as const }));
    world.out(table([{ title: locus.name, most: 64 }, ...columns], rows));
  }
  return ok(answered(opened, world));
}
