import type { Animal } from "@pollard/records";

type Traits = Pick<Animal, "traits">;
type Said = Animal["traits"][number];

/** Trait under which a later look for both sexes is recorded: signs were seen, or a vet ruled intersex out. */
export const INTERSEX_TRAIT = { trait: "intersex-signs", seen: "seen", ruledOut: "ruled-out-by-vet" } as const;

/** The last look for both sexes after birth: what it found counts, and no earlier one. */
export const lastIntersexLook = ({ traits }: Traits): Said | undefined =>
  traits.findLast(
    ({ trait, value }) =>
      trait === INTERSEX_TRAIT.trait && (value === INTERSEX_TRAIT.seen || value === INTERSEX_TRAIT.ruledOut),
  );

/** Whether an animal was seen to be of both sexes: taken for it at birth, or at the last look since. */
export const showsBothSexes = (animal: Traits & Pick<Animal, "sex">): boolean =>
  animal.sex === "intersex" || lastIntersexLook(animal)?.value === INTERSEX_TRAIT.seen;
