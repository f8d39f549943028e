import type { AnimalLine, DatedTask } from "@pollard/advice";
import { type Day, daysFrom, parseDay } from "@pollard/base";
import { type AnimalId, animalId } from "@pollard/genetics";
import type { Screens } from "@pollard/words";
import type { Draft } from "../../adapters/database/idb-drafts.ts";
import { words } from "../../house/wording.ts";
import { isGrown } from "../../parts/grown.ts";
import { NO_GOAT, SERVICE_FIELDS, type ServiceAnswers } from "../service/model.ts";
import { readDone } from "../vet-list/model.ts";

/** Where a task is done: the line on Today opens the job itself. */
export function hrefOfTask({ task }: DatedTask): string {
  switch (task.kind) {
    case "read-head":
    case "finish-reading":
    case "look-again":
      return `/reading/${task.kid.id}`;
    case "ring-vet":
    case "advice-changed":
      return `/answer/${task.kid.id}`;
    case "vet-visit":
    case "vet-work-to-enter":
    case "ask-vet-to-come":
      return `/vet/${task.day}`;
    case "kidding-due":
    case "lost-kids":
      return `/animal/${task.doe.id}`;
    case "check-growth":
      return `/outcome/${task.animal.id}`;
    case "falling-behind":
      return `/animal/${task.kid.id}`;
    case "care":
      return "/care";
    case "problems":
      return "/problems";
  }
}

/** Where a draft is taken up again. */
export function hrefOfDraft(draft: Draft): string {
  switch (draft.kind) {
    case "kidding":
      return `/kidding/${draft.about}`;
    case "head-reading":
      return `/reading/${draft.about}`;
    case "outcome":
      return `/outcome/${draft.about}`;
    case "animal":
      return "/add";
    case "photo":
      return `/photo/${draft.about}`;
    case "disbudding":
      return `/vet/${readDone(draft.answers)?.on ?? draft.savedAt.slice(0, 10)}/${draft.about}`;
    case "service":
      return draft.about === NO_GOAT ? "/service" : `/service/${draft.about}`;
  }
}

/** The goats by whose names a draft is offered: a mating's does as far as they are chosen, else its bucks; none of a goat to add. */
export function goatsOfDraft({ kind, about, answers }: Draft): readonly AnimalId[] {
  if (kind === "animal") return [];
  if (kind !== "service") return [animalId(about)];
  const { does = [], bucks = [] } = answers as Partial<ServiceAnswers>;
  return (does.length > 0 ? does : bucks).map(animalId);
}

/** What was left half done, by the names of its goats. */
export const draftSaid = (s: Screens, { kind }: Draft, goats: readonly string[]): string =>
  kind === "service" && goats.length === 0
    ? s.service.title
    : [s.today.resumeWhat[kind], words.named(goats)].filter((part) => part !== "").join(" ");

/** The step a draft was left at, in words. */
export function stepSaid(s: Screens, draft: Draft): string {
  switch (draft.kind) {
    case "kidding":
      return draft.step === "check" ? s.kidding.checkTitle : s.kidding.kid((Number(draft.step) || 0) + 1);
    case "head-reading":
      return draft.step === "feel" || draft.step === "skin" || draft.step === "whorls" || draft.step === "crown"
        ? s.sign[draft.step].name
        : draft.step === "check"
          ? s.reading.checkTitle
          : s.reading.allAtOnce;
    case "outcome":
      return s.outcome.title;
    case "animal":
      return s.animalForm.title;
    case "photo":
      return s.photo.take;
    case "disbudding":
      return doneStepSaid(s, draft.step);
    case "service":
      return s.service.steps[SERVICE_FIELDS.find((field) => field === draft.step) ?? "does"];
  }
}

/** The question about the vet's work that was answered last. */
function doneStepSaid({ vetDone }: Screens, step: string): string {
  if (step === "left" || step === "right") return vetDone.foundSide[step];
  return step === "technique" || step === "operator" ? vetDone[step] : vetDone.done;
}

/** When a draft was last touched: the time alone today, day and time before. */
export function savedWhen(draft: Draft, today: Day): string {
  const on = parseDay(draft.savedAt.slice(0, 10));
  const time = draft.savedAt.slice(11);
  return on === undefined || on === today ? time : `${words.day(on, today)} ${time}`;
}

/** What is known about how safe the herd is, as far as nagging goes. */
export interface BackupState {
  readonly entries: number;
  readonly backup: { readonly on: Day; readonly entries: number } | undefined;
}

/** Entries in no backup after which the keeper is reminded, and days. Our judgement. */
const ENTRIES_BETWEEN_BACKUPS = 20;
const DAYS_BETWEEN_BACKUPS = 7;

/** How many entries are in no backup, once that is worth saying; else nothing. */
export function backupNag(state: BackupState, today: Day): number | undefined {
  const outside = state.entries - (state.backup?.entries ?? 0);
  if (outside <= 0) return undefined;
  const old = state.backup === undefined || daysFrom(state.backup.on, today) >= DAYS_BETWEEN_BACKUPS;
  return outside >= ENTRIES_BETWEEN_BACKUPS || (old && state.backup !== undefined) ? outside : undefined;
}

/** Whether a mating is what comes next: nothing is ahead, and a grown doe is here. */
export const isMatingNext = (
  ahead: { readonly kids: number; readonly does: number },
  goats: readonly AnimalLine[],
  today: Day,
): boolean =>
  ahead.kids === 0 &&
  ahead.does === 0 &&
  goats.some((goat) => goat.ref.sex === "doe" && !goat.gone && isGrown(goat, today));

/** What is still ahead on a day with nothing to do; of what there is none, nothing is said. */
export const stillAhead = (s: Screens, ahead: { readonly kids: number; readonly does: number }): readonly string[] => [
  ...(ahead.kids > 0 ? [s.today.headsMatter(ahead.kids)] : []),
  ...(ahead.does > 0 ? [s.today.stillToKid(ahead.does)] : []),
];
