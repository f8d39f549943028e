import { randomUUID } from "node:crypto";
import type { Result } from "@pollard/base";
import type { HerdId } from "@pollard/records";
import { renderUnicodeCompact } from "uqr";
import type { HubDatabase } from "../store/hub-database.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { accessIn, type Device, type Role } from "./access.ts";

/** What is to be done at a hub's door by whoever sits at its computer without a browser. */
export type DoorWish =
  /** `herd` is the one that the phone joins: `undefined` for the only one, `new` for one that is to begin. */
  | { readonly kind: "let-in"; readonly role: Role; readonly herd: string | undefined }
  | { readonly kind: "phones" }
  /** A phone by its name, or by how its id begins. */
  | { readonly kind: "let-out"; readonly phone: string };

/** What is said of it. `0` done, `1` it cannot be done as things are. */
export interface Said {
  readonly sentence: string;
  readonly exitCode: 0 | 1;
}

/** The word for a herd that is to begin. */
export const NEW_HERD = "new";
/** How much of an id is shown, and enough to name a phone by. */
const ID_SHOWN = 8;

interface Phone extends Device {
  readonly herd: HerdId;
}

/**
 * Lets a phone in by a code, lists the phones, or lets one in no longer; a hub may be running on the same database.
 *
 * `reach` is the address under which phones find the hub, where it was said.
 *
 * Errors: throws what the database threw.
 */
export async function atTheDoor(
  database: HubDatabase,
  wish: DoorWish,
  reach: string | undefined,
  now: () => Date,
): Promise<Said> {
  const access = accessIn(database, now);
  const herds = await herdsIn(database);
  if (wish.kind === "let-in") {
    const herd = herdFor(herds, wish.herd);
    if ("sentence" in herd) return herd;
    const { code, role } = value(await access.invite(herd.id, wish.role));
    const digits = code.replace(/(\d{4})(?=\d)/g, "$1 ");
    const where =
      reach === undefined ? "Enter it on the phone, at the hub's address." : joinPage(`${reach}/#/join/${code}`);
    return done(`${digits}\nFor one phone (${role}), herd ${herd.id}, for ten minutes.\n${where}`);
  }
  const phones: Phone[] = [];
  for (const herd of herds) for (const device of value(await access.devices(herd))) phones.push({ ...device, herd });
  if (wish.kind === "phones") {
    return done(phones.length === 0 ? "No phone was let in yet." : phones.map(lineOf).join("\n"));
  }
  const meant = phones.filter(
    ({ id, name, revoked }) =>
      revoked === undefined && (name === wish.phone || (wish.phone.length >= ID_SHOWN && id.startsWith(wish.phone))),
  );
  const [phone] = meant;
  if (phone === undefined) return no(`No phone that is let in is called ${wish.phone}; --phones lists them.`);
  if (meant.length > 1) return no(`Several phones are meant; say which by its id:\n${meant.map(lineOf).join("\n")}`);
  await access.revoke(phone.herd, phone.id).then(value);
  return done(`${phone.name} is let in no longer. What it wrote stays.`);
}

/** The page that joins, for a camera and for a person: light squares are printed, as on a dark terminal. */
const joinPage = (address: string): string => `${renderUnicodeCompact(address, { border: QUIET })}\n${address}`;
/** Light squares around a code, as its standard wants (ISO/IEC 18004; from memory). */
const QUIET = 4;

/** Every herd that the hub keeps, or that a phone was let in to. */
async function herdsIn(database: HubDatabase): Promise<readonly HerdId[]> {
  const kept = value(await ledgersIn(database).herds()).map(({ id }) => id);
  const joined = await database.db.selectFrom("device").select("herd").distinct().execute();
  return [...new Set([...kept, ...joined.map(({ herd }) => herd as HerdId)])].sort();
}

function herdFor(herds: readonly HerdId[], wanted: string | undefined): { readonly id: HerdId } | Said {
  if (wanted === NEW_HERD) return { id: randomUUID() as HerdId };
  const found = wanted === undefined ? herds : herds.filter((herd) => herd === wanted);
  const [only] = found;
  if (only !== undefined && found.length === 1) return { id: only };
  const there = herds.length === 0 ? "No herd is kept here yet." : `The herds kept here:\n${herds.join("\n")}`;
  return no(`Say which herd with --herd HERD, or --herd ${NEW_HERD} for one that begins now. ${there}`);
}

function lineOf({ id, name, role, herd, made, seen, revoked }: Phone): string {
  const state = revoked === undefined ? `seen ${seen ?? "never"}` : `let in no longer since ${revoked}`;
  return `${id.slice(0, ID_SHOWN)}  ${name} (${role}), herd ${herd}, joined ${made}, ${state}`;
}

const done = (sentence: string): Said => ({ sentence, exitCode: 0 });
const no = (sentence: string): Said => ({ sentence, exitCode: 1 });

function value<T>(result: Result<T, { readonly code: string; readonly cause?: unknown }>): T {
  if (result.ok) return result.value;
  throw result.error.cause instanceof Error ? result.error.cause : new Error(`the database is ${result.error.code}`);
}
