import { ok, type Result } from "@pollard/base";
import * as v from "valibot";
import type { StoreFailure } from "../keeping/entry-store.ts";
import type { PeerFailure } from "./exchange.ts";
import type { UnusableReply } from "./exchange-replies.ts";
import { checkedPhoto, type Digest, isPhotoName, PHOTO_NAMES_LIMIT, type PhotoProblem } from "./photo.ts";

/** The pictures of one herd on this device. */
export interface PhotoShelf {
  /** Which of these are not here. */
  lacking(names: readonly string[]): Promise<Result<readonly string[], StoreFailure>>;
  find(name: string): Promise<Result<Uint8Array | undefined, StoreFailure>>;
  keep(name: string, bytes: Uint8Array): Promise<Result<unknown, StoreFailure>>;
}

/**
 * The other side, as the asking side sees it.
 *
 * Over HTTP: `POST /api/herds/:herd/photos` with names, answered by those that are lacking there; `GET` and `PUT` of
 * `/api/herds/:herd/photos/:photo`.
 */
export interface PhotoPeer {
  lacking(names: readonly string[]): Promise<Result<unknown, PeerFailure>>;
  give(name: string, bytes: Uint8Array): Promise<Result<unknown, PeerFailure>>;
  /** Its bytes, unchecked. */
  ask(name: string): Promise<Result<Uint8Array, PeerFailure>>;
}

/** Both sides, and the one thing that a technology has to lend. */
export interface PhotoSides {
  readonly shelf: PhotoShelf;
  readonly peer: PhotoPeer;
  readonly digest: Digest;
}

/** A picture that one side would not take, and why; a reason of the peer's may be one that only it knows. */
export interface RefusedPhoto {
  readonly photo: string;
  readonly by: "us" | "peer";
  readonly reason: PhotoProblem | (string & {});
}

/** What one exchange of pictures did. */
export interface PhotoReport {
  readonly given: number;
  readonly received: number;
  /** Of those that were asked for, the ones that the peer is known to have. */
  readonly there: readonly string[];
  /** Named by an entry, and on neither side: the device that took them has not been here yet. */
  readonly nowhere: readonly string[];
  readonly refused: readonly RefusedPhoto[];
  /** `yes` where as many were moved as was asked for, and there may be more. */
  readonly more: "yes" | "no";
  /** `undefined` = each side has what the other had. */
  readonly failure:
    | PeerFailure
    | UnusableReply
    | { readonly code: "store"; readonly failure: StoreFailure }
    | undefined;
}

const lackingReply = v.object({ lacking: v.pipe(v.array(v.string()), v.maxLength(PHOTO_NAMES_LIMIT)) });

/** What a peer says that has no room for another picture of the herd; it may have later, and still gives what it has. */
export const NO_ROOM_FOR_PHOTOS = "no-room-for-photos";

/** What the peer says of a picture that it will never take; whatever else it says may be otherwise next time. */
const FOR_GOOD: ReadonlySet<string> = new Set([
  "not-a-photo-name",
  "not-a-picture",
  "too-large",
  "not-its-digest",
  "other-photo",
] satisfies readonly PhotoProblem[]);

/**
 * Gives the pictures that the peer lacks and fetches those that we lack, in the order of their names as given: the newest
 * first, as whoever asks for them lists them.
 *
 * There is no place to go on from: each time both sides are asked what is missing, so that a copy put back from a backup, on
 * either side, is filled again, and an exchange that was cut off goes on with the next picture. One that is refused stops
 * no other; once the peer has no room, the others are not tried there, and what it has is still fetched. After `most` pictures it stops, so that entries need not wait for all of them.
 *
 * Errors: in the report.
 */
export async function exchangePhotos(
  sides: PhotoSides,
  named: readonly string[],
  most = Number.POSITIVE_INFINITY,
): Promise<PhotoReport> {
  const report: Progress = { most, given: 0, received: 0, there: [], nowhere: [], refused: [], room: "there" };
  const names = [...new Set(named)].filter(isPhotoName);
  for (let at = 0; at < names.length; at += PHOTO_NAMES_LIMIT) {
    const failure = await exchangeSome(sides, names.slice(at, at + PHOTO_NAMES_LIMIT), report);
    if (failure !== undefined || isEnough(report)) return told(report, failure);
  }
  return told(report, undefined);
}

interface Progress {
  readonly most: number;
  given: number;
  received: number;
  readonly there: string[];
  readonly nowhere: string[];
  readonly refused: RefusedPhoto[];
  room: "there" | "none";
}

const isEnough = ({ most, given, received }: Progress): boolean => given + received >= most;

function told(progress: Progress, failure: PhotoReport["failure"]): PhotoReport {
  const { given, received, there, nowhere, refused } = progress;
  return { given, received, there, nowhere, refused, more: isEnough(progress) ? "yes" : "no", failure };
}

async function exchangeSome(
  sides: PhotoSides,
  names: readonly string[],
  report: Progress,
): Promise<PhotoReport["failure"]> {
  const { shelf, peer, digest } = sides;
  const here = await shelf.lacking(names);
  if (!here.ok) return { code: "store", failure: here.error };
  const answer = await peer.lacking(names);
  if (!answer.ok) return answer.error;
  const read = v.safeParse(lackingReply, answer.value);
  if (!read.success) return { code: "not-understood", where: "pull" };
  const [weLack, theyLack] = [new Set(here.value), new Set(read.output.lacking)];
  for (const name of names) {
    if (!theyLack.has(name)) report.there.push(name);
  }
  for (const name of names) {
    if (isEnough(report)) return undefined;
    if (weLack.has(name) === theyLack.has(name)) {
      if (weLack.has(name)) report.nowhere.push(name);
      continue;
    }
    if (theyLack.has(name) && report.room === "none") {
      report.refused.push({ photo: name, by: "peer", reason: NO_ROOM_FOR_PHOTOS });
      continue;
    }
    const bytes = weLack.has(name) ? await peer.ask(name) : await ours(shelf, name);
    if (!bytes.ok) {
      // Gone since it was asked for: the next exchange sees to it.
      if (bytes.error.code === "peer-refused" && bytes.error.status === 404) continue;
      return bytes.error;
    }
    if (bytes.value === undefined) continue;
    const checked = await checkedPhoto(name, bytes.value, digest);
    if (!checked.ok) {
      report.refused.push({ photo: name, by: "us", reason: checked.error });
      continue;
    }
    if (weLack.has(name)) {
      const kept = await shelf.keep(name, bytes.value);
      if (!kept.ok) return { code: "store", failure: kept.error };
      report.received += 1;
      continue;
    }
    const given = await peer.give(name, bytes.value);
    if (given.ok) {
      report.given += 1;
      report.there.push(name);
    } else if (given.error.code === "peer-refused" && given.error.reason === NO_ROOM_FOR_PHOTOS) {
      report.room = "none";
      report.refused.push({ photo: name, by: "peer", reason: NO_ROOM_FOR_PHOTOS });
    } else if (given.error.code === "peer-refused" && FOR_GOOD.has(given.error.reason))
      report.refused.push({ photo: name, by: "peer", reason: given.error.reason });
    else return given.error;
  }
  return undefined;
}

async function ours(
  shelf: PhotoShelf,
  name: string,
): Promise<
  | Result<Uint8Array | undefined, PeerFailure>
  | { readonly ok: false; readonly error: { readonly code: "store"; readonly failure: StoreFailure } }
> {
  const found = await shelf.find(name);
  return found.ok ? ok(found.value) : { ok: false, error: { code: "store", failure: found.error } };
}
