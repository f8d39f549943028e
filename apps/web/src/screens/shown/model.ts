import type { VetListLine, VetListModel } from "@pollard/advice";
import type { PeerFailure } from "@pollard/records";
import type { ShownVisit } from "../../adapters/hub/hub-shown.ts";

/** Why the hub did not do what was asked: it is away, or this phone may not. */
export const whyNotShown = (failure: PeerFailure): "notYours" | "away" =>
  failure.code === "peer-refused" && (failure.status === 401 || failure.status === 403) ? "notYours" : "away";

/** The address that a guest is given. */
export const guestAddress = (made: { readonly path: string; readonly reach: string | null }, here: string): string =>
  new URL(made.path, made.reach ?? here).href;

/**
 * The list as the vet's phone gets it: every kid on it, those to be looked at first too, said by `say` in plain sentences.
 *
 * Nothing else leaves the herd: no pedigree, no other goat, no chance of horns that was not asked for.
 */
export function shownVisit(
  model: VetListModel,
  herd: string,
  say: {
    readonly name: (line: VetListLine) => string;
    readonly lines: (line: VetListLine) => readonly string[];
    readonly caution: (code: VetListModel["cautions"][number]) => string;
  },
): ShownVisit {
  const kids = [...model.list, ...model.lookFirst];
  return {
    herd,
    kids: kids.map((line) => ({ kid: line.kid.id, name: say.name(line), lines: say.lines(line) })),
    cautions: model.cautions.map(say.caution),
  };
}
