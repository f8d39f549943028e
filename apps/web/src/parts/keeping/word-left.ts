import type { EntryId } from "@pollard/records";
import { useEffect, useState } from "react";

/** Something that one tap did, and how to take it back. */
export interface Deed {
  /** What was done, in words. */
  readonly said: string;
  readonly entries: readonly EntryId[];
}

/** Something that is on disk, and since when. */
export interface StoredDeed {
  readonly deed: Deed;
  readonly time: string;
}

let left: StoredDeed | undefined;

/** Leaves word of what was stored, for the page that is opened instead of the one that stored it. */
export const leaveWord = (stored: StoredDeed): void => {
  left = stored;
};

/** What the page before this one stored; told to one page, once. */
export function useWordLeft(): StoredDeed | undefined {
  const [found] = useState(() => left);
  useEffect(() => {
    left = undefined;
  }, []);
  return found;
}
