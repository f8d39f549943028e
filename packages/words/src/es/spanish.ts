import type { AnimalRef } from "@pollard/advice";
import type { AnimalId } from "@pollard/genetics";
import type { Words } from "../words.ts";
import { sayAnimal, sayGenotype } from "./animals.ts";
import { CAUTIONS } from "./cautions.ts";
import { sayCounted, sayHorns } from "./chances.ts";
import { sayDay, sayDaysFrom } from "./days.ts";
import { sayAdvice, sayFact, sayWeighed } from "./heads.ts";
import { decimal } from "./numbers.ts";
import { sayProblem } from "./problems.ts";
import { sayCall, sayLesson, sayReader, sayRegrowth } from "./score.ts";
import { sayTask, sayUrgency } from "./today.ts";

/** Las respuestas en español. `nameOf`: cómo se llama un animal por su número interno. */
export function spanish(nameOf: (id: AnimalId) => AnimalRef): Words {
  return {
    language: "es",
    label: sayAnimal,
    day: sayDay,
    daysFrom: sayDaysFrom,
    number: decimal,
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
