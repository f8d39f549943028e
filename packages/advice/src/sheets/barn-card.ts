import type { Day } from "@pollard/base";
import { animalRef } from "../animal-ref.ts";
import type { AnimalRef } from "../animal-ref.ts";
import { expectedDoes } from "../season/pregnancies.ts";
import { herdNameOf } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { latestChoice } from "../today/vet-list.ts";

/** A blank card for the barn: the does due next stand on it already, the rest is written by hand and typed in later. */
export interface BarnCardModel {
  readonly today: Day;
  readonly herdName: string | undefined;
  readonly due: readonly { readonly doe: AnimalRef; readonly from: Day; readonly to: Day }[];
  /** Kids whose heads are to be read, so that their names need not be written. */
  readonly heads: readonly AnimalRef[];
}

/** Does, and kids, that fit on one side with room to write. */
const DUE_SHOWN = 5;
const HEADS_SHOWN = 4;

/** The does due next and the heads to read next, as many as fit on a card. */
export function barnCard(situation: Situation): BarnCardModel {
  return {
    today: situation.today,
    herdName: herdNameOf(situation.herd),
    due: expectedDoes(situation)
      .flatMap(({ doe, days }) => (days === undefined ? [] : [{ doe, from: days.from, to: days.to }]))
      .slice(0, DUE_SHOWN),
    heads: [...situation.openHeads()]
      .filter(({ animal, advice }) => RANK[advice.kind] !== undefined && latestChoice(animal)?.choice !== "vet-list")
      .sort((a, b) => (RANK[a.advice.kind] ?? 0) - (RANK[b.advice.kind] ?? 0))
      .slice(0, HEADS_SHOWN)
      .map(({ animal }) => animalRef(situation.herd, animal.id)),
  };
}

/** Heads nobody has read come first, then those to be looked at again. */
const RANK: Readonly<Record<string, number>> = { "read-head": 0, "finish-reading": 0, "look-again": 1 };
