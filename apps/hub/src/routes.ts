import type { HerdId } from "@pollard/records";
import type { Audience, Caller } from "./access/caller.ts";
import type { HubParts } from "./hub-parts.ts";
import { refuse } from "./reply.ts";

/** A request that has found its route. */
export interface Call {
  readonly parts: HubParts;
  readonly request: Request;
  readonly pathname: string;
  readonly search: URLSearchParams;
  /** What stands in the address where the route has `:name`, as it came: `decoded` reads it. */
  readonly named: Readonly<Record<string, string>>;
  /** Who asks; that he may has been seen to. */
  readonly caller: Caller;
  /** The address he asks from, where the socket tells it. */
  readonly from?: string | undefined;
}

/** One address of the hub and what may be done there. HEAD is GET without the body, everywhere. */
export interface Route {
  /** As it stands in logs and counts: `:name` for one part that varies; a `*` at the end for whatever follows. */
  readonly path: string;
  /** Who it is for: nobody else is answered. */
  readonly audience: Audience;
  readonly methods: Readonly<Partial<Record<"GET" | "POST" | "PUT" | "DELETE", (call: Call) => Promise<Response>>>>;
}

/** The first of the routes that fits a path, with what stands there where the route has `:name`. */
export function routeAt(
  routes: readonly Route[],
  pathname: string,
): { readonly route: Route; readonly named: Call["named"] } | undefined {
  const parts = pathname.split("/");
  for (const route of routes) {
    const named = fit(route.path.split("/"), parts);
    if (named) return { route, named };
  }
  return undefined;
}

function fit(wanted: readonly string[], parts: readonly string[]): Call["named"] | undefined {
  const isOpen = wanted.at(-1) === "*";
  if (isOpen ? parts.length < wanted.length : parts.length !== wanted.length) return undefined;
  const named: Record<string, string> = {};
  for (const [at, want] of wanted.entries()) {
    const part = parts[at] ?? "";
    if (isOpen && at === wanted.length - 1) return named;
    if (want.startsWith(":") && part !== "") named[want.slice(1)] = part;
    else if (want !== part) return undefined;
  }
  return named;
}

/** The answer of a route to a request, or the refusal of a method that it does not have. */
export async function answerOf(route: Route, call: Call): Promise<Response> {
  const { method } = call.request;
  const asked = method === "HEAD" ? "GET" : method;
  const answering = Object.hasOwn(route.methods, asked) ? route.methods[asked as "GET"] : undefined;
  if (answering === undefined) {
    const refusal = refuse("wrong-method", { method });
    refusal.headers.set("allow", Object.keys(route.methods).join(", ").replace("GET", "GET, HEAD"));
    return refusal;
  }
  const response = await answering(call);
  if (method !== "HEAD") return response;
  await response.body?.cancel(); // a line of news would stay open for nobody
  return new Response(null, response);
}

/** A part of an address in plain letters; `undefined` where an escape is broken. */
export function decoded(part: string | undefined): string | undefined {
  try {
    return part === undefined ? undefined : decodeURIComponent(part);
  } catch {
    return undefined;
  }
}

/** Longest name of a herd, as in an entry. */
const HERD_NAME_LIMIT = 80;

/** The herd that an address names; `undefined` where that can be none. */
export function herdNamed({ named }: Pick<Call, "named">): HerdId | undefined {
  const name = decoded(named["herd"]);
  return name === undefined || name === "" || name.length > HERD_NAME_LIMIT ? undefined : (name as HerdId);
}
