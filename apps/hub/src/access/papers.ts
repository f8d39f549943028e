import { randomUUID } from "node:crypto";
import type { Result } from "@pollard/base";
import type { HerdId, StoreFailure } from "@pollard/records";
import { type HubDatabase, settle } from "../store/hub-database.ts";
import { digestOf, newToken } from "./secrets.ts";
import type { Paper, Visit } from "./shown.ts";

/** A link by which a guest sees one kid's paper, as the keeper's list has it. */
export interface PaperLink {
  readonly id: string;
  readonly kid: string;
  readonly title: string;
  readonly made: string;
  readonly expires: string;
  readonly revoked: string | undefined;
}

/** A link that has just been made. Its secret is told this once. */
export interface NewPaper {
  readonly id: string;
  readonly token: string;
  readonly expires: string;
}

/** What is shown outside the herd: papers by link, and lists for a vet's visit. Nothing else of a herd is in here. */
export interface Papers {
  publish(herd: HerdId, of: { kid: string; paper: Paper; days: number }): Promise<Result<NewPaper, StoreFailure>>;
  links(herd: HerdId): Promise<Result<readonly PaperLink[], StoreFailure>>;
  /** Whether there was such a link, and it is over now. */
  takeBack(herd: HerdId, id: string): Promise<Result<boolean, StoreFailure>>;
  /** The paper of a link; nothing where it is over, was taken back or never was: nobody can tell which. */
  paperOf(token: string): Promise<Result<Paper | undefined, StoreFailure>>;
  /** The newest list for a day takes the place of the one before. */
  publishVisit(herd: HerdId, day: string, visit: Visit): Promise<Result<void, StoreFailure>>;
  /** Lists that are still shown, soonest first. */
  visits(herd: HerdId): Promise<Result<readonly (Visit & { readonly day: string })[], StoreFailure>>;
  takeBackVisit(herd: HerdId, day: string): Promise<Result<boolean, StoreFailure>>;
}

const DAY_MS = 86_400_000;
/** How long after its day a list is shown: a vet writes up the same evening, or within the week. Source: judgement. */
const VISIT_SHOWN_MS = 7 * DAY_MS;

/** What is shown outside, as a database keeps it. */
export function papersIn({ db, write }: HubDatabase, now: () => Date): Papers {
  const stamp = (ms = 0): string => new Date(now().getTime() + ms).toISOString();
  return {
    publish: (herd, { kid, paper, days }) =>
      settle(async () => {
        const made: NewPaper = { id: randomUUID(), token: newToken(), expires: stamp(days * DAY_MS) };
        await db
          .insertInto("paper")
          .values({
            id: made.id,
            herd,
            kid,
            token: digestOf(made.token),
            body: JSON.stringify(paper),
            made: stamp(),
            expires: made.expires,
            revoked: null,
          })
          .execute();
        return made;
      }),
    links: (herd) =>
      settle(async () => {
        const rows = await db
          .selectFrom("paper")
          .select(["id", "kid", "body", "made", "expires", "revoked"])
          .where("herd", "=", herd)
          .orderBy("made", "desc")
          .execute();
        return rows.map(({ body, revoked, ...row }) => ({
          ...row,
          title: (JSON.parse(body) as Paper).title,
          revoked: revoked ?? undefined,
        }));
      }),
    takeBack: (herd, id) =>
      settle(async () => {
        const done = await db
          .updateTable("paper")
          .set({ revoked: stamp() })
          .where("id", "=", id)
          .where("herd", "=", herd)
          .where("revoked", "is", null)
          .executeTakeFirst();
        return done.numUpdatedRows > 0n;
      }),
    paperOf: (token) =>
      settle(async () => {
        const found = await db
          .selectFrom("paper")
          .select("body")
          .where("token", "=", digestOf(token))
          .where("expires", ">", stamp())
          .where("revoked", "is", null)
          .executeTakeFirst();
        return found && (JSON.parse(found.body) as Paper);
      }),
    publishVisit: (herd, day, visit) =>
      settle(async () => {
        const body = JSON.stringify(visit);
        await write((part) =>
          part
            .insertInto("visit")
            .values({ herd, day, body, made: stamp() })
            .onConflict((there) => there.columns(["herd", "day"]).doUpdateSet({ body, made: stamp() }))
            .execute(),
        );
      }),
    visits: (herd) =>
      settle(async () => {
        const rows = await db
          .selectFrom("visit")
          .select(["day", "body"])
          .where("herd", "=", herd)
          .where("day", ">=", stamp(-VISIT_SHOWN_MS).slice(0, 10))
          .orderBy("day")
          .execute();
        return rows.map(({ day, body }) => ({ day, ...(JSON.parse(body) as Visit) }));
      }),
    takeBackVisit: (herd, day) =>
      settle(async () => {
        const done = await db.deleteFrom("visit").where("herd", "=", herd).where("day", "=", day).executeTakeFirst();
        return done.numDeletedRows > 0n;
      }),
  };
}
