import { exchangePhotos, type Herd } from "@pollard/records";
import type { HerdDatabase } from "../adapters/database/herd-database.ts";
import { hubPhotos } from "../adapters/hub/hub-photos.ts";
import { idbMarks } from "../adapters/database/idb-marks.ts";
import { photoShelf } from "../adapters/database/idb-photos.ts";
import { photoDigest } from "../adapters/files/photo-digest.ts";

/** Most pictures that go at once: entries go before them again, after at most some minutes of a poor signal. */
const AT_ONCE = 10;

/** One turn of pictures, after the entries: `more` where another is worth its while at once. */
export interface PhotoRound {
  readonly more: "yes" | "no";
}

/** Which hub, as whom, and the pictures that entries name. */
export interface PhotoAsking {
  readonly base: string;
  readonly pass: { readonly token?: string };
  readonly names: readonly string[];
}

/** The names of a herd's pictures, the newest first. */
export function photoNames(herd: Pick<Herd, "animals">): readonly string[] {
  const photos = [...herd.animals.values()].flatMap((animal) => animal.photos);
  return photos.toSorted((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0)).map(({ photo }) => photo);
}

/**
 * Turns of pictures between one herd of this phone and its hub.
 *
 * Once both sides have all of them, only those that nobody had are asked for, until an entry names another or the hub's copy
 * is another than it was.
 */
export function photoRounds(): (db: HerdDatabase, asking: PhotoAsking) => Promise<PhotoRound> {
  let settled: { readonly of: string; readonly nowhere: readonly string[] } | undefined;
  return async (db, { base, pass, names }) => {
    const marks = idbMarks(db);
    const hub = await marks.hub();
    const of = [hub.ok ? hub.value.marks.copy : "", ...names].join(" ");
    const asked = settled?.of === of ? settled.nowhere : names;
    const sides = { shelf: photoShelf(db), peer: hubPhotos(db.herd, base, pass.token), digest: photoDigest };
    const { failure, more, nowhere, refused, there } = await exchangePhotos(sides, asked, AT_ONCE);
    await noteThere(db, `${hub.ok ? hub.value.marks.copy : ""} ${pass.token ?? ""}`, there);
    if (failure !== undefined) return { more: "no" };
    if (more === "yes") return { more };
    settled = { of, nowhere };
    // Once all is settled only what nobody had is asked for, and nothing is offered.
    const byHub = refused.flatMap(({ photo, by, reason }) => (by === "peer" ? [{ photo, code: reason }] : []));
    if (asked === names) await marks.setRefusedPhotos(byHub);
    return { more };
  };
}

/** Adds what a turn has shown to what is known of the pictures on the hub; of another copy of it nothing was known. */
async function noteThere(db: HerdDatabase, of: string, there: readonly string[]): Promise<void> {
  const marks = idbMarks(db);
  const before = await marks.photos();
  if (!before.ok) return;
  const known = before.value.of === of ? before.value.onHub : [];
  const onHub = [...new Set([...known, ...there])];
  if (before.value.of === of && onHub.length === known.length) return;
  await marks.setPhotos({ of, onHub });
}
