import { entryId, type EntryId, ID_BYTES } from "@pollard/records";
import { instantMs } from "./clock.ts";

/** A fresh id: of an entry, an animal, a herd, a copy or this phone. */
export const newId = (): EntryId => entryId(instantMs(), crypto.getRandomValues(new Uint8Array(ID_BYTES)));
