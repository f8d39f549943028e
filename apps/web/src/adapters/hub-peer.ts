import { err, ok, type Result } from "@pollard/base";
import type { ExchangePeer, HerdId, PeerFailure } from "@pollard/records";

/** How long the hub may take to answer one request, ms; a slow signal must not be worse than none. */
const PATIENCE_MS = 15_000;

/** A herd that the hub keeps. */
export interface HubHerd {
  readonly id: HerdId;
  readonly entries: number;
}

/** The hub that served this page, as the other side of an exchange. */
export function hubPeer(herd: HerdId, base: string): ExchangePeer {
  const entries = new URL(`api/herds/${encodeURIComponent(herd)}/entries`, base);
  return {
    push: (request) =>
      answerOf(entries, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify(request),
      }),
    pull(after, limit) {
      const asked = new URL(entries);
      asked.searchParams.set("after", String(after));
      asked.searchParams.set("limit", String(limit));
      return answerOf(asked, {});
    },
  };
}

/** The herds that the hub keeps; nothing where no hub answers. */
export async function hubHerds(base: string): Promise<readonly HubHerd[]> {
  const answer = await answerOf(new URL("api/herds", base), {});
  const herds = answer.ok ? (answer.value as { readonly herds?: unknown }).herds : undefined;
  return Array.isArray(herds) ? herds.filter(isHubHerd) : [];
}

const isHubHerd = (herd: unknown): herd is HubHerd =>
  typeof herd === "object" && herd !== null && "id" in herd && typeof herd.id === "string" && "entries" in herd;

async function answerOf(url: URL, request: RequestInit): Promise<Result<unknown, PeerFailure>> {
  try {
    const response = await fetch(url, { ...request, signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" });
    const isJson = response.headers.get("content-type")?.includes("json") ?? false;
    const json: unknown = isJson ? await response.json() : undefined;
    if (response.ok && isJson) return ok(json);
    const code = typeof json === "object" && json !== null && "code" in json ? String(json.code) : "no-hub";
    return err({ code: "peer-refused", status: response.status, reason: code });
  } catch (cause) {
    return err({ code: "unreachable", cause });
  }
}
