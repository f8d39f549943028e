import { present, seededRandom } from "@pollard/base";
import {
  type AnimalId,
  inferGenotypes,
  type InferenceOptions,
  layoutMemory,
  type PedigreeProblem,
} from "@pollard/genetics";
import { aFact, byEnumeration } from "@pollard/genetics/testing";
import { at, FOUR_LOCI, herdBook } from "./herds/herd-book.ts";
import { fastest, median, timed } from "./measuring/times.ts";

/** What it costs to say what every animal carries: by herd size, at four loci, after one reading more, beside the slow twin. */
const MIDDLE = { animals: 300, does: 40, bucks: 3 };
const HERDS = [
  { animals: 30, does: 6, bucks: 1 },
  { animals: 100, does: 20, bucks: 2 },
  MIDDLE,
  { animals: 500, does: 50, bucks: 3 },
  { animals: 1000, does: 60, bucks: 4 },
  { animals: 3000, does: 150, bucks: 8 },
  { animals: 10_000, does: 300, bucks: 12 },
];
/** Six animals are as many as enumerating does in a few seconds. */
const TWIN_ANIMALS = [3, 4, 5, 6];
/** Entries of which the middle time is told; as many before them warm up. */
const ENTRIES = 25;
const PAIRS = { bucks: 10, does: 40 };

export function bench() {
  const lines: { what: string; value: number; unit: string; note?: string }[] = [];
  allMarginals(herdBook(MIDDLE, seededRandom(2)), {}); // the first run also pays for compiling
  for (const size of HERDS) {
    const problem = herdBook(size, seededRandom(7));
    const { ms, value } = fastest(size.animals > 1000 ? 1 : 5, () => allMarginals(problem, {}));
    const error = value.method === "exact" ? "" : `, error about ${value.error.toExponential(0)}`;
    const each = `${((1000 * ms) / size.animals).toFixed(0)} µs an animal`;
    const note = `${size.does} does and ${size.bucks} bucks at a time: ${value.method}${error}; ${each}`;
    lines.push({ what: `all genotypes of ${size.animals} animals`, value: ms, unit: "ms", note });
  }
  const middle = herdBook(MIDDLE, seededRandom(7));
  for (const locus of FOUR_LOCI) {
    const problem = at(locus, middle);
    const { ms, value } = fastest(5, () => allMarginals(problem, {}));
    const note = `${locus.alleles.length} alleles, half of the animals tested: ${value.method}`;
    lines.push({ what: `${locus.name}, 300 animals`, value: ms, unit: "ms", note });
  }
  lines.push(...afterOneMore(middle));
  lines.push({ what: "planned kids of 400 pairs, 300 animals", value: fastest(3, () => pairs(middle)).ms, unit: "ms" });
  for (const animals of TWIN_ANIMALS) {
    const problem = herdBook({ animals, does: 1, bucks: 1 }, seededRandom(3));
    const slow = fastest(1, () => byEnumeration(problem)).ms;
    const ours = fastest(5, () => allMarginals(problem, {})).ms;
    const note = `ours ${ours.toFixed(2)} ms`;
    lines.push({ what: `enumerating every combination, ${animals} animals`, value: slow, unit: "ms", note });
  }
  return lines;
}

/** What is asked of a herd after one reading more, by what is worked out before: all of it, or nothing. */
function afterOneMore(middle: PedigreeProblem) {
  const layouts = layoutMemory();
  const read = present(middle.members.at(-1), "the animal read").id;
  const asked = {
    "everyone of 300 animals": (problem: PedigreeProblem, options: InferenceOptions) => allMarginals(problem, options),
    "everyone, and who sired whom": (problem: PedigreeProblem, options: InferenceOptions) => {
      const answer = allMarginals(problem, options);
      for (const m of problem.members) present(answer.belief(m.id).sires, "chances of sires");
    },
    "the animal that was read": (problem: PedigreeProblem, options: InferenceOptions) =>
      inferGenotypes(problem, options).belief(read),
  };
  return Object.entries(asked).map(([what, ask]) => {
    // In turns, so that there is always one reading more or less than the time before; each written anew, as in the app.
    const times = Array.from({ length: 2 * ENTRIES }, (_, turn) => {
      const problem = structuredClone(turn % 2 === 0 ? withOneReading(middle) : middle);
      const again = timed(() => ask(problem, { layouts })).ms;
      return { again, afresh: timed(() => ask(problem, {})).ms };
    }).slice(ENTRIES);
    const again = median(times.map((t) => t.again));
    const afresh = median(times.map((t) => t.afresh));
    const note = `what was worked out before is kept; afresh ${afresh.toFixed(1)} ms: ${(afresh / again).toFixed(1)} times as long`;
    return { what: `after one reading more: ${what}`, value: again, unit: "ms", note };
  });
}

function allMarginals(problem: PedigreeProblem, options: InferenceOptions) {
  const answer = inferGenotypes(problem, options);
  for (const m of problem.members) answer.belief(m.id);
  return answer;
}

function pairs(problem: PedigreeProblem): void {
  const answer = inferGenotypes(problem);
  const of = (role: "doe" | "buck", count: number): readonly AnimalId[] =>
    problem.members.flatMap((m) => (m.id.startsWith(role) ? [m.id] : [])).slice(-count);
  for (const buck of of("buck", PAIRS.bucks)) for (const doe of of("doe", PAIRS.does)) answer.kid(buck, doe);
}

function withOneReading(problem: PedigreeProblem): PedigreeProblem {
  const members = problem.members.map((m, i) =>
    i === problem.members.length - 1 ? { ...m, evidence: [...m.evidence, aFact("one more", [0.9, 0.8, 0.1])] } : m,
  );
  return { ...problem, members };
}
