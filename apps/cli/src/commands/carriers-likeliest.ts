import { ok } from "@pollard/base";
import { animalLines, locusProblem } from "@pollard/advice";
import { type GenotypeAnswer, genotypesOf, type Locus, mostProbable } from "@pollard/genetics";
import type { Arguments } from "../command.ts";
import { chanceText } from "../chance-text.ts";
import { answered, type OpenHerd } from "../herd-source.ts";
import type { Outcome } from "../outcome.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";

/** The one way things may be, of all goats at once, that is likelier than any other, beside what is likeliest of each alone. */
export function carriersLikeliest(
  { opened, locus, answer }: { readonly opened: OpenHerd; readonly locus: Locus; readonly answer: GenotypeAnswer },
  args: Arguments,
  world: World,
): Outcome {
  const best = mostProbable(locusProblem(opened.situation, locus), answer);
  const names = genotypesOf(locus);
  const lines = animalLines(opened.situation).map(({ ref, gone }) => {
    const { genotypes } = answer.belief(ref.id);
    const at = genotypes.indexOf(Math.max(...genotypes));
    return { ref, gone, together: best?.genotypes.get(ref.id), alone: names[at] ?? "", chance: genotypes[at] ?? 0 };
  });
  if (args.has("json")) {
    const animals = lines.map(({ ref, together, alone, chance }) => ({ ref, together, alone, chance }));
    world.out(`${JSON.stringify({ locus: locus.id, chance: best?.chance, animals }, undefined, 2)}\n`);
  } else if (best === undefined) world.out("This herd is too entangled for its likeliest way to be found.\n");
  else {
    const columns = [
      { title: "Animal", most: 20 },
      { title: "Tag" },
      { title: "Here" },
      { title: "All together" },
      { title: "By itself" },
      { title: "Chance", align: "right" as const },
    ];
    const rows = lines.map(({ ref, gone, together = "", alone, chance }) => [
      opened.words.label(ref),
      ref.tag ?? "",
      gone ? "left" : "here",
      together,
      alone,
      chanceText(chance),
    ]);
    world.out(`${table(columns, rows)}Among all ways this one has a chance of ${wayText(best.chance)}.\n`);
  }
  const exit = answered(opened, world);
  return ok(best === undefined ? 1 : exit);
}

/** The chance of one way among very many, which two places would not show. */
const wayText = (chance: number): string => (chance < 0.01 ? chance.toExponential(1) : chanceText(chance));
