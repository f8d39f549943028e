import type { Day } from "@pollard/base";
import type { Sided } from "@pollard/husbandry";
import type { KidAdvice, WeighedFact, WeighedFactKind } from "@pollard/advice";
import { type Loudness, loudnessOf } from "../where-words-change.ts";
import type { AdviceSaid } from "../words.ts";
import { sayDay } from "./days.ts";

const SIGN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  feel: {
    nothing: "No bump felt",
    rounded: "Low, rounded bump",
    pointed: "Pointed bump",
    "tip-through": "Horn tip has come through",
  },
  skin: { slides: "Skin slides freely", "slides-a-little": "Skin slides a little", "held-fast": "Skin held fast" },
  whorls: { none: "No hair whorl", unclear: "Unclear hair whorl", clear: "Clear hair whorl" },
  crown: { "rounded-cap": "Hair makes a rounded cap", unclear: "Crown of hair unclear", flat: "Hair lies flat" },
};

const VET: Record<string, string> = {
  bud: "The vet found a bud",
  "no-bud": "The vet found no bud",
  unsure: "The vet was not sure",
};

const GREW: Record<string, string> = {
  nothing: "Nothing grew",
  knob: "A bony knob grew",
  scur: "A scur grew",
  horn: "A horn grew",
  "soft-lump": "A soft lump grew",
  unsure: "Not sure what grew",
};

/** A finding per side in one phrase; both sides alike are said once. */
function sided(finding: Sided<string>, words: Readonly<Record<string, string>>): string {
  const say = (value: string): string => words[value] ?? value;
  if ("both" in finding) return say(finding.both);
  const { left, right } = finding;
  if (left !== undefined && left === right) return `${say(left)}, both sides`;
  const sides = [left === undefined ? "" : `left: ${say(left)}`, right === undefined ? "" : `right: ${say(right)}`];
  return sides.filter((side) => side !== "").join("; ");
}

/** The fact itself, without what it means. */
export function sayFact(fact: WeighedFactKind): string {
  switch (fact.kind) {
    case "pedigree":
      return "Its parents and relatives";
    case "sign":
      return sided(fact.finding, SIGN[fact.sign] ?? {});
    case "vet-finding":
      return sided(fact.finding, VET);
    case "growth":
      return sided(fact.finding, GREW);
    case "dna-test":
      return `DNA test: ${fact.finding}`;
    case "other":
      return "Other facts on record";
  }
}

const LOUDNESS: Readonly<Record<Loudness, string>> = {
  strongly: "strongly",
  clearly: "clearly",
  "a-little": "a little",
};

/** One fact and which way it speaks. */
export function sayWeighed({ fact, logOdds }: WeighedFact): string {
  const loudness = loudnessOf(logOdds);
  const says =
    loudness === undefined
      ? "says little either way"
      : `speaks ${LOUDNESS[loudness]} for ${logOdds > 0 ? "horns" : "hornless"}`;
  return `${sayFact(fact)}: ${says}.`;
}

/** What to do about a kid's head, by when, and why. */
export function sayAdvice(advice: KidAdvice, today: Day): AdviceSaid {
  switch (advice.kind) {
    case "read-head":
      return {
        title: "Read this kid's head",
        when: `by ${sayDay(advice.by, today)}`,
        why: "Nobody has read this head yet.",
      };
    case "finish-reading":
      return {
        title: "Finish reading this head",
        when: `by ${sayDay(advice.by, today)}`,
        why: "The last reading found nothing to go by.",
      };
    case "leave":
      return {
        title: "Leave this head alone",
        when: undefined,
        why: "Hornless is likely enough. An operation would probably be needless.",
      };
    case "look-again":
      return {
        title: "Look again",
        when: advice.day === undefined ? undefined : sayDay(advice.day, today),
        why: "Another look tells more, and there is time for it.",
      };
    case "vet-list":
      return {
        title: "Put this kid on the vet's list",
        when:
          advice.day === undefined
            ? undefined
            : `${advice.visit === "planned" ? "visit" : "ask the vet to come"} ${sayDay(advice.day, today)}`,
        why: "Horns are likely enough, and the window is short.",
      };
    case "ring-vet":
      return {
        title: "Ring the vet",
        when: "now",
        why:
          advice.end < today
            ? "The safe window is past. Only the vet can say what is kind now."
            : "No visit fits before the window ends. Only the vet can help now.",
      };
    case "done":
      return { title: DONE[advice.what], when: undefined, why: "Nothing to decide about this head." };
  }
}

const DONE: Record<Extract<KidAdvice, { kind: "done" }>["what"], string> = {
  disbudded: "Disbudded",
  "left-alone": "Left alone, as you chose",
  "outcome-known": "What grew is known",
  "left-herd": "Has left the herd",
  "born-dead": "Born dead",
  grown: "Grown",
};
