import { randomUUID } from "node:crypto";
import { err, ok, type Result } from "@pollard/base";
import type { HerdId, StoreFailure } from "@pollard/records";
import { type HubDatabase, settle } from "../store/hub-database.ts";
import { guessCounter } from "./guesses.ts";
import { digestOf, newCode, newToken } from "./secrets.ts";

/**
 * What a device may do. `keeper`: everything; `helper`: record, strike its own, set nothing; `vet`: see the lists that
 * a keeper showed for a visit, and write what was done for the kids on them.
 */
export const ROLES = ["keeper", "helper", "vet"] as const;
export type Role = (typeof ROLES)[number];

/** A device that was let in. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly made: string;
  readonly seen: string | undefined;
  readonly revoked: string | undefined;
}

/** The device that a token belongs to, and its herd. */
export interface Holder {
  readonly herd: HerdId;
  readonly device: string;
  readonly role: Role;
}

/** A code that lets one device in. */
export interface Invite {
  readonly code: string;
  readonly role: Role;
  readonly expires: string;
}

/** A device that has just been let in. Its token is told this once. */
export interface Joined {
  readonly herd: HerdId;
  readonly device: string;
  readonly role: Role;
  readonly token: string;
}

/** What else is known of who joins. */
export interface Joining {
  /** The address of who asks, where it is known. */
  readonly from?: string | undefined;
  /** The tokens that it has already, for whatever herds of this hub. */
  readonly had?: readonly string[];
}

/** Who may see and write a herd, as this hub's database has it. */
export interface Access {
  /** A new code; those that have run out are forgotten. */
  invite(herd: HerdId, role: Role): Promise<Result<Invite, StoreFailure>>;
  /**
   * Lets one device in; the code is used up. A code whose time is over is no code; after many wrong ones nobody joins for a
   * while. A device of that herd that shows the token it had stays the same device, and that token ends.
   */
  join(
    code: string,
    name: string,
    of?: Joining,
  ): Promise<Result<Joined | "no-such-code" | "too-many-guesses", StoreFailure>>;
  /** Whose token this is; `undefined` for one that was never given, or is no longer let in. */
  holder(token: string): Promise<Result<Holder | undefined, StoreFailure>>;
  /** Every device of a herd, those no longer let in among them, newest first. */
  devices(herd: HerdId): Promise<Result<readonly Device[], StoreFailure>>;
  /** No longer lets a device in; `false` where the herd has no such device. */
  revoke(herd: HerdId, device: string): Promise<Result<boolean, StoreFailure>>;
  /** Takes that back: the device is let in again, by the token that it has. */
  letInAgain(herd: HerdId, device: string): Promise<Result<boolean, StoreFailure>>;
}

/** How long a code lets somebody in, ms. Long enough to find a phone, too short to be guessed. */
const CODE_MS = 10 * 60_000;
/** How seldom it is noted that a device was seen, ms: to the minute is enough, and most requests write nothing. */
const SEEN_MS = 60_000;

/** A role that a later hub made counts as the one that may least. */
const roleOf = (text: string): Role => ROLES.find((role) => role === text) ?? "vet";

/** Access as a database keeps it. `now` is the time as ISO text. */
export function accessIn({ db, write }: HubDatabase, now: () => Date): Access {
  const guesses = guessCounter(now);
  const stamp = (ms = 0): string => new Date(now().getTime() + ms).toISOString();
  return {
    invite: (herd, role) =>
      settle(async () => {
        const invite = { code: newCode(), role, expires: stamp(CODE_MS) };
        await write(async (part) => {
          await part.deleteFrom("invite").where("expires", "<", stamp()).execute();
          await part
            .insertInto("invite")
            .values({ code: digestOf(invite.code), herd, role, expires: invite.expires })
            .execute();
        });
        return invite;
      }),
    async join(code, name, { from, had = [] } = {}) {
      const wasNone = guesses.guess(from);
      if (wasNone === undefined) return ok("too-many-guesses");
      const joined = await settle(() =>
        write(async (part): Promise<Joined | "no-such-code"> => {
          // Deleting it first takes its row: of two who come with one code, one finds it.
          const invite = await part
            .deleteFrom("invite")
            .where("code", "=", digestOf(code))
            .returning(["herd", "role", "expires"])
            .executeTakeFirst();
          if (invite === undefined || invite.expires < stamp()) return "no-such-code";
          const token = newToken();
          const kept = {
            herd: invite.herd,
            name,
            role: roleOf(invite.role),
            token: digestOf(token),
            made: stamp(),
            seen: null,
            revoked: null,
          };
          const before =
            had.length === 0
              ? undefined
              : await part
                  .selectFrom("device")
                  .select("id")
                  .where("herd", "=", invite.herd)
                  .where("token", "in", had.map(digestOf))
                  .orderBy("made", "desc")
                  .executeTakeFirst();
          const device = before?.id ?? randomUUID();
          if (before === undefined)
            await part
              .insertInto("device")
              .values({ id: device, ...kept })
              .execute();
          else await part.updateTable("device").set(kept).where("id", "=", device).execute();
          return { herd: invite.herd as HerdId, device, role: kept.role, token };
        }),
      );
      if (!joined.ok || joined.value !== "no-such-code") wasNone();
      return joined;
    },
    async holder(token) {
      const found = await settle(() =>
        db
          .selectFrom("device")
          .select(["id", "herd", "role", "seen"])
          .where("token", "=", digestOf(token))
          .where("revoked", "is", null)
          .executeTakeFirst(),
      );
      if (!found.ok) return err(found.error);
      const device = found.value;
      if (device === undefined) return ok(undefined);
      if (device.seen === null || device.seen < stamp(-SEEN_MS)) {
        const noted = await settle(() =>
          db.updateTable("device").set({ seen: stamp() }).where("id", "=", device.id).execute(),
        );
        // A full disk must not keep a device from reading.
        if (!noted.ok && noted.error.code !== "full") return err(noted.error);
      }
      return ok({ herd: device.herd as HerdId, device: device.id, role: roleOf(device.role) });
    },
    devices: (herd) =>
      settle(async () => {
        const rows = await db
          .selectFrom("device")
          .select(["id", "name", "role", "made", "seen", "revoked"])
          .where("herd", "=", herd)
          .orderBy("made", "desc")
          .execute();
        return rows.map(
          (row): Device => ({
            ...row,
            role: roleOf(row.role),
            seen: row.seen ?? undefined,
            revoked: row.revoked ?? undefined,
          }),
        );
      }),
    revoke: (herd, device) =>
      settle(async () => {
        const done = await db
          .updateTable("device")
          .set({ revoked: stamp() })
          .where("id", "=", device)
          .where("herd", "=", herd)
          .where("revoked", "is", null)
          .executeTakeFirst();
        return done.numUpdatedRows > 0n;
      }),
    letInAgain: (herd, device) =>
      settle(async () => {
        const done = await db
          .updateTable("device")
          .set({ revoked: null })
          .where("id", "=", device)
          .where("herd", "=", herd)
          .where("revoked", "is not", null)
          .executeTakeFirst();
        return done.numUpdatedRows > 0n;
      }),
  };
}
