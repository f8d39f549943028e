import { day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { screens } from "@pollard/words";
import type { EntryId } from "@pollard/records";
import { describe, expect, test } from "vitest";
import type { Draft } from "../../adapters/database/idb-drafts.ts";
import {
  backupNag,
  draftSaid,
  goatsOfDraft,
  hrefOfDraft,
  hrefOfTask,
  isMatingNext,
  savedWhen,
  stepSaid,
  stillAhead,
} from "./model.ts";

const today = day("2026-03-18");
const kid = {
  id: animalId("k1"),
  name: "Pip",
  tag: undefined,
  mark: undefined,
  sex: "doe",
  damName: "Sorrel",
} as const;
const dated = { by: today, daysLeft: 0, urgency: "now" } as const;
const draft = (kind: Draft["kind"], step: string): Draft => ({
  key: `${kind}:k1`,
  kind,
  about: "k1",
  entry: "e" as EntryId,
  step,
  savedAt: "2026-03-18T14:32",
  state: "open",
  answers: {},
});

describe("today", () => {
  test("[UI-363] a mating is next where nothing is ahead and a grown doe is here", () => {
    const goats = (born: string, sex: "doe" | "buck", gone: boolean) => [
      {
        ref: { ...kid, sex },
        chip: undefined,
        born: day(born),
        gone,
        urgency: undefined,
        surety: "open" as const,
        head: "unknown" as const,
      },
    ];
    const none = { kids: 0, does: 0 };
    expect(isMatingNext(none, goats("2024-03-01", "doe", false), today)).toBe(true);
    expect(isMatingNext(none, goats("2024-03-01", "buck", false), today)).toBe(false);
    expect(isMatingNext(none, goats("2024-03-01", "doe", true), today)).toBe(false);
    expect(isMatingNext(none, goats("2026-03-01", "doe", false), today)).toBe(false);
    expect(isMatingNext({ kids: 0, does: 1 }, goats("2024-03-01", "doe", false), today)).toBe(false);
    expect(isMatingNext({ kids: 1, does: 0 }, goats("2024-03-01", "doe", false), today)).toBe(false);
  });

  test("[UI-22] each line opens the job itself", () => {
    expect(hrefOfTask({ ...dated, task: { kind: "read-head", kid, from: today, by: today, end: today } })).toBe(
      "/reading/k1",
    );
    expect(hrefOfTask({ ...dated, task: { kind: "ring-vet", kid, end: today } })).toBe("/answer/k1");
    expect(hrefOfTask({ ...dated, task: { kind: "vet-visit", day: today, kids: [], unread: [] } })).toBe(
      "/vet/2026-03-18",
    );
    expect(hrefOfTask({ ...dated, task: { kind: "problems", count: 1 } })).toBe("/problems");
  });

  test("[UI-2] what was left half done is named by animal, step and time", () => {
    expect(hrefOfDraft(draft("kidding", "1"))).toBe("/kidding/k1");
    expect(stepSaid(screens, draft("kidding", "1"))).toBe("Kid 2");
    expect(stepSaid(screens, draft("head-reading", "skin"))).toBe("Skin");
    const vets = { ...draft("disbudding", "left"), answers: { on: "2026-03-16", left: "bud" } };
    expect([hrefOfDraft(vets), stepSaid(screens, vets)]).toEqual(["/vet/2026-03-16/k1", "Found on the left"]);
    expect(savedWhen(draft("kidding", "1"), today)).toBe("14:32");
    expect(savedWhen(draft("kidding", "1"), day("2026-03-19"))).toBe("yesterday 14:32");
  });

  test("[UI-373] a mating left half done is named by its does, else its bucks, and by what was answered last", () => {
    const mating = (answers: unknown, about = "new"): Draft => ({ ...draft("service", "bucks"), about, answers });
    expect(goatsOfDraft(mating({ does: ["hazel", "moth"], bucks: ["rook"] }, "moth"))).toEqual(["hazel", "moth"]);
    expect(goatsOfDraft(mating({ does: [], bucks: ["rook"] }))).toEqual(["rook"]);
    expect(goatsOfDraft(mating({ does: [], bucks: [] }))).toEqual([]);
    expect(goatsOfDraft(draft("kidding", "1"))).toEqual(["k1"]);
    expect(goatsOfDraft(draft("animal", "form"))).toEqual([]);
    expect(draftSaid(screens, mating({}), ["Hazel", "Moth"])).toBe("Mating of Hazel and Moth");
    expect(draftSaid(screens, mating({}), [])).toBe("Enter a mating");
    expect(draftSaid(screens, draft("animal", "form"), [])).toBe("Adding");
    expect(stepSaid(screens, mating({}))).toBe("Buck");
    expect([hrefOfDraft(mating({})), hrefOfDraft(mating({}, "moth"))]).toEqual(["/service", "/service/moth"]);
  });

  test("[UI-311] with nothing to do, what is ahead is counted, and of nothing nothing is said", () => {
    expect(stillAhead(screens, { kids: 0, does: 0 })).toEqual([]);
    expect(stillAhead(screens, { kids: 1, does: 0 })).toEqual(["1 kid's head still matters."]);
    expect(stillAhead(screens, { kids: 2, does: 3 })).toEqual([
      "2 kids' heads still matter.",
      "3 does are still to kid.",
    ]);
  });

  test("[UI-23] a backup is asked for after 20 entries, or after a week with anything new", () => {
    const backup = (on: string, entries: number) => ({ on: day(on), entries });
    expect(backupNag({ entries: 19, backup: undefined }, today)).toBe(undefined);
    expect(backupNag({ entries: 20, backup: undefined }, today)).toBe(20);
    expect(backupNag({ entries: 30, backup: backup("2026-03-17", 11) }, today)).toBe(undefined);
    expect(backupNag({ entries: 31, backup: backup("2026-03-17", 11) }, today)).toBe(20);
    expect(backupNag({ entries: 12, backup: backup("2026-03-11", 11) }, today)).toBe(1);
    expect(backupNag({ entries: 11, backup: backup("2026-01-01", 11) }, today)).toBe(undefined);
  });
});
