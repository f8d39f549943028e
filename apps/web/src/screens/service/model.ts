import type { AnimalLine, AnimalRef, ServiceAsked } from "@pollard/advice";
import { addDays, type Day, daysFrom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { Fact, ServiceWay } from "@pollard/records";
import type { Screens, Words } from "@pollard/words";

export interface ServiceAnswers {
  /** Several where they ran with the buck together: each has a mating of her own. */
  readonly does: readonly string[];
  readonly bucks: readonly string[];
  readonly way?: ServiceWay;
  readonly on?: Day;
  readonly until?: Day;
}

/** Under what a mating that was begun without a goat's page is kept. */
export const NO_GOAT = "new";

/**
 * Answers stored by this or an earlier version of the app; `undefined` if they are something else. Of the goats only those
 * that can still be chosen are taken: nobody is mated whom the page does not show.
 */
export function readService(stored: unknown, offered: readonly AnimalLine[]): ServiceAnswers | undefined {
  const draft = stored as Partial<ServiceAnswers> | undefined;
  if (!Array.isArray(draft?.does) || !Array.isArray(draft.bucks)) return undefined;
  const still = (ids: readonly string[]): readonly string[] =>
    ids.filter((id) => offered.some((goat) => goat.ref.id === id));
  return { ...draft, does: still(draft.does), bucks: still(draft.bucks) };
}

/** The mating in a phrase: which does, with which buck or with which of several. */
export function matingSaid(
  s: Screens,
  words: Words,
  { does, bucks }: ServiceAnswers,
  goats: readonly AnimalLine[],
): string {
  const labels = (ids: readonly string[]): readonly string[] =>
    goats.filter((goat) => ids.includes(goat.ref.id)).map(({ ref }) => words.label(ref));
  return s.service.said(words.named(labels(does)), labels(bucks).join(s.plan.orJoin));
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

/** What is asked about a mating, in this order. */
export const SERVICE_FIELDS = ["does", "bucks", "way", "on", "until"] as const;
export type ServiceField = (typeof SERVICE_FIELDS)[number];

/** What is still to be said of a mating. */
export const serviceMissing = ({ does, bucks, way, on, until }: ServiceAnswers): readonly ServiceField[] => [
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
