import { hostName, hostOf, LOCAL_HOSTS } from "../access/caller.ts";
import { refuse } from "../reply.ts";

/**
 * Why a request is not for this hub, or `undefined` where it is.
 *
 * Another page open in the same browser can reach a hub on loopback. A name that its owner points at 127.0.0.1 gives
 * itself away by the Host header; a form or a script of another site by Origin or Sec-Fetch-Site, which no page can
 * forge. A program without a browser sends neither header and is let through: who it is is asked afterwards.
 *
 * `reach` is the address under which other devices know the hub; its name is the only one beside this computer's.
 */
export function strayRequest(request: Request, reach?: string): Response | undefined {
  const host = hostOf(request);
  // An address may name a host of its own; two names in one request are none. Source: RFC 9112 3.2.2.
  if (new URL(request.url).hostname !== hostName(host)) return refuse("not-local", { host });
  const isLocal = LOCAL_HOSTS.has(hostName(host));
  if (!isLocal && (reach === undefined || new URL(reach).host !== host)) return refuse("not-local", { host });
  const origin = request.headers.get("origin");
  const own = isLocal ? `http://${host}` : reach;
  if (origin !== null && origin !== own && origin !== reach) return refuse("other-origin", { origin });
  const site = request.headers.get("sec-fetch-site");
  const isVisit = request.headers.get("sec-fetch-mode") === "navigate" && request.method === "GET";
  if (site !== null && site !== "same-origin" && site !== "none" && !isVisit) return refuse("other-origin", { site });
  return undefined;
}

/** Nothing but the app's own files runs or is loaded, nobody may frame it, and no address is told to others. */
const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  "content-security-policy": [
    "default-src 'self'",
    "script-src 'self' 'wasm-unsafe-eval'", // the solver is WebAssembly; text is never run as code
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join("; "),
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "geolocation=(), microphone=(), payment=(), usb=()",
};

/** For a year nothing under that name is asked for in plain text; whoever comes by a local name is told nothing of it. */
const TLS_ONLY = "max-age=31536000";

/** The same response with the security headers that every response of the hub carries; one that has a stricter policy keeps it. */
export function guarded(response: Response, request: Request, reach?: string): Response {
  if (reach !== undefined && hostOf(request) === new URL(reach).host)
    response.headers.set("strict-transport-security", TLS_ONLY);
  for (const [name, value] of Object.entries(SECURITY_HEADERS))
    if (!response.headers.has(name)) response.headers.set(name, value);
  return response;
}
