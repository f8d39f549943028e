import { readFile, realpath, stat } from "node:fs/promises";
import { extname, join, resolve, sep } from "node:path";
import { packedOnce, packingFor } from "./packing.ts";
import { refuse } from "./reply.ts";

/** The app's files are few and change with the app only. */
const packOnce = packedOnce();

const CONTENT_TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".jsonl": "application/x-ndjson; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
};

/** A name with a digest of its contents never changes meaning; the build puts those under /assets/. */
const HASHED = /^\/assets\/.*-[\w-]{8}\.\w+$/;

/**
 * Serves the built web app from a folder.
 *
 * An address that is no file is a screen of the app, and gets index.html, if a person is going there or it has no
 * ending; otherwise it is a 404. Nothing outside the folder is ever read: not through `..`, an encoded slash or a link.
 *
 * Shape: the response to a GET of that path; hashed names may be kept for ever, everything else is asked for
 * again and answered with 304 while it stands.
 */
export async function webFile(root: string, pathname: string, request: Request): Promise<Response> {
  const name = decoded(pathname);
  if (name === undefined || !isInside(root, resolve(join(root, name)))) return refuse("no-such-page", { pathname });
  const found = await fileAt(root, name);
  if (found !== undefined) return fileResponse(found, pathname, request);
  const isScreen = extname(name) === "" || (request.headers.get("accept") ?? "").includes("text/html");
  const index = isScreen ? await fileAt(root, "/index.html") : undefined;
  return index === undefined ? refuse("no-such-page", { pathname }) : fileResponse(index, "/index.html", request);
}

function decoded(pathname: string): string | undefined {
  try {
    const name = decodeURIComponent(pathname);
    return name.includes("\0") || name.includes("\\") ? undefined : name;
  } catch {
    return undefined; // a broken escape names nothing
  }
}

const isInside = (root: string, path: string): boolean =>
  path === resolve(root) || path.startsWith(resolve(root) + sep);

interface Found {
  readonly path: string;
  readonly tag: string;
}

async function fileAt(root: string, name: string): Promise<Found | undefined> {
  try {
    const path = await realpath(join(root, name));
    const about = await stat(path);
    if (!about.isFile() || !isInside(await realpath(root), path)) return undefined;
    return { path, tag: `W/"${about.size.toString(36)}-${Math.floor(about.mtimeMs).toString(36)}"` };
  } catch {
    return undefined; // not there, or not ours to read: the caller answers for both
  }
}

async function fileResponse(found: Found, pathname: string, request: Request): Promise<Response> {
  const headers = {
    "content-type": CONTENT_TYPES[extname(found.path).toLowerCase()] ?? "application/octet-stream",
    "cache-control": HASHED.test(pathname) ? "public, max-age=31536000, immutable" : "no-cache",
    etag: found.tag,
  };
  if (request.headers.get("if-none-match") === found.tag) return new Response(null, { status: 304, headers });
  const bytes = await readFile(found.path);
  const packing = packingFor(request.headers.get("accept-encoding"), headers["content-type"], bytes.byteLength);
  const body = packing === undefined ? bytes : await packOnce(`${found.path} ${found.tag}`, bytes, packing);
  const sent = {
    vary: "accept-encoding",
    "content-length": String(body.byteLength),
    ...(packing === undefined ? {} : { "content-encoding": packing }),
  };
  return new Response(new Uint8Array(body), { headers: { ...headers, ...sent } });
}
