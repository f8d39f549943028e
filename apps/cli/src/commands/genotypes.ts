import { err, ok, type Result } from "@pollard/base";
import {
  type AnimalId,
  type Conflict,
  type GenotypeAnswer,
  type GenotypeFileProblem,
  genotypesOf,
  inferGenotypes,
  type PedigreeProblem,
  parseGenotypeFile,
} from "@pollard/genetics";
import { type Command, JSON_OPTION } from "../command.ts";
import { type Outcome, type Stop, wrong } from "../outcome.ts";
import { jsonOf } from "../reading.ts";
import { table } from "../table.ts";
import type { World } from "../world.ts";
import { loci } from "../spoken.ts";

/** Exact genotypes of a bare pedigree problem, without a herd around it. */
export const genotypes: Command = {
  name: "genotypes",
  takes: ["PROBLEM.json"],
  about: "genotypes of every animal of a bare pedigree problem",
  options: [JSON_OPTION],
  async run(args, world) {
    const problem = await problemFrom(world, args.words[0]);
    if (!problem.ok) return err(problem.error);
    const answer = inferGenotypes(problem.value);
    if (args.has("json")) world.out(`${JSON.stringify(plain(problem.value, answer), undefined, 2)}\n`);
    else world.out(printed(problem.value, answer));
    return found(answer);
  },
};

const found = ({ conflicts, issues }: GenotypeAnswer): Outcome => ok(conflicts.length + issues.length > 0 ? 1 : 0);

async function problemFrom(world: World, path: string | undefined): Promise<Result<PedigreeProblem, Stop>> {
  if (path === undefined) return wrong("pollard genotypes needs a file: pollard genotypes PROBLEM.json.");
  const json = await jsonOf(world, path);
  if (!json.ok) return json;
  const problem = parseGenotypeFile(json.value);
  return problem.ok ? problem : wrong(`"${path}" is no pedigree problem: ${sayFileProblem(problem.error)}`);
}

/** The answer as plain data: `posterior` has the chances of each animal in the order of `genotypes`. */
function plain(problem: PedigreeProblem, answer: GenotypeAnswer) {
  return {
    locus: problem.locus.id,
    genotypes: genotypesOf(problem.locus),
    method: answer.method,
    possible: answer.conflicts.length === 0,
    logLikelihood: answer.logLikelihood,
    posterior: Object.fromEntries(problem.members.map(({ id }) => [id, answer.belief(id).genotypes])),
    conflicts: answer.conflicts,
    issues: answer.issues,
  };
}

function printed(problem: PedigreeProblem, answer: GenotypeAnswer): string {
  const names = genotypesOf(problem.locus);
  const ids = [...new Set(problem.members.map(({ id }) => id))]; // an id that is there twice has one answer
  const rows = ids.map((id) => [id, ...answer.belief(id).genotypes.map((chance) => chance.toFixed(6))]);
  const columns = [{ title: "Animal", most: 40 }, ...names.map((title) => ({ title, align: "right" as const }))];
  const likelihood = `Log-likelihood of ${answer.conflicts.length > 0 ? "the facts kept" : "all facts"}: ${answer.logLikelihood.toFixed(9)} (${answer.method}).`;
  return [
    table(columns, rows),
    likelihood,
    ...answer.conflicts.map((conflict) => sayConflict(conflict)),
    ...answer.issues.map(loci.genotypeIssue),
  ]
    .filter((part) => part !== "")
    .map((part) => (part.endsWith("\n") ? part : `${part}\n`))
    .join("\n");
}

/** A contradiction in one sentence, with the facts that were left out so that the rest has an answer. */
export function sayConflict(
  { facts, links, setAside }: Conflict,
  factOf: (fact: string) => string = (fact) => fact,
  nameOf: (id: AnimalId) => string = (id) => id,
): string {
  const parentage = links.map(({ kid, parent }) => `the ${parent} of ${nameOf(kid)}`);
  const parts = [...new Set([...facts.map(factOf), ...parentage])];
  return `Contradiction: these cannot all be true: ${parts.join(", ")}. Left out: ${setAside.map(factOf).join(", ")}.`;
}

function sayFileProblem(problem: GenotypeFileProblem): string {
  const at = problem.path === "$" ? "the file" : problem.path;
  switch (problem.code) {
    case "not-an-object":
      return `${at} should be an object.`;
    case "not-a-list":
      return `${at} should be a list.`;
    case "not-text":
      return `${at} should be text.`;
    case "not-a-chance":
      return `${at} should be a number from 0 to 1.`;
    case "not-one-of":
      return `${at} should be one of ${problem.allowed.join(", ")}.`;
    case "wrong-length":
      return `${at} should have ${problem.wanted} numbers, not ${problem.got}.`;
  }
}
