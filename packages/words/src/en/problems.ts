import type { Day } from "@pollard/base";
import type { AdviceProblem, AnimalRef, ProblemLocus } from "@pollard/advice";
import { type AnimalId, POLLED } from "@pollard/genetics";
import { LIKELY_WRONG_SIRE } from "../where-words-change.ts";
import type { ProblemSaid } from "../words.ts";
import { sayAnimal } from "./animals.ts";
import { sayDay } from "./days.ts";
import { locusName, sayFindingProblem, sayLocusProblem } from "./loci.ts";

/** How a problem's animals are named: ids alone mean nothing to a keeper. */
export type NameOf = (id: AnimalId) => AnimalRef;

/** A problem in the keeper's words. */
export function sayProblem(problem: AdviceProblem, today: Day, nameOf: NameOf): ProblemSaid {
  const name = (id: AnimalId): string => sayAnimal(nameOf(id));
  const day = (d: Day): string => sayDay(d, today);
  switch (problem.code) {
    case "unknown-animal":
      return {
        what: `An entry names ${name(problem.animal)}, which is not in the herd.`,
        mend: "Add that animal, or correct the entry.",
      };
    case "born-twice":
      return {
        what: `${name(problem.animal)} is entered as born twice.`,
        mend: "Keep the right entry and strike the other.",
      };
    case "two-with-one-tag":
      return {
        what: `Tag ${problem.tag} is on ${problem.animals.map(name).join(" and ")}.`,
        mend: "Look at the ear and correct one of them.",
      };
    case "sire-is-no-buck":
      return {
        what: `${name(problem.sire)} stands as sire of ${name(problem.animal)} but is no buck.`,
        mend: "Correct the sire or the sex. Until then the sire counts as unknown.",
      };
    case "dam-is-no-doe":
      return {
        what: `${name(problem.dam)} stands as dam of ${name(problem.animal)} but is no doe.`,
        mend: "Correct the dam or the sex. Until then the dam counts as unknown.",
      };
    case "own-ancestor":
      return {
        what: `${problem.animals.map(name).join(", ")}: one would be its own ancestor.`,
        mend: "Correct the parents. Until then one link is left out.",
      };
    case "older-than-parent":
      return {
        what: `${name(problem.animal)} would be older than its parent ${name(problem.parent)}.`,
        mend: "Correct one of the birth dates or the parent.",
      };
    case "in-the-future":
      return {
        what: `An entry is dated ${day(problem.on)}, which has not come yet.`,
        mend: "Correct the day. Is this device's date right?",
      };
    case "before-birth":
      return {
        what: `An entry for ${name(problem.animal)} is dated ${day(problem.on)}, before its birth.`,
        mend: "Correct that day or the birth date.",
      };
    case "after-departure":
      return {
        what: `An entry for ${name(problem.animal)} is dated after it left the herd.`,
        mend: "Correct that day, or strike the departure.",
      };
    case "ends-before-it-starts":
      return {
        what: `A pen period ends ${day(problem.until)}, before it starts.`,
        mend: "Correct one of the two days.",
      };
    case "corrects-nothing":
      return {
        what: "A correction names an entry that is not here.",
        mend: "It may still be on the other device. Hand over, then look again.",
      };
    case "other-kind":
      return {
        what: "A correction does not fit the entry it corrects.",
        mend: "Enter the correction again from the animal's history.",
      };
    case "rival-corrections":
      return {
        what: `One entry was corrected in ${problem.rivals.length} different ways.`,
        mend: "Choose which one is right. Until then the later one counts.",
      };
    case "one-id-two-entries":
      return {
        what: "Two different entries carry the same mark.",
        mend: "The first one counts. Enter the other again if it is missing.",
      };
    case "other-herd":
      return {
        what: "An entry belongs to another herd.",
        mend: "It is kept but not counted. Check which file you opened.",
      };
    case "too-new":
      return {
        what: "An entry was written by a later version of Pollard.",
        mend: "It is kept. Update this device to read it.",
      };
    case "cannot-be":
      return sayContradiction(problem, problem.animals.map(sayAnimal).join(", "));
    case "hard-to-believe":
      return sayDoubt(problem, sayAnimal(problem.animal));
    case "same-kid":
      return {
        what: `${problem.animals.map(sayAnimal).join(" and ")} may be one kid, entered on both devices.`,
        mend: "Say whether it is one kid or two. Nothing is lost either way.",
      };
    case "odd-gestation":
      return {
        what: `${sayAnimal(problem.animal)} kidded after ${problem.days} days, which does not fit the service.`,
        mend: "Check the day of service, the day of birth and the buck.",
      };
    case "bad-locus":
      return {
        what: `Your locus "${problem.locus}" cannot be used. ${sayLocusProblem(problem.problem)}`,
        mend: "Correct its description. Everything else counts as before.",
      };
    case "bad-frequencies":
      return {
        what: `${problem.locus}${problem.breed === undefined ? "" : ` (${problem.breed})`}: your figures for unknown parents do not make 100.`,
        mend: "Set them again under Traits followed. Until then the usual ones count.",
      };
    case "unreadable-finding":
      return {
        what: `${locusName(problem.locus)} of ${sayAnimal(problem.animal)}: ${sayFindingProblem(problem.problem)}`,
        mend: "Correct that entry. Until then it says nothing.",
      };
  }
}

function sayContradiction(
  { what, locus }: Extract<AdviceProblem, { code: "cannot-be" }>,
  animals: string,
): ProblemSaid {
  const mend = "Check the parents, then the heads, then the tests. The rest of the herd still counts.";
  switch (what) {
    case "horned-kid-of-polled":
      return { what: `${animals}: a horned kid cannot have a parent with two polled genes.`, mend };
    case "polled-kid-of-horned":
      return { what: `${animals}: a polled kid cannot have two horned parents.`, mend };
    case "other":
      return { what: `${animals}: these facts cannot all be true. ${about(locus)}`.trim(), mend };
  }
}

function sayDoubt(
  { what, wrongSire, locus }: Extract<AdviceProblem, { code: "hard-to-believe" }>,
  animal: string,
): ProblemSaid {
  const mend =
    wrongSire >= LIKELY_WRONG_SIRE
      ? "A wrong sire is the likeliest reason. Check who was in the pen."
      : "Check this finding, the tests and the parents. One of them is likely wrong.";
  switch (what) {
    case "horned-kid-of-polled":
      return { what: `${animal} is horned, which its recorded parents make hard to believe.`, mend };
    case "polled-kid-of-horned":
      return { what: `${animal} is polled, which its recorded parents make hard to believe.`, mend };
    case "other":
      return { what: `What is on record for ${animal} does not fit its relatives. ${about(locus)}`.trim(), mend };
  }
}

/** Which trait it is about, where it is not horns. */
const about = (locus: ProblemLocus): string => (locus.id === POLLED.id ? "" : `It is about: ${locusName(locus)}.`);
