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
import { list } from "./names.ts";
import { sayProblem } from "./problems.ts";
import { sayCall, sayLesson, sayReader, sayRegrowth } from "./score.ts";
import { sayTask, sayUrgency } from "./today.ts";
import { weights } from "./weights.ts";

const inOrder = orderOf("en");

/**
 * The English wording.
 *
 * `nameOf` turns an animal's id into what it is called, since a problem in the record knows ids only.
 */
export function english(nameOf: (id: AnimalId) => AnimalRef, unit: WeightUnit = "kg"): Words {
  return {
    language: "en",
    label: sayAnimal,
    day: sayDay,
    daysFrom: sayDaysFrom,
    number: (n, places) => (places === undefined ? String(n) : n.toFixed(places)),
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
