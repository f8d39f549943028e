import type { AnimalLine, AnimalRef, ServiceAsked } from "@pollard/advice";
import { addDays, type Day, daysFrom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { Fact, ServiceWay } from "@pollard/records";

export interface ServiceAnswers {
  /** Several where they ran with the buck together: each has a mating of her own. */
  readonly does: readonly string[];
  readonly bucks: readonly string[];
  readonly way?: ServiceWay;
  readonly on?: Day;
  readonly until?: Day;
}

/**
 * The facts, one a doe, once does, bucks, way and day are there.
 *
 * A spell in a pen has its end, no earlier than it begins: without one it would count as one day, and every doe that took
 * later would be expected weeks too soon.
 */
export function serviceFacts(answers: ServiceAnswers): readonly Fact[] | undefined {
  const { does, bucks, way, on, until } = answers;
  if (way === undefined || on === undefined || serviceMissing(answers).length > 0) return undefined;
  const end = way === "pen" && until !== undefined ? { until } : {};
  return does.map((doe) => ({
    kind: "service",
    on,
    body: { doe: animalId(doe), bucks: bucks.map(animalId), way, ...end },
  }));
}

/** What is still to be said of a mating. */
export const serviceMissing = ({
  does,
  bucks,
  way,
  on,
  until,
}: ServiceAnswers): readonly ("does" | "bucks" | "way" | "on" | "until")[] => [
  ...(does.length === 0 ? (["does"] as const) : []),
  ...(bucks.length === 0 ? (["bucks"] as const) : []),
  ...(way === undefined ? (["way"] as const) : []),
  ...(on === undefined ? (["on"] as const) : []),
  ...(way === "pen" && !(on !== undefined && until !== undefined && daysFrom(on, until) >= 0)
    ? (["until"] as const)
    : []),
];

/** How long a buck usually stays with his does: one round of heats, or two. Common practice, no source. */
const STAYS_WEEKS = [3, 6] as const;

/** The days on which a spell in a pen may end, with how many weeks that is; today too, where it began before. */
export const penEnds = (
  on: Day | undefined,
  today: Day,
): readonly { readonly day: Day; readonly weeks: number | undefined }[] => [
  ...(on !== undefined && on < today ? [{ day: today, weeks: undefined }] : []),
  ...STAYS_WEEKS.map((weeks) => ({ day: addDays(on ?? today, weeks * 7), weeks })),
];

/** The polled does and the polled bucks, as seen or as believed, where there are both: such pairs can give intersex kids. */
export function bothPolled(answers: ServiceAnswers, goats: readonly AnimalLine[]): readonly AnimalRef[] {
  const polled = (ids: readonly string[]): readonly AnimalRef[] =>
    goats.filter((goat) => ids.includes(goat.ref.id) && goat.head === "polled").map(({ ref }) => ref);
  const [does, bucks] = [polled(answers.does), polled(answers.bucks)];
  return does.length === 0 || bucks.length === 0 ? [] : [...does, ...bucks];
}

/** What is asked about the mating as far as it is told, a doe at a time, as of its day, else today. */
export const cautionsAsked = ({ does, bucks, on }: ServiceAnswers, today: Day): readonly ServiceAsked[] =>
  does.map((doe) => ({ doe: animalId(doe), bucks: bucks.map(animalId), on: on ?? today }));
