import { ok } from "@pollard/base";
import { type AnimalRef, locusProblem } from "@pollard/advice";
import { chanceOfAll, type GenotypeAnswer, genotypesOf, genotypesWith, type Locus } from "@pollard/genetics";
import type { Arguments } from "../command.ts";
import { chanceText } from "../chance-text.ts";
import { answered, type OpenHerd } from "../herd-source.ts";
import { namedAnimal } from "../named-animal.ts";
import { type Outcome, wrong } from "../outcome.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";

/** Most goats whose genotypes are listed in every combination. */
const MOST_LISTED = 3;

/** Several goats at once: "all three of these does carry p", which their separate chances do not tell. */
export function carriersTogether(
  asked: { readonly opened: OpenHerd; readonly locus: Locus; readonly answer: GenotypeAnswer },
  args: Arguments,
  world: World,
): Outcome {
  const { opened, locus, answer } = asked;
  const names = (args.value("together") ?? "").split(",").filter((name) => name.trim() !== "");
  const refs: AnimalRef[] = [];
  for (const name of names) {
    const found = namedAnimal(opened, name);
    if (!found.ok) return found;
    refs.push(found.value);
  }
  const ids = [...new Set(refs.map(({ id }) => id))];
  if (ids.length < 2) return wrong("--together needs two goats or more, with commas between them.");
  const allele = args.value("allele") ?? locus.alleles.at(-1) ?? "";
  if (!locus.alleles.includes(allele))
    return wrong(`"${allele}" is no allele of this locus; it has ${locus.alleles.join(", ")}.`);
  const problem = locusProblem(opened.situation, locus);
  const wanted = genotypesWith(problem, allele);
  const chance = chanceOfAll(problem, answer, new Map(ids.map((id) => [id, wanted])));
  const carries = genotypesOf(locus).map((genotype) => wanted.includes(genotype));
  const apart = ids.map((id) =>
    answer.belief(id).genotypes.reduce((sum, p, g) => sum + (carries[g] === true ? p : 0), 0),
  );
  const joint = ids.length <= MOST_LISTED ? answer.joint(ids).chances : undefined;
  if (args.has("json"))
    world.out(`${JSON.stringify({ locus: locus.id, allele, ids, all: chance, apart, joint }, undefined, 2)}\n`);
  else {
    const rows = ids.map((id, i) => {
      const ref = refs.find((r) => r.id === id);
      return [ref === undefined ? id : opened.words.label(ref), chanceText(apart[i] ?? 0)];
    });
    const product = apart.reduce((a, b) => a * b, 1);
    world.out(
      `${table([{ title: "Goat" }, { title: `Carries ${allele}`, align: "right" }], rows)}All of them: ${chanceText(chance)}. Were they strangers to one another: ${chanceText(product)}.\n`,
    );
  }
  return ok(answered(opened, world));
}
