import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { HerdId } from "@pollard/records";
import { accessIn, type Role } from "../access/access.ts";
import type { Peer } from "../access/caller.ts";
import { papersIn } from "../access/papers.ts";
import { createHub } from "../hub.ts";
import { newsOf } from "../news.ts";
import { photosIn } from "../photos/photos.ts";
import { ledgersIn } from "../store/ledger-store.ts";
import { openDatabase } from "../store/open-database.ts";

/** The name under which phones reach it. */
export const REACH = "https://goats.example";

/** Who attacks: somebody at home, devices of the herd `oak`, one of another herd, somebody unknown. */
export const ATTACKERS = ["house", "keeper", "helper", "vet", "other keeper", "nobody"] as const;
export type Attacker = (typeof ATTACKERS)[number];

/** A request as it comes, with nothing put right. */
export interface Attack {
  readonly who: Attacker;
  readonly method: string;
  readonly path: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array<ArrayBuffer>;
}

/** A whole hub on an embedded file, with everything in it, for whoever wants to break it. */
export async function attackedHub(now: () => Date = () => new Date()) {
  const folder = mkdtempSync(join(tmpdir(), "pollard-attacked-"));
  const webRoot = join(folder, "web");
  mkdirSync(join(webRoot, "assets"), { recursive: true });
  writeFileSync(join(webRoot, "index.html"), "<!doctype html><title>app</title>");
  writeFileSync(join(webRoot, "assets", "index-B1x_9-Zq.js"), "1;");
  writeFileSync(join(folder, "secret.txt"), "not yours");
  const database = await openDatabase({ folder, address: undefined });
  const problems: string[] = [];
  const access = accessIn(database, now);
  const papers = papersIn(database, now);
  const news = newsOf(database);
  const hub = createHub({
    ledgers: ledgersIn(database),
    webRoot,
    log: (text) => void problems.push(text),
    access,
    papers,
    photos: photosIn(database),
    news,
    reach: REACH,
  });
  const letIn = async (herd: string, role: Role): Promise<string> => {
    const invite = await access.invite(herd as HerdId, role);
    const joined = invite.ok ? await access.join(invite.value.code, "a phone") : invite;
    if (!joined.ok || typeof joined.value === "string") throw new Error("nobody was let in");
    return joined.value.token;
  };
  const tokens: Readonly<Record<Attacker, string | undefined>> = {
    house: undefined,
    nobody: undefined,
    keeper: await letIn("oak", "keeper"),
    helper: await letIn("oak", "helper"),
    vet: await letIn("oak", "vet"),
    "other keeper": await letIn("elm", "keeper"),
  };
  const send = ({ who, method, path, headers = {}, body }: Attack): Promise<Response> => {
    const token = tokens[who];
    const at = who === "house" ? "http://localhost:4180" : REACH;
    const peer: Peer = who === "house" ? "this-computer" : "elsewhere";
    const asked = new Headers(headers);
    if (token !== undefined && !asked.has("authorization")) asked.set("authorization", `Bearer ${token}`);
    return hub(new Request(`${at}${path}`, { method, headers: asked, ...(body === undefined ? {} : { body }) }), peer);
  };
  const close = async (): Promise<void> => {
    news.stop();
    await database.close();
    rmSync(folder, { recursive: true });
  };
  return { folder, webRoot, database, access, papers, hub, tokens, problems, send, close };
}

/** What a count of attacks is printed as, for whoever wants to know how much was tried. */
export const tried = (kind: string, count: number): void =>
  void process.stdout.write(`attacks tried: ${kind}: ${count}\n`);
