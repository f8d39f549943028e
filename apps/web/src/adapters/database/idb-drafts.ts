import { ok, type Result } from "@pollard/base";
import type { EntryId, StoreFailure } from "@pollard/records";
import type { HerdDatabase } from "./herd-database.ts";

/** What can be left half done. */
export type DraftKind = "kidding" | "head-reading" | "outcome" | "animal" | "photo";

/**
 * Answers given so far to something that is not finished. Kept on disk at every tap, so that a killed page comes back
 * to the same question.
 */
export interface Draft {
  /** The kind and what it belongs to, so that it can never be offered for another animal. */
  readonly key: string;
  readonly kind: DraftKind;
  /** The id of the animal it belongs to. */
  readonly about: string;
  /** The id that the finished entry will have: finishing twice keeps one entry. */
  readonly entry: EntryId;
  /** Where the person was. */
  readonly step: string;
  /** Local day and time of the last tap, `YYYY-MM-DDTHH:MM`. */
  readonly savedAt: string;
  /** `aside` = put aside by the person; still kept, not offered at every start. */
  readonly state: "open" | "aside";
  readonly answers: unknown;
}

/** The key under which a draft is kept. */
export const draftKey = (kind: DraftKind, about: string): string => `${kind}:${about}`;

/** Drafts of one herd on this phone. */
export interface Drafts {
  /** Settles only when the draft is on disk. */
  save(draft: Draft): Promise<Result<void, StoreFailure>>;
  find(key: string): Promise<Result<Draft | undefined, StoreFailure>>;
  /** All of them, the last touched first. */
  all(): Promise<Result<readonly Draft[], StoreFailure>>;
  remove(key: string): Promise<Result<void, StoreFailure>>;
}

/** Drafts kept in one herd's database. */
export function idbDrafts(db: HerdDatabase): Drafts {
  return {
    save: (draft) =>
      db.run(["drafts"], "readwrite", async (t) => {
        await t.objectStore("drafts").put(draft);
      }),
    async find(key) {
      const found = await db.run(["drafts"], "readonly", (t) => t.objectStore("drafts").get(key));
      return found.ok ? ok(found.value as Draft | undefined) : found;
    },
    async all() {
      const found = await db.run(["drafts"], "readonly", (t) => t.objectStore("drafts").getAll());
      if (!found.ok) return found;
      const drafts = found.value as unknown as readonly Draft[];
      return ok(drafts.toSorted((a, b) => (a.savedAt < b.savedAt ? 1 : -1)));
    },
    remove: (key) =>
      db.run(["drafts"], "readwrite", async (t) => {
        await t.objectStore("drafts").delete(key);
      }),
  };
}
