import type { Day } from "@pollard/base";
import type { AdviceProblem, ProblemLocus } from "@pollard/advice";
import { type AnimalId, POLLED } from "@pollard/genetics";
import type { NameOf } from "../en/problems.ts";
import { LIKELY_WRONG_SIRE } from "../where-words-change.ts";
import type { ProblemSaid } from "../words.ts";
import { sayAnimal } from "./animals.ts";
import { del, el, sayDay } from "./days.ts";
import { list } from "./numbers.ts";
import { locusName, sayFindingProblem, sayLocusProblem } from "./loci.ts";

/** Un problema en palabras del criador. */
export function sayProblem(problem: AdviceProblem, today: Day, nameOf: NameOf): ProblemSaid {
  const name = (id: AnimalId): string => sayAnimal(nameOf(id));
  const day = (d: Day): string => sayDay(d, today);
  switch (problem.code) {
    case "unknown-animal":
      return {
        what: `Una entrada nombra a ${name(problem.animal)}, que no está en el rebaño.`,
        mend: "Añada ese animal, o corrija la entrada.",
      };
    case "born-twice":
      return {
        what: `${name(problem.animal)} consta dos veces como cría nacida.`,
        mend: "Conserve la entrada buena y tache la otra.",
      };
    case "two-with-one-tag":
      return {
        what: `El arete ${problem.tag} está en ${list(problem.animals.map(name))}.`,
        mend: "Mire la oreja y corrija uno de ellos.",
      };
    case "sire-is-no-buck":
      return {
        what: `${name(problem.sire)} consta como padre de ${name(problem.animal)} pero no es macho.`,
        mend: "Corrija el padre o el sexo. Hasta entonces el padre se toma por desconocido.",
      };
    case "dam-is-no-doe":
      return {
        what: `${name(problem.dam)} consta como madre de ${name(problem.animal)} pero no es cabra.`,
        mend: "Corrija la madre o el sexo. Hasta entonces la madre se toma por desconocida.",
      };
    case "own-ancestor":
      return {
        what: `${problem.animals.map(name).join(", ")}: uno sería su propio antepasado.`,
        mend: "Corrija los padres. Hasta entonces se omite un lazo.",
      };
    case "older-than-parent":
      return {
        what: `${name(problem.animal)} sería mayor que ${name(problem.parent)}, de quien nació.`,
        mend: "Corrija una de las fechas de nacimiento o el padre o madre.",
      };
    case "in-the-future":
      return {
        what: `Una entrada tiene la fecha ${del(day(problem.on))}, que aún no ha llegado.`,
        mend: "Corrija el día. ¿Está bien la fecha de este aparato?",
      };
    case "before-birth":
      return {
        what: `Una entrada de ${name(problem.animal)} es ${del(day(problem.on))}, antes de nacer.`,
        mend: "Corrija ese día o la fecha de nacimiento.",
      };
    case "after-departure":
      return {
        what: `Una entrada de ${name(problem.animal)} es posterior a su salida del rebaño.`,
        mend: "Corrija ese día, o tache la salida.",
      };
    case "ends-before-it-starts":
      return {
        what: `Un periodo de corral acaba ${el(day(problem.until))}, antes de empezar.`,
        mend: "Corrija uno de los dos días.",
      };
    case "corrects-nothing":
      return {
        what: "Una corrección nombra una entrada que no está aquí.",
        mend: "Puede estar aún en el otro aparato. Intercambie y mire otra vez.",
      };
    case "other-kind":
      return {
        what: "Una corrección no casa con la entrada que corrige.",
        mend: "Anote la corrección de nuevo desde la historia del animal.",
      };
    case "rival-corrections":
      return {
        what: `Una entrada se corrigió de ${problem.rivals.length} maneras distintas.`,
        mend: "Elija la buena. Hasta entonces vale la última.",
      };
    case "one-id-two-entries":
      return {
        what: "Dos entradas distintas llevan la misma marca.",
        mend: "Vale la primera. Anote la otra de nuevo si falta.",
      };
    case "other-herd":
      return {
        what: "Una entrada es de otro rebaño.",
        mend: "Se guarda pero no cuenta. Compruebe qué archivo abrió.",
      };
    case "too-new":
      return {
        what: "Una entrada la escribió una versión posterior de Pollard.",
        mend: "Se guarda. Actualice este aparato para leerla.",
      };
    case "cannot-be":
      return sayContradiction(problem, problem.animals.map(sayAnimal).join(", "));
    case "hard-to-believe":
      return sayDoubt(problem, sayAnimal(problem.animal));
    case "same-kid":
      return {
        what: `${list(problem.animals.map(sayAnimal))}: quizá una sola cría, anotada en los dos aparatos.`,
        mend: "Diga si es una cría o son dos. Nada se pierde.",
      };
    case "odd-gestation":
      return {
        what: `${sayAnimal(problem.animal)} parió a los ${problem.days} días, lo que no casa con la monta.`,
        mend: "Revise el día de la monta, el del parto y el macho.",
      };
    case "bad-locus":
      return {
        what: `Su carácter "${problem.locus}" no se puede usar. ${sayLocusProblem(problem.problem)}`,
        mend: "Corrija su descripción. Todo lo demás cuenta como antes.",
      };
    case "bad-frequencies":
      return {
        what: `${problem.locus}${problem.breed === undefined ? "" : ` (${problem.breed})`}: sus cifras para padres desconocidos no suman 100.`,
        mend: "Póngalas de nuevo en Caracteres seguidos. Hasta entonces valen las habituales.",
      };
    case "unreadable-finding":
      return {
        what: `${locusName(problem.locus)} de ${sayAnimal(problem.animal)}: ${sayFindingProblem(problem.problem)}`,
        mend: "Corrija esa entrada. Hasta entonces no dice nada.",
      };
  }
}

function sayContradiction(
  { what, locus }: Extract<AdviceProblem, { code: "cannot-be" }>,
  animals: string,
): ProblemSaid {
  const mend = "Revise los padres, luego las cabezas, luego las pruebas. El resto del rebaño sigue contando.";
  switch (what) {
    case "horned-kid-of-polled":
      return { what: `${animals}: una cría con cuernos no puede tener un padre PP.`, mend };
    case "polled-kid-of-horned":
      return { what: `${animals}: una cría mocha no puede tener dos padres con cuernos.`, mend };
    case "other":
      return { what: `${animals}: estos hechos no pueden ser ciertos a la vez. ${about(locus)}`.trim(), mend };
  }
}

function sayDoubt(
  { what, wrongSire, locus }: Extract<AdviceProblem, { code: "hard-to-believe" }>,
  animal: string,
): ProblemSaid {
  const mend =
    wrongSire >= LIKELY_WRONG_SIRE
      ? "Lo más probable es otro padre. Mire quién estaba en el corral."
      : "Revise este hallazgo, las pruebas y los padres. Uno estará mal.";
  switch (what) {
    case "horned-kid-of-polled":
      return { what: `${animal} tiene cuernos, difícil de creer con los padres anotados.`, mend };
    case "polled-kid-of-horned":
      return { what: `${animal} no tiene cuernos, difícil de creer con los padres anotados.`, mend };
    case "other":
      return { what: `Lo anotado de ${animal} no casa con sus parientes. ${about(locus)}`.trim(), mend };
  }
}

/** De qué carácter se trata, si no es de los cuernos. */
const about = (locus: ProblemLocus): string => (locus.id === POLLED.id ? "" : `Se trata de: ${locusName(locus)}.`);
