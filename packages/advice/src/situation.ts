import type { Day } from "@pollard/base";
import { type AnimalId, type LayoutMemory, layoutMemory } from "@pollard/genetics";
import { type Animal, type Herd, type HerdProblem, withSameAnimals } from "@pollard/records";
import { type Beliefs, believe } from "./belief/beliefs.ts";
import { headAdvice, inOrderOfEnd, type OpenHead } from "./heads/head-advice.ts";
import { type HeadLearner, headLearner } from "./heads/learnt-heads.ts";
import type { KidAdvice } from "./heads/kid-models.ts";
import { kidsByParent } from "./belief/kids-by-parent.ts";
import { withPenServices } from "./season/pen-services.ts";

/** The herd as recorded, what is believed of it, and the day: everything that any answer is made from. */
export interface Situation {
  readonly herd: Herd;
  readonly recordProblems: readonly HerdProblem[];
  readonly beliefs: Beliefs;
  readonly today: Day;
  /** Layouts of inferences over this herd, for whoever infers more. */
  readonly layouts: LayoutMemory;
  /** What to do about one animal's head today; `undefined` where its birth date is not on record. Worked out once. */
  advice(id: AnimalId): KidAdvice | undefined;
  /** The kids of an animal, oldest first: a dam's by the record, a buck's where he is more likely the sire than not. */
  kidsOf(id: AnimalId): readonly Animal[];
  /** The heads that still matter today, the end of whose window comes first, first. */
  openHeads(): readonly OpenHead[];
}

/** What is worth keeping from one situation of a herd for the next: a new entry changes little of either. */
export interface Kept {
  readonly learn: HeadLearner;
  readonly layouts: LayoutMemory;
}

/** What a device has worked out before it has been asked anything: nothing. */
export const nothingKept = (): Kept => ({ learn: headLearner(), layouts: layoutMemory() });

/**
 * Everything an answer needs, worked out once for all screens, so that no two of them can disagree.
 *
 * Heads are learnt first, from what was found later on kids that were read, and every answer is made with those tables.
 *
 * Cost: one inference over the whole herd, and one decision for each kid whose head still matters, when it is first asked for.
 */
export function situationOf(
  folded: { readonly herd: Herd; readonly problems: readonly HerdProblem[] },
  today: Day,
  { learn, layouts }: Kept = nothingKept(),
): Situation {
  const whole = withSameAnimals(folded);
  const herd = withPenServices(whole.herd, today);
  const beliefs = believe(herd, learn(herd), layouts);
  const known = new Map<AnimalId, KidAdvice | undefined>();
  const advice = (id: AnimalId): KidAdvice | undefined => {
    if (!known.has(id)) {
      const animal = herd.animals.get(id);
      known.set(id, animal === undefined ? undefined : headAdvice(herd, beliefs, animal, today));
    }
    return known.get(id);
  };
  let open: readonly OpenHead[] | undefined;
  const openHeads = (): readonly OpenHead[] => {
    open ??= inOrderOfEnd(
      [...herd.animals.values()].flatMap((animal) => {
        const found = advice(animal.id);
        return found === undefined || found.kind === "done" ? [] : [{ animal, advice: found }];
      }),
    );
    return open;
  };
  let kids: ReadonlyMap<AnimalId, readonly Animal[]> | undefined;
  const kidsOf = (id: AnimalId): readonly Animal[] => {
    kids ??= kidsByParent(herd, beliefs);
    return kids.get(id) ?? [];
  };
  return { herd, recordProblems: whole.problems, beliefs, today, layouts, advice, kidsOf, openHeads };
}
