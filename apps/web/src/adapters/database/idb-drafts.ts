import { ok, type Result } from "@pollard/base";
import type { EntryId, StoreFailure } from "@pollard/records";
import type { HerdDatabase } from "./herd-database.ts";

/** What can be left half done. */
export type DraftKind = "kidding" | "head-reading" | "outcome" | "animal" | "photo" | "disbudding" | "service";

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

/** Drafts of one herd on this phone. What the disk would not take is held as long as the page is open. */
export interface Drafts {
  /** Settles only when the draft is on disk. */
  save(draft: Draft): Promise<Result<void, StoreFailure>>;
  /** Is the newest state of this draft held here, and not on disk? */
  isHeld(key: string): boolean;
  /** Its entry is on disk: what was held is not needed any more. */
  letGo(key: string): void;
  find(key: string): Promise<Result<Draft | undefined, StoreFailure>>;
  /** All of them, the last touched first. */
  all(): Promise<Result<readonly Draft[], StoreFailure>>;
  remove(key: string): Promise<Result<void, StoreFailure>>;
}

/** Drafts kept in one herd's database. */
export function idbDrafts(db: HerdDatabase): Drafts {
  const held = new Map<string, Draft>();
  return {
    async save(draft) {
      const kept = await db.run(["drafts"], "readwrite", async (t) => {
        await t.objectStore("drafts").put(draft);
      });
      if (kept.ok) held.delete(draft.key);
      else held.set(draft.key, draft);
      return kept;
    },
    isHeld: (key) => held.has(key),
    letGo: (key) => void held.delete(key),
    async find(key) {
      const newest = held.get(key);
      if (newest !== undefined) return ok(newest);
      const found = await db.run(["drafts"], "readonly", (t) => t.objectStore("drafts").get(key));
      return found.ok ? ok(found.value as Draft | undefined) : found;
    },
    async all() {
      const found = await db.run(["drafts"], "readonly", (t) => t.objectStore("drafts").getAll());
      if (!found.ok) return found;
      const stored = found.value as unknown as readonly Draft[];
      const drafts = [...stored.filter(({ key }) => !held.has(key)), ...held.values()];
      return ok(drafts.toSorted((a, b) => (a.savedAt < b.savedAt ? 1 : -1)));
    },
    remove(key) {
      held.delete(key);
      return db.run(["drafts"], "readwrite", async (t) => {
        await t.objectStore("drafts").delete(key);
      });
    },
  };
}
