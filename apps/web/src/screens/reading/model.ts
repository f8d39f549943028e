import type { Day } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { BUD_FEELS, CROWNS, type HeadSigns, SKIN_HOLDS, WHORLS } from "@pollard/husbandry";
import type { Fact } from "@pollard/records";

/** The signs in the order in which they are asked: fingers first, hair last. */
export const SIGNS = ["feel", "skin", "whorls", "crown"] as const;
export type Sign = (typeof SIGNS)[number];
export type Side = "both" | "left" | "right";

/** The answers of each sign that are findings; "not sure" and "did not look" stand beside them always. */
export const FINDINGS = { feel: BUD_FEELS, skin: SKIN_HOLDS, whorls: WHORLS, crown: CROWNS } as const;

/** A head reading in the making. */
export interface ReadingDraft {
  readonly on: Day;
  readonly time: string | undefined;
  readonly signs: HeadSigns;
  readonly budSites: 2 | 4 | undefined;
  readonly layout: "one" | "all";
}

export const firstReading = (today: Day, time: string): ReadingDraft => ({
  on: today,
  time,
  signs: {},
  budSites: undefined,
  layout: "one",
});

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readReading(stored: unknown): ReadingDraft | undefined {
  const draft = stored as Partial<ReadingDraft> | undefined;
  return typeof draft?.on === "string" && typeof draft.signs === "object" && draft.signs !== null
    ? (draft as ReadingDraft)
    : undefined;
}

type Sided = { readonly both?: string; readonly left?: string; readonly right?: string };

/** What has been answered for a sign on a side. An answer for both sides is not an answer for one. */
export function findingOf(signs: HeadSigns, sign: Sign, side: Side): string | undefined {
  if (sign === "crown") return signs.crown;
  return (signs[sign] as Sided | undefined)?.[side];
}

/**
 * Takes an answer. One for both sides replaces what was said of either; one for a side replaces what was said of both,
 * since two sides that were said to be alike no longer are.
 */
export function answerSign(draft: ReadingDraft, sign: Sign, side: Side, finding: string): ReadingDraft {
  if (sign === "crown") return { ...draft, signs: { ...draft.signs, crown: finding } as HeadSigns };
  const before = draft.signs[sign] as Sided | undefined;
  const { both: _, ...sides } = before ?? {};
  const now = side === "both" ? { both: finding } : { ...sides, [side]: finding };
  return { ...draft, signs: { ...draft.signs, [sign]: now } };
}

/** Which side a sign is being asked of: what was answered before decides. */
export function sideShown(signs: HeadSigns, sign: Sign): Side {
  if (sign === "crown") return "both";
  const sides = signs[sign] as Sided | undefined;
  if (sides === undefined || sides.both !== undefined) return "both";
  return sides.left === undefined ? "left" : "right";
}

/** Has a sign any answer yet? */
export const isAnswered = (signs: HeadSigns, sign: Sign): boolean =>
  sign === "crown" ? signs.crown !== undefined : Object.keys(signs[sign] ?? {}).length > 0;

/** The first sign without an answer, or `check` when all have one. */
export const firstOpen = (signs: HeadSigns): Sign | "check" =>
  SIGNS.find((sign) => !isAnswered(signs, sign)) ?? "check";

/** The question after this one. */
export function nextStep(step: Sign): Sign | "check" {
  return SIGNS[SIGNS.indexOf(step) + 1] ?? "check";
}

/** Did anybody look or feel at all? A reading of nothing is not stored. */
export const hasAnswer = (signs: HeadSigns): boolean => SIGNS.some((sign) => isAnswered(signs, sign));

/** One line of the check page. */
export interface SignLine {
  readonly sign: Sign;
  readonly side: Side;
  readonly finding: string | undefined;
}

/** The check page: every side that was answered, and every sign that was not reached. */
export function linesOf(signs: HeadSigns): readonly SignLine[] {
  return SIGNS.flatMap((sign): readonly SignLine[] => {
    const answered = (["both", "left", "right"] as const).flatMap((side) => {
      const finding = sign === "crown" && side !== "both" ? undefined : findingOf(signs, sign, side);
      return finding === undefined ? [] : [{ sign, side, finding }];
    });
    return answered.length > 0 ? answered : [{ sign, side: "both" as const, finding: undefined }];
  });
}

/** The fact that the answers make: exactly what was answered, nothing for what was not reached. */
export function readingFact(draft: ReadingDraft, kid: AnimalId): Fact {
  return {
    kind: "head-reading",
    on: draft.time === undefined ? draft.on : `${draft.on}T${draft.time}`,
    body: { kid, signs: draft.signs, ...(draft.budSites === undefined ? {} : { budSites: draft.budSites }) },
  };
}
