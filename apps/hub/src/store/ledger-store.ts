import { randomBytes, randomUUID } from "node:crypto";
import {
  type CopyName,
  type Cursor,
  type Entry,
  type EntryStore,
  entryJson,
  type HerdId,
  type Appended,
  type Landmark,
  parseEntry,
  type SeenCopy,
  type StoredEntry,
  type TooNewEntry,
} from "@pollard/records";
import { type HubDatabase, settle } from "./hub-database.ts";
import type { Ledgers } from "./ledgers.ts";

/** Chance in a notch, bytes: enough that no two are ever the same. */
const NOTCH_BYTES = 12;
/** Rows in one statement; SQLite allows 32,766 values a statement and a row has six. */
const ROWS_AT_ONCE = 500;
/** The highest place an `integer` holds in every database; to ask for what comes after it is to ask for nothing. */
const HIGHEST_PLACE = 2 ** 31 - 1;

/**
 * A text that may name anything, as a key that every database keeps as it is.
 *
 * PostgreSQL takes no NUL in a text, and both would confuse halves of a character that stand alone; JSON spells them out.
 * Ordinary names are their own key.
 */
export const keyOf = (name: string): string => JSON.stringify(name).slice(1, -1);
/** The name that a key stands for. */
export const nameOf = (key: string): string => JSON.parse(`"${key}"`) as string;

/** The ledgers of a database: one for each herd, each with an order of arrival of its own. */
export function ledgersIn(database: HubDatabase): Ledgers {
  return {
    of: (herd, device) => ({
      herd,
      store: storeOf(database, herd, device ?? null),
      copyFor: (reached, known) => settle(() => copyFor(database, herd, reached, known)),
    }),
    bringers: (herd, ids) =>
      settle(async () => {
        const found = new Map<string, string | undefined>();
        for (const some of pieces(ids.map(keyOf))) {
          const rows = await database.db
            .selectFrom("entry")
            .select(["id", "device"])
            .where("herd", "=", keyOf(herd))
            .where("id", "in", some)
            .execute();
          for (const { id, device } of rows) found.set(nameOf(id), device ?? undefined);
        }
        return found;
      }),
    herds: () =>
      settle(async () => {
        const rows = await database.db.selectFrom("herd").select(["id", "entries"]).execute();
        const herds = rows.map(({ id, entries }) => ({ id: nameOf(id) as HerdId, entries }));
        return herds.sort((a, b) => (a.id < b.id ? -1 : 1));
      }),
  };
}

/** The name the copy has; a new one if it has none, or no longer has what somebody has had from it. */
async function copyFor(
  { db, write }: HubDatabase,
  herd: HerdId,
  reached: Cursor,
  known: SeenCopy | undefined,
): Promise<CopyName> {
  const key = keyOf(herd);
  const { name, last, notch } = await db
    .selectNoFrom((of) => [
      of.selectFrom("copy").select("name").as("name"),
      of.selectFrom("herd").select("last").where("id", "=", key).as("last"),
      of
        .selectFrom("entry")
        .select("notch")
        .where("herd", "=", key)
        .where("seq", "=", Math.min(known?.seen.place ?? 0, HIGHEST_PLACE))
        .as("notch"),
    ])
    .executeTakeFirstOrThrow();
  const isAsSeen = known === undefined || known.copy !== name || known.seen.notch === notch;
  if (name !== null && reached <= (last ?? 0) && isAsSeen) return name;
  return newName(write, name ?? "");
}

/** Gives the copy another name, so that every device hands over what it has and asks for everything again. */
export async function renameCopy({ db, write }: HubDatabase): Promise<CopyName> {
  const there = await db.selectFrom("copy").select("name").executeTakeFirst();
  return newName(write, there?.name ?? "");
}

/** Another name `instead` of the one it had; if it has a third by now, somebody was first and that one stays. */
function newName(write: HubDatabase["write"], instead: string): Promise<CopyName> {
  return write(async (part) => {
    await part
      .insertInto("copy")
      .values({ one: 1, name: randomUUID() })
      .onConflict((there) =>
        // Of several hubs that see it at once, one names the copy, and the others take its name.
        there
          .column("one")
          .doUpdateSet({ name: (of) => of.ref("excluded.name") })
          .where("copy.name", "=", instead),
      )
      .execute();
    return (await part.selectFrom("copy").select("name").executeTakeFirstOrThrow()).name;
  });
}

