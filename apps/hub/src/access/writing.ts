import { type Entry, entryJson, type TooNewEntry } from "@pollard/records";
import type { Caller } from "./caller.ts";

/** Whether an entry may be written by whoever hands it over. */
export type MayWrite = (entry: Entry | TooNewEntry) => boolean;

/** What a caller may write into a herd that is open to him: a helper strikes nothing and sets nothing. */
export function mayWrite(caller: Caller): MayWrite {
  return caller.kind === "device" && caller.role !== "keeper" ? isForHelpers : () => true;
}

/** Also an entry too new to be read has a kind, and a correction the kind of what it puts in place. */
function isForHelpers(entry: Entry | TooNewEntry): boolean {
  const { kind, body } = entryJson(entry) as { readonly kind?: unknown; readonly body?: { readonly fact?: unknown } };
  const { kind: within } = (body?.fact ?? {}) as { readonly kind?: unknown };
  return ![kind, within].some((each) => each === "strike" || each === "setting");
}

/** What is written at a visit: what was done for the heads of the kids on its list, on its day, and nothing else. */
export function writtenAtVisit(day: string, kids: ReadonlySet<string>): MayWrite {
  return (entry) => {
    const { kind, on, body } = entryJson(entry) as {
      readonly kind?: unknown;
      readonly on?: unknown;
      readonly body?: { readonly kid?: unknown };
    };
    const kid = body?.kid;
    return (
      kind === "disbudding" &&
      typeof on === "string" &&
      on.slice(0, day.length) === day &&
      typeof kid === "string" &&
      kids.has(kid)
    );
  };
}
