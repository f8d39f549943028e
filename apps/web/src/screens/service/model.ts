import type { AnimalLine, ServiceAsked } from "@pollard/advice";
import { type Day, daysFrom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { Fact, ServiceWay } from "@pollard/records";

export interface ServiceAnswers {
  readonly doe?: string;
  readonly bucks: readonly string[];
  readonly way?: ServiceWay;
  readonly on?: Day;
  readonly until?: Day;
}

/** The fact, once doe, buck, way and day are there; a pen period ends no earlier than it begins. */
export function serviceFact(answers: ServiceAnswers): Fact | undefined {
  const { doe, bucks, way, on, until } = answers;
  if (doe === undefined || bucks.length === 0 || way === undefined || on === undefined) return undefined;
  const end = way === "pen" && until !== undefined && daysFrom(on, until) >= 0 ? { until } : {};
  return { kind: "service", on, body: { doe: animalId(doe), bucks: bucks.map(animalId), way, ...end } };
}

/** What is still to be said of a mating. */
export const serviceMissing = ({
  doe,
  bucks,
  way,
  on,
}: ServiceAnswers): readonly ("doe" | "bucks" | "way" | "on")[] => [
  ...(doe === undefined ? (["doe"] as const) : []),
  ...(bucks.length === 0 ? (["bucks"] as const) : []),
  ...(way === undefined ? (["way"] as const) : []),
  ...(on === undefined ? (["on"] as const) : []),
];

/** Are the doe and one of the bucks both polled, as seen or as believed? Such pairs can give intersex kids. */
export function bothPolled(answers: ServiceAnswers, goats: readonly AnimalLine[]): boolean {
  const polled = (id: string): boolean => goats.some((goat) => goat.ref.id === id && goat.head === "polled");
  return answers.doe !== undefined && polled(answers.doe) && answers.bucks.some(polled);
}

/** What is asked about the mating as far as it is told, as of its day, else today; `undefined` while there is no doe. */
export const cautionsAsked = ({ doe, bucks, on }: ServiceAnswers, today: Day): ServiceAsked | undefined =>
  doe === undefined ? undefined : { doe: animalId(doe), bucks: bucks.map(animalId), on: on ?? today };
