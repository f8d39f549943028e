import { oncePer } from "@pollard/base";
import { item } from "../inference/cell.ts";
import { Lately } from "../inference/lately.ts";
import type { LayoutMemory } from "../inference/layout-memory.ts";
import { familiesOf } from "../pedigree/families.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { isSameFindings, isSamePedigree } from "../pedigree/sameness.ts";
import { soundFindings, type SoundProblem, soundProblem } from "../pedigree/sound-problem.ts";

/** A problem made sound, and the families of its pedigree. */
export interface KeptProblem {
  readonly problem: PedigreeProblem;
  readonly sound: SoundProblem;
  readonly families: readonly (readonly number[])[];
}

/** Loci whose last problem is kept with one memory; the one not asked for longest goes first. */
const MOST_PROBLEMS = 64;

/** The last problem at each locus; it goes with the memory of layouts that it was asked with. */
const problemsIn = oncePer<LayoutMemory, Lately<KeptProblem>>(() => new Lately(MOST_PROBLEMS));

/**
 * As `soundProblem` and `familiesOf`, but where nothing but findings differs from what was asked last at the locus the
 * pedigree is not looked through again, and a member of whom nothing changed is the very same as before.
 */
export const soundKept = (problem: PedigreeProblem, layouts: LayoutMemory): KeptProblem =>
  problemsIn(layouts).ask(
    problem.locus.id,
    (before) => (before && withNewFindings(before, problem)) ?? afresh(problem),
  );

function afresh(problem: PedigreeProblem): KeptProblem {
  const sound = soundProblem(problem);
  return { problem, sound, families: familiesOf(sound.members) };
}

/** Nothing where more than findings differs, or where findings are not, or were not, all sound: that is to be reported anew. */
function withNewFindings(before: KeptProblem, problem: PedigreeProblem): KeptProblem | undefined {
  const { sound, families } = before;
  if (sound.members.length !== problem.members.length || !isSamePedigree(before.problem, problem)) return undefined;
  if (sound.issues.some(({ code }) => code === "bad-likelihood")) return undefined;
  const members = sound.members.slice();
  for (const [i, member] of problem.members.entries()) {
    if (isSameFindings(item(before.problem.members, i).evidence, member.evidence)) continue;
    const evidence = soundFindings(member, problem.locus);
    if (evidence.length !== member.evidence.length) return undefined;
    members[i] = { ...item(sound.members, i), evidence };
  }
  return { problem, families, sound: { ...sound, locus: problem.locus, members } };
}
