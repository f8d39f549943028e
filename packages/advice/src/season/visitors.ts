import { addDays, type Day } from "@pollard/base";
import {
  ABORTION_CAUTIONS,
  type AbortionCaution,
  CAUTIONS_STAY_DAYS,
  VISITOR_CAUTIONS,
  type VisitorCaution,
} from "@pollard/husbandry";
import { herdNameOf } from "../settings.ts";
import type { Situation } from "../situation.ts";
import { kiddingDays } from "./pregnancies.ts";

/** Whether people must be careful among the goats today, and why. */
export interface VisitorsModel {
  readonly today: Day;
  readonly herdName: string | undefined;
  /** Open from the first day on which a doe may kid until some weeks after the last birth or loss. */
  readonly state: "open" | "closed";
  /** Since when and until when, as far as is known today. */
  readonly from: Day | undefined;
  readonly to: Day | undefined;
  readonly cautions: readonly VisitorCaution[];
  /** Only after a loss of kids that is not long past. */
  readonly afterLoss: readonly AbortionCaution[];
  readonly rule: string;
}

/** Cautions for visitors and keepers while kids are born, and for some weeks after. */
export function visitorsModel({ herd, today }: Situation): VisitorsModel {
  const stay = CAUTIONS_STAY_DAYS.value;
  const spans: { from: Day; to: Day }[] = [];
  for (const animal of herd.animals.values()) {
    if (animal.departure === undefined) {
      const days = kiddingDays(herd, animal.id);
      if (days !== undefined) spans.push({ from: days.from, to: addDays(days.to, stay) });
    }
    for (const { on } of animal.abortions) spans.push({ from: on, to: addDays(on, stay) });
  }
  for (const { on } of herd.kiddings) spans.push({ from: on, to: addDays(on, stay) });
  const { open, from, to } = together(spans, today);
  const lost = [...herd.animals.values()].some((a) =>
    a.abortions.some(({ on }) => on <= today && addDays(on, stay) >= today),
  );
  return {
    today,
    herdName: herdNameOf(herd),
    state: open ? "open" : "closed",
    from,
    to,
    cautions: VISITOR_CAUTIONS.map(({ code }) => code),
    afterLoss: lost ? ABORTION_CAUTIONS.map(({ code }) => code) : [],
    rule: "AD-41",
  };
}

/** The stretch of days without a gap that holds today, or else the next one. */
function together(spans: readonly { readonly from: Day; readonly to: Day }[], today: Day) {
  const rising = spans.toSorted((a, b) => (a.from < b.from ? -1 : 1));
  let current: { from: Day; to: Day } | undefined;
  for (const { from, to } of rising) {
    if (current === undefined || from > addDays(current.to, 1)) {
      if (current !== undefined && current.to >= today) break;
      current = { from, to };
    } else if (to > current.to) current = { from: current.from, to };
  }
  if (current === undefined || current.to < today) return { open: false, from: undefined, to: undefined };
  return { open: current.from <= today, from: current.from, to: current.to };
}
