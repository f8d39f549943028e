import { err, ok } from "@pollard/base";
import { type AdviceProblem, animalRef, herdProblems, type MisfitReasons, misfitReasons } from "@pollard/advice";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { type OpenHerd, openHerd } from "../herd-source.ts";
import { table } from "../table.ts";
import { files, loci } from "../spoken.ts";

/** What in a herd file, and in the herd it tells, makes no sense. The answer is "no problems", or no. */
export const check: Command = {
  name: "check",
  takes: ["HERD"],
  about: "problems in a herd file and in the herd it tells",
  options: HERD_OPTIONS,
  async run(args, world) {
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { situation } = opened.value;
    const herd = herdProblems(situation).map((problem) =>
      problem.code === "cannot-be" || problem.code === "hard-to-believe"
        ? { ...problem, reasons: misfitReasons(situation, problem) }
        : problem,
    );
    const file = opened.value.file.problems;
    world.out(args.has("json") ? `${JSON.stringify({ file, herd }, undefined, 2)}\n` : printed(opened.value, herd));
    return ok(file.length + herd.length > 0 ? 1 : 0);
  },
};

type ReasonedProblem = AdviceProblem & { readonly reasons?: MisfitReasons };

/** How many reasons are printed of each. */
const MOST_REASONS = 4;

function printed(opened: OpenHerd, problems: readonly ReasonedProblem[]): string {
  const { file, entries, situation, words, today } = opened;
  const count = problems.length + file.problems.length;
  const summary = `${entries.length} entries, ${situation.herd.animals.size} animals, ${count === 1 ? "1 problem" : `${count} problems`}.\n`;
  const rows = [
    ...file.problems.map((problem) => [files.problem(problem), "The lines that can be read still count.", ""]),
    ...problems.map((problem) => {
      const { what, mend } = words.problem(problem, today);
      return [[what, ...reasonsSaid(opened, problem.reasons)].join(" "), mend, entriesOf(problem).join(" ")];
    }),
  ];
  const columns = [{ title: "Problem", most: 30 }, { title: "To mend it", most: 30 }, { title: "Entries" }];
  return rows.length === 0 ? summary : `${table(columns, rows)}\n${summary}`;
}

/** The records that may be wrong, the likeliest first. */
function reasonsSaid({ situation, words }: OpenHerd, reasons: MisfitReasons | undefined): readonly string[] {
  const nameOf = (id: Parameters<typeof animalRef>[1]): string => words.label(animalRef(situation.herd, id));
  const factOf = (fact: string): string => {
    const named = reasons?.facts.find((f) => f.fact === fact);
    return named === undefined ? fact : loci.namedFact(named, nameOf);
  };
  return (reasons?.explanations ?? [])
    .slice(0, MOST_REASONS)
    .map((explanation) => loci.misfitReason(explanation, nameOf, factOf));
}

/** The entries to look at. */
const entriesOf = (problem: AdviceProblem): readonly string[] => {
  if (problem.code === "rival-corrections") return [problem.entry, ...problem.rivals];
  return "entries" in problem ? problem.entries : [problem.entry];
};
