import type { AnimalLine } from "@pollard/advice";
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

/** Youngest age at which a goat is offered for a mating, days: a doe kid can conceive at three months (a bit before, to be safe). */
const YOUNGEST_DAYS = 80;

/** Is it here, and old enough that a mating can have been seen? */
export const mayBreed = (goat: AnimalLine, today: Day): boolean =>
  !goat.gone && (goat.born === undefined || daysFrom(goat.born, today) >= YOUNGEST_DAYS);

/** Are the doe and one of the bucks both polled, as seen or as believed? Such pairs can give intersex kids. */
export function bothPolled(answers: ServiceAnswers, goats: readonly AnimalLine[]): boolean {
  const polled = (id: string): boolean => goats.some((goat) => goat.ref.id === id && goat.head === "polled");
  return answers.doe !== undefined && polled(answers.doe) && answers.bucks.some(polled);
}
