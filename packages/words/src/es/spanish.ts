import type { AnimalRef } from "@pollard/advice";
import type { WeightUnit } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { orderOf } from "../collation.ts";
import type { Words } from "../words.ts";
import { sayAnimal, sayGenotype } from "./animals.ts";
import { CAUTIONS } from "./cautions.ts";
import { sayCounted, sayHorns } from "./chances.ts";
import { sayDay, sayDaysFrom } from "./days.ts";
import { sayAdvice, sayFact, sayWeighed } from "./heads.ts";
import { decimal, list } from "./numbers.ts";
import { sayProblem } from "./problems.ts";
import { sayCall, sayLesson, sayReader, sayRegrowth } from "./score.ts";
import { sayTask, sayUrgency } from "./today.ts";
import { weights } from "./weights.ts";

const inOrder = orderOf("es");

/** Las respuestas en español. `nameOf`: cómo se llama un animal por su número interno. */
export function spanish(nameOf: (id: AnimalId) => AnimalRef, unit: WeightUnit = "kg"): Words {
  return {
    language: "es",
    label: sayAnimal,
    day: sayDay,
    daysFrom: sayDaysFrom,
    number: decimal,
    inOrder,
    named: list,
    counted: sayCounted,
    horns: sayHorns,
    urgency: sayUrgency,
    task: (task, today) => sayTask(task, today, weights(unit)),
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
