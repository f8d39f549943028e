import { err, ok, type Result } from "@pollard/base";

/** Largest request the hub takes in, bytes. A thousand ordinary entries are about 400 kB. */
export const LARGEST_BODY = 4 * 1024 * 1024;

/** Deepest nesting of brackets. An entry inside a correction inside a push is about 8. */
const DEEPEST = 32;

export type BodyProblem = "wrong-content-type" | "too-large" | "cut-short" | "too-deep" | "not-json";

/**
 * The JSON a request carries, read no further than the limits allow.
 *
 * Errors: `BodyProblem` as value; the size is counted while reading, so a false Content-Length gains nothing.
 */
export async function jsonBody(request: Request): Promise<Result<unknown, BodyProblem>> {
  const type = request.headers.get("content-type") ?? "";
  if (!/^application\/json\s*(;|$)/i.test(type)) return err("wrong-content-type");
  const bytes = await bytesUpTo(LARGEST_BODY, request);
  if (!bytes.ok) return bytes;
  try {
    // Letters that are none are not mended: what was kept would be another text than was sent.
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes.value);
    if (depthOf(text) > DEEPEST) return err("too-deep");
    return ok(JSON.parse(text));
  } catch {
    return err("not-json");
  }
}

/**
 * The bytes a request carries.
 *
 * Errors: `too-large`, and then no more than the limit was read; `cut-short` where the line broke, and nobody hears it.
 */
export async function bytesUpTo(
  limit: number,
  request: Request,
): Promise<Result<Uint8Array, "too-large" | "cut-short">> {
  if (Number(request.headers.get("content-length") ?? 0) > limit) return err("too-large");
  if (request.body === null) return ok(new Uint8Array());
  const reader = request.body.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const read = await reader.read().catch(() => undefined);
    if (read === undefined) return err("cut-short");
    const { done, value } = read;
    if (done) return ok(Buffer.concat(parts, size));
    size += value.byteLength;
    if (size > limit) {
      await reader.cancel();
      return err("too-large");
    }
    parts.push(value);
  }
}

/** How deep the brackets of a JSON text go, strings left out; counted before parsing, so depth costs no stack. */
function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (inString) {
      if (c === "\\") i++;
      else if (c === '"') inString = false;
    } else if (c === '"') inString = true;
    else if (c === "[" || c === "{") deepest = Math.max(deepest, ++depth);
    else if (c === "]" || c === "}") depth--;
  }
  return deepest;
}
