import type { AnimalId } from "@pollard/genetics";
import { type Animal, type Fact, PHOTO_SUBJECTS, type PhotoSubject } from "@pollard/records";
import type { Day } from "@pollard/base";

/** A photo in the making. The picture itself is in no draft: if the phone drops the page, it is taken again. */
export interface PhotoDraft {
  readonly what: PhotoSubject;
  /** A name for the place; the picture is named by its own digest once it is there. */
  readonly photo: string;
  /** Has the camera, or the chooser of files, been opened? */
  readonly camera: "not-yet" | "opened";
}

/** Answers stored by this or an earlier version of the app; `undefined` if they are something else. */
export function readPhotoDraft(stored: unknown): PhotoDraft | undefined {
  const draft = stored as Partial<PhotoDraft> | undefined;
  const fits =
    typeof draft?.photo === "string" &&
    (PHOTO_SUBJECTS as readonly unknown[]).includes(draft.what) &&
    (draft.camera === "not-yet" || draft.camera === "opened");
  return fits ? (draft as PhotoDraft) : undefined;
}

/** The fact that a kept photo makes. */
export const photoFact = (draft: PhotoDraft, animal: AnimalId, today: Day, time: string): Fact => ({
  kind: "photo",
  on: `${today}T${time}`,
  body: { animal, photo: draft.photo, what: draft.what },
});

/** A goat's photos, the newest first; one that is there twice is shown once. */
export function photosShown(animal: Animal): Animal["photos"] {
  const seen = new Set<string>();
  return animal.photos.toReversed().filter(({ photo }) => {
    const first = !seen.has(photo);
    seen.add(photo);
    return first;
  });
}