function storeOf(database: HubDatabase, herd: HerdId, device: string | null): EntryStore {
  return {
    append: (entries) => settle(() => append(database, herd, entries, device)),
    read: (after, limit) => settle(() => readAfter(database, herd, after, limit)),
  };
}

/**
 * Adds what is not there yet, each with the next place of its herd.
 *
 * The places are taken by writing to the herd's row first: until the commit, every other writer of this herd waits there,
 * so a place is never seen before all places below it. What is known already is looked for before that, and costs the
 * herd no lock; what becomes known in between leaves its place empty.
 */
async function append(
  { db, write }: HubDatabase,
  herd: HerdId,
  entries: readonly (Entry | TooNewEntry)[],
  device: string | null,
): Promise<Appended> {
  const key = keyOf(herd);
  const first = new Map<string, Entry | TooNewEntry>();
  for (const entry of entries) if (!first.has(keyOf(entry.id))) first.set(keyOf(entry.id), entry);
  let furthest: Landmark | undefined;
  for (const some of pieces([...first.keys()])) {
    const known = await db
      .selectFrom("entry")
      .select(["id", "seq", "notch"])
      .where("herd", "=", key)
      .where("id", "in", some)
      .execute();
    for (const { id, seq, notch } of known) {
      first.delete(id);
      if (seq > (furthest?.place ?? 0)) furthest = { place: seq, notch };
    }
  }
  const wanted = first.size;
  if (wanted === 0) return { added: [], ...(furthest && { furthest }) };
  const notch = randomBytes(NOTCH_BYTES).toString("base64url");
  return write(async (part) => {
    const { last } = await part
      .insertInto("herd")
      .values({ id: key, last: wanted, entries: wanted })
      .onConflict((there) =>
        there
          .column("id")
          .doUpdateSet((of) => ({ last: of("herd.last", "+", wanted), entries: of("herd.entries", "+", wanted) })),
      )
      .returning("last")
      .executeTakeFirstOrThrow();
    const rows = [...first].map(([id, entry], at) => ({
      herd: key,
      seq: last - wanted + 1 + at,
      id,
      body: JSON.stringify(entryJson(entry)),
      notch,
      device,
    }));
    const added = new Set<string>();
    for (const some of pieces(rows)) {
      const inserted = await part
        .insertInto("entry")
        .values([...some])
        .onConflict((there) => there.columns(["herd", "id"]).doNothing())
        .returning(["id", "seq"])
        .execute();
      for (const { id, seq } of inserted) {
        added.add(id);
        if (seq > (furthest?.place ?? 0)) furthest = { place: seq, notch };
      }
    }
    if (added.size < wanted)
      await part
        .updateTable("herd")
        .set((of) => ({ entries: of("entries", "-", wanted - added.size) }))
        .where("id", "=", key)
        .execute();
    const ids = [...first].flatMap(([id, entry]) => (added.has(id) ? [entry.id] : []));
    return { added: ids, ...(furthest && { furthest }) };
  });
}

function* pieces<T>(all: readonly T[]): Generator<readonly T[]> {
  for (let at = 0; at < all.length; at += ROWS_AT_ONCE) yield all.slice(at, at + ROWS_AT_ONCE);
}

async function readAfter(
  { db }: HubDatabase,
  herd: HerdId,
  after: Cursor,
  limit: number,
): Promise<readonly StoredEntry[]> {
  const rows = await db
    .selectFrom("entry")
    .select(["seq", "body", "notch"])
    .where("herd", "=", keyOf(herd))
    .where("seq", ">", Math.min(after, HIGHEST_PLACE))
    .orderBy("seq")
    .limit(limit)
    .execute();
  return rows.map(({ seq, body, notch }) => {
    const parsed = parseEntry(JSON.parse(body));
    if (!parsed.ok) throw new Error(`an entry no longer reads, ${parsed.error.code}, place ${seq}`);
    return { seq, entry: parsed.value, notch };
  });
}
