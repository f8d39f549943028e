import { present, type Random } from "@pollard/base";
import { stateDrawer } from "../inference/whole-states.ts";
import type { AnimalId, ChromosomalSex } from "../vocabulary.ts";
import { familiesOf } from "../pedigree/families.ts";
import type { GenotypeAnswer } from "../genotypes/genotype-answer.ts";
import { genotypeNetwork } from "../genotypes/genotype-network.ts";
import { ownEvidence } from "../genotypes/own-evidence.ts";
import type { PedigreeProblem } from "../pedigree/pedigree-problem.ts";
import { withoutFacts } from "./questions.ts";
import { type SoundMember, soundProblem } from "../pedigree/sound-problem.ts";
import { type State, type StateSpaces, stateSpaces } from "../genotypes/state-space.ts";

/** One animal as it was drawn. */
export interface DrawnAnimal {
  /** Place in `genotypesOf(locus)`. */
  readonly genotype: number;
  readonly sex: ChromosomalSex;
}

/** Draws a whole herd: every animal's genotype and sex at once, fitting each other and everything known. */
export type HerdDrawer = (random: Random) => ReadonlyMap<AnimalId, DrawnAnimal>;

/** Cells of the tables of one family. */
const CELLS = 1 << 22;

/**
 * A drawer of herds as they may really be, each as often as it is probable: the start of a simulation.
 *
 * Shape:   `undefined` where a family is too entangled for exact draws.
 * Cost:    tables once, as for an exact answer; then a few steps per animal and draw.
 * Source:  [dawid1992]; rule GE-32.
 */
export function herdDrawer(problem: PedigreeProblem, answer: GenotypeAnswer): HerdDrawer | undefined {
  const aside = new Set(answer.conflicts.flatMap((c) => c.setAside));
  const { locus, members } = soundProblem(withoutFacts(problem, aside));
  const families = familiesOf(members).map((family) => {
    const network = genotypeNetwork(locus, members, family);
    return { family, network, draw: stateDrawer(network.graph, CELLS) };
  });
  if (families.some((f) => f.draw === undefined)) return undefined;
  const spaces = stateSpaces(locus);
  return (random) => {
    const herd = new Map<AnimalId, DrawnAnimal>();
    for (const { family, network, draw } of families) {
      const states = present(draw, "a drawer")(random);
      for (const i of family) {
        const at = present(states[present(network.variables.get(i), "a variable")], "a state");
        const state = present(network.spaces.get(i)?.states[at], "a state of the space");
        const member = present(members[i], "a member");
        herd.set(member.id, { genotype: state.genotype, sex: state.sex ?? sexDrawn(spaces, member, state, random) });
      }
    }
    return herd;
  };
}

/** Given its genotype, an animal's sex depends on its own evidence alone. */
function sexDrawn(
  spaces: StateSpaces,
  { xx, evidence }: SoundMember,
  { within }: State,
  random: Random,
): ChromosomalSex {
  const [female, male] = [spaces.XX, spaces.XY].map((space) => ownEvidence(space, xx, evidence)[within]);
  return random.next() < 1 / (1 + Math.exp((male ?? 0) - (female ?? 0))) ? "XX" : "XY";
}
