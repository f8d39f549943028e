import { ok, type Result } from "@pollard/base";
import type { HerdId, StoreFailure } from "@pollard/records";
import type { Access, Role } from "./access.ts";

/**
 * Who asks. `house`: a program on the hub's own computer, which runs as the keeper already. `device`: one that was let in to one
 * herd. `stranger`: anybody else, and whoever shows a token that lets nobody in (any longer).
 */
export type Caller =
  | { readonly kind: "house" }
  | { readonly kind: "device"; readonly herd: HerdId; readonly device: string; readonly role: Role }
  | { readonly kind: "stranger"; readonly token: "none" | "unknown" };

/** Where a request came from, as the socket tells; a header cannot. */
export type Peer = "this-computer" | "elsewhere";

/** Hosts by which a program on this computer names the hub. */
export const LOCAL_HOSTS: ReadonlySet<string> = new Set(["localhost", "127.0.0.1", "[::1]"]);

/** Headers that a proxy adds: with one of them the request came from somewhere else, whatever the socket says. */
const FORWARDED = ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "x-real-ip", "via"];

export const hostOf = (request: Request): string =>
  (request.headers.get("host") ?? new URL(request.url).host).toLowerCase();

export const hostName = (host: string): string => host.replace(/:\d*$/, "");

/** Whether a request was made on this computer: by its socket, by the name it asked for, and through no proxy. */
export const isHouse = (request: Request, peer: Peer): boolean =>
  peer === "this-computer" &&
  LOCAL_HOSTS.has(hostName(hostOf(request))) &&
  FORWARDED.every((name) => !request.headers.has(name));

/** Who asks, by where from and by token. A token is looked at even on this computer: who shows one asks in its name. */
export async function callerOf(
  request: Request,
  peer: Peer,
  access: Access | undefined,
): Promise<Result<Caller, StoreFailure>> {
  const [, token] = /^Bearer ([\w-]{20,200})$/.exec(request.headers.get("authorization") ?? "") ?? [];
  if (token !== undefined && access !== undefined) {
    const holder = await access.holder(token);
    if (!holder.ok) return holder;
    if (holder.value === undefined) return ok({ kind: "stranger", token: "unknown" });
    return ok({ kind: "device", ...holder.value });
  }
  if (isHouse(request, peer)) return ok({ kind: "house" });
  return ok({ kind: "stranger", token: request.headers.has("authorization") ? "unknown" : "none" });
}

/**
 * Who a route is for. `visit`: any device that was let in to the herd named, a vet's too; `member`: one of the herd's own
 * people, who see all of it; `keeper`: such a device of that role.
 */
export type Audience = "anyone" | "house" | "visit" | "member" | "keeper";

/**
 * Whether a caller may go on. To whoever may not, a herd that is here and one that is not look the same.
 *
 * The house may do whatever a keeper may.
 */
export function isWelcome(caller: Caller, audience: Audience, herd: string | undefined): boolean {
  if (audience === "anyone" || caller.kind === "house") return true;
  if (caller.kind === "stranger" || audience === "house" || caller.herd !== herd) return false;
  if (audience === "visit" || caller.role === "keeper") return true;
  return audience === "member" && caller.role === "helper";
}
