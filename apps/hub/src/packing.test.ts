import { brotliDecompressSync, gunzipSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packed, packedOnce, packingFor } from "./packing.ts";

describe("packing what is sent", () => {
  test.each([
    ["gzip, deflate, br, zstd", "text/javascript; charset=utf-8", 5000, "br"],
    ["gzip, deflate", "text/css", 5000, "gzip"],
    ["GZIP;q=0.5", "application/wasm", 5000, "gzip"],
    ["br;q=0, gzip", "text/html", 5000, "gzip"],
    ["identity", "text/html", 5000, undefined],
    ["*", "text/html", 5000, undefined],
    [null, "text/html", 5000, undefined],
    ["br", "font/woff2", 5000, undefined],
    ["br", "image/png", 5000, undefined],
    ["br", "image/svg+xml", 5000, "br"],
    ["br", "text/html", 10, undefined],
  ])("[HU-14] whoever accepts %s gets %s of %i bytes as %s", (accepted, type, bytes, packing) => {
    expect(packingFor(accepted, type, bytes)).toBe(packing);
  });

  test("[HU-14] what was packed is what comes out again", async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 3000 }), async (body) => {
        expect(new Uint8Array(brotliDecompressSync(await packed(body, "br")))).toEqual(body);
        expect(new Uint8Array(gunzipSync(await packed(body, "gzip")))).toEqual(body);
      }),
      { numRuns: 30 },
    );
  });

  test("[HU-14] a body is packed once, another version anew", async () => {
    const once = packedOnce();
    const [first, again] = [once("a 1", Buffer.from("one"), "gzip"), once("a 1", Buffer.from("two"), "gzip")];
    expect(await again).toBe(await first);
    expect(gunzipSync(await once("a 2", Buffer.from("two"), "gzip")).toString()).toBe("two");
  });
});
