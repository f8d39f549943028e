import type { AnimalRef } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import type { Words } from "../words.ts";
import { sayAnimal, sayGenotype } from "./animals.ts";
import { CAUTIONS } from "./cautions.ts";
import { sayCounted, sayHorns } from "./chances.ts";
import { sayDay, sayDaysFrom } from "./days.ts";
import { sayAdvice, sayFact, sayWeighed } from "./heads.ts";
import { sayProblem } from "./problems.ts";
import { sayCall, sayLesson, sayReader, sayRegrowth } from "./score.ts";
import { sayTask, sayUrgency } from "./today.ts";

/**
 * The English wording.
 *
 * `nameOf` turns an animal's id into what it is called, since a problem in the record knows ids only.
 */
export function english(nameOf: (id: AnimalId) => AnimalRef): Words {
  return {
    language: "en",
    label: sayAnimal,
    day: sayDay,
    daysFrom: sayDaysFrom,
    number: (n, places) => (places === undefined ? String(n) : n.toFixed(places)),
    counted: sayCounted,
    horns: sayHorns,
    urgency: sayUrgency,
    task: sayTask,
    advice: sayAdvice,
    weighed: sayWeighed,
    finding: (sign, finding) => sayFact({ kind: "sign", sign, finding }),
    call: sayCall,
    reader: sayReader,
    lesson: sayLesson,
    regrowth: sayRegrowth,
    genotype: sayGenotype,
    problem: (problem, today) => sayProblem(problem, today, nameOf),
    caution: (code) => CAUTIONS[code],
  };
}
