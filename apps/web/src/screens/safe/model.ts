import { type Day, unreachable } from "@pollard/base";
import { type FileProblem, NO_ROOM_FOR_PHOTOS } from "@pollard/records";
import type { Screens } from "@pollard/words";
import type { PackedProblem } from "../../adapters/files/backup-file.ts";
import { words } from "../../house/wording.ts";
import type { Places } from "../../worker/places.ts";
import type { FileRefusal } from "../../house/take-in-file.ts";

/** Bytes in the unit that a person would use. */
export function sizeSaid(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  if (bytes < 1_000_000_000) return `${Math.round(bytes / 1_000_000)} MB`;
  return `${Math.round(bytes / 1_000_000_000)} GB`;
}

/** One sentence on what was wrong with a file that was brought in; nothing if it was whole. */
export function fileProblemSaid(s: Screens, problems: readonly FileProblem[]): string | undefined {
  const unreadable = problems.filter((problem) => problem.code === "line-unreadable").length;
  if (unreadable > 0) return s.safe.damaged(unreadable);
  const other = problems.find((problem) => problem.code !== "no-header");
  if (other === undefined) return undefined;
  switch (other.code) {
    case "newer-format":
      return s.safe.fileNewer;
    case "cut-short":
    case "damaged":
      return s.safe.fileCut;
    case "other-herd":
      return s.safe.fileMixed;
    default:
      return s.safe.fileOdd;
  }
}

/** Why a backup could not be brought in at all, whatever it was. */
export function notTakenSaid(s: Screens, why: FileRefusal | { readonly code: PackedProblem }): string {
  switch (why.code) {
    case "no-entries":
      return refusalSaid(s, why.problems);
    case "packed-damaged":
      return s.photo.zipDamaged;
    case "packed-strange":
      return s.photo.zipStrange;
    case "full":
    case "unavailable":
      return s.safe.notKept;
    default:
      return unreachable(why, "notTakenSaid");
  }
}

/** Why a herd file could not be brought in at all. */
export function refusalSaid(s: Screens, problems: readonly FileProblem[]): string {
  const looks = problems.find((problem) => problem.code === "not-a-herd-file")?.looks;
  if (looks === "csv") return s.safe.fileIsTable;
  if (looks === "empty") return s.safe.fileEmpty;
  return s.safe.notABackup;
}

/** Which sentence says why the hub would not take an entry. */
export const whyRefused = (code: string): "notYours" | "otherHerd" | "unfit" =>
  code === "not-yours-to-write" ? "notYours" : code === "other-herd" ? "otherHerd" : "unfit";

/** How far this phone's clock is off the hub's, in the unit that a person would use, and which way. */
export function clockSaid(s: Screens, aheadSeconds: number): string {
  const minutes = Math.abs(aheadSeconds) / 60;
  const { spans } = s.safe;
  const span =
    minutes < 90
      ? spans.minutes(Math.round(minutes))
      : minutes < 36 * 60
        ? spans.hours(Math.round(minutes / 60))
        : spans.days(Math.round(minutes / 1440));
  return aheadSeconds > 0 ? s.safe.clockAhead(span) : s.safe.clockBehind(span);
}

/** Pictures that were not taken for one reason: how many they are, then which, and why where the first sentence does not say. */
export interface RefusedPhotosSaid {
  readonly said: string;
  readonly each: readonly { readonly which: string; readonly why: string | undefined }[];
}

/**
 * The pictures that the hub would not take, each once: those for which it has no room, then those that it will never take.
 *
 * Shape: empty where it took them all. A reason of a later hub counts as "not what its entry names".
 */
export function refusedPhotosSaid(s: Screens, refused: Places["refusedPhotos"]): readonly RefusedPhotosSaid[] {
  const { photoRefusedWhy, photosNoRoom, photosRefused } = s.safe;
  const named = ({ goat }: Places["refusedPhotos"][number]): string =>
    goat === undefined ? s.safe.photoRefusedOther : s.safe.photoRefused(words.label(goat));
  const noRoom = refused.filter(({ reason }) => reason === NO_ROOM_FOR_PHOTOS);
  const others = refused.filter(({ reason }) => reason !== NO_ROOM_FOR_PHOTOS);
  const whyOf = (reason: string): string =>
    reason === "too-large"
      ? photoRefusedWhy.tooLarge
      : reason === "not-a-picture"
        ? photoRefusedWhy.notAPicture
        : photoRefusedWhy.changed;
  return [
    { said: photosNoRoom(noRoom.length), each: noRoom.map((photo) => ({ which: named(photo), why: undefined })) },
    {
      said: photosRefused(others.length),
      each: others.map((photo) => ({ which: named(photo), why: whyOf(photo.reason) })),
    },
  ].filter(({ each }) => each.length > 0);
}

/** After how many days nowhere but on one phone entries are at risk: short of the seven after which a tab may be emptied. */
const RISK_DAYS = 5;

/** Has anything been nowhere but here for longer than is wise? */
export const isAtRisk = ({ alone, aloneDays }: Pick<Places, "alone" | "aloneDays">): boolean =>
  alone.entries > 0 && aloneDays >= RISK_DAYS;

/** Local day and time of day, as said. */
export const whenSaid = (minute: string, today: Day): string =>
  `${words.day(minute.slice(0, 10) as Day, today)} ${minute.slice(11)}`;
