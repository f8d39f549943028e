import { ok, type Result } from "@pollard/base";
import { BATCH_LIMIT, type Entry, entryJson, isTooNew, type StoreFailure, type TooNewEntry } from "@pollard/records";
import type { Caller } from "./caller.ts";

/** Whether an entry may be written by whoever hands it over. */
export type MayWrite = (entry: Entry | TooNewEntry) => boolean;

/** Which of these entries the herd has, and the device that brought each first. */
type Bringers = (ids: readonly string[]) => Promise<Result<ReadonlyMap<string, string | undefined>, StoreFailure>>;

/**
 * What a caller may write into a herd that is open to him: a helper sets nothing, and strikes only what the same device wrote.
 *
 * Whose an entry is, the hub knows by the token under which it came first, not by what it says of itself. One that comes in the
 * same push, before it is struck, is the device's own unless the hub has had it from another.
 *
 * Source: decision 0018.
 */
export async function mayWrite(
  caller: Caller,
  push: unknown,
  bringers: Bringers,
): Promise<Result<MayWrite, StoreFailure>> {
  if (caller.kind !== "device" || caller.role === "keeper") return ok(() => true);
  const struck = struckIn(push);
  if (struck.length === 0) return ok(isForHelpers);
  const found = await bringers(struck);
  if (!found.ok) return found;
  const here = found.value;
  const before = new Set<string>(); // of this push, and let through
  const isOwn = (id: string) => (here.has(id) ? here.get(id) === caller.device : before.has(id));
  return ok((entry) => {
    const may = isForHelpers(entry) || (!isTooNew(entry) && entry.kind === "strike" && isOwn(entry.body.entry));
    if (may) before.add(entry.id);
    return may;
  });
}

/** What the strikes in a push are to strike; whatever is no push has none. */
function struckIn(push: unknown): readonly string[] {
  const { entries } = (push ?? {}) as { readonly entries?: unknown };
  if (!Array.isArray(entries)) return [];
  return entries.slice(0, BATCH_LIMIT).flatMap((entry: unknown) => {
    const { kind, body } = (entry ?? {}) as { readonly kind?: unknown; readonly body?: { readonly entry?: unknown } };
    return kind === "strike" && typeof body?.entry === "string" ? [body.entry] : [];
  });
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
