import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync } from "node:zlib";
import { ok } from "@pollard/base";
import { memoryStore } from "@pollard/records/testing";
import { afterAll, describe, expect, test } from "vitest";
import { createHub } from "./hub.ts";
import type { Ledgers } from "./store/ledgers.ts";

const folder = mkdtempSync(join(tmpdir(), "pollard-web-"));
afterAll(() => rmSync(folder, { recursive: true }));
const webRoot = join(folder, "dist");
mkdirSync(join(webRoot, "assets"), { recursive: true });
const FILES = {
  "index.html": "<!doctype html><title>app</title>",
  "service-worker.js": "// worker",
  "manifest.webmanifest": "{}",
  "demo.jsonl": "{}\n",
  "assets/index-B1x_9-Zq.js": "1;",
  "assets/letters-Qwertyui.woff2": "font",
  "assets/plain.svg": "<svg/>",
  "assets/large-B1x_9-Zq.js": "/* some words */\n".repeat(200),
};
for (const [name, text] of Object.entries(FILES)) writeFileSync(join(webRoot, name), text);
writeFileSync(join(folder, "secret.txt"), "not yours");
writeFileSync(join(folder, "dist-secret.txt"), "not yours");
symlinkSync(join(folder, "secret.txt"), join(webRoot, "link.txt"));

const ledgers: Ledgers = {
  of: (herd) => ({ herd, store: memoryStore(), copyFor: () => Promise.resolve(ok("copy")) }),
  herds: () => Promise.resolve(ok([])),
  bringers: () => Promise.resolve(ok(new Map())),
};
const hub = createHub({ ledgers, webRoot, log: () => undefined });
const get = (path: string, headers: Record<string, string> = {}, method = "GET") =>
  hub(new Request(`http://localhost:4180${path}`, { headers, method }));

describe("files of the web app", () => {
  test.each([
    ["/", "text/html", "no-cache"],
    ["/index.html", "text/html", "no-cache"],
    ["/service-worker.js", "text/javascript", "no-cache"],
    ["/manifest.webmanifest", "application/manifest+json", "no-cache"],
    ["/demo.jsonl", "application/x-ndjson", "no-cache"],
    ["/assets/index-B1x_9-Zq.js", "text/javascript", "public, max-age=31536000, immutable"],
    ["/assets/letters-Qwertyui.woff2", "font/woff2", "public, max-age=31536000, immutable"],
    ["/assets/plain.svg", "image/svg+xml", "no-cache"],
  ])("[HU-1] %s is %s and %s", async (path, type, cache) => {
    const response = await get(path);
    expect(response.status).toBe(200);
    expect(response.headers.get("content-type")).toContain(type);
    expect(response.headers.get("cache-control")).toBe(cache);
    const text = await response.text();
    expect(text).toBe(FILES[(path === "/" ? "index.html" : path.slice(1)) as keyof typeof FILES]);
    expect(response.headers.get("content-length")).toBe(String(text.length));
  });

  test("[HU-14] a text is sent packed to a browser that can unpack it, and whole to others", async () => {
    const path = "/assets/large-B1x_9-Zq.js";
    const whole = await get(path);
    const packed = await get(path, { "accept-encoding": "gzip, br" });
    const bytes = Buffer.from(await packed.arrayBuffer());
    expect([whole.headers.get("content-encoding"), packed.headers.get("content-encoding")]).toEqual([null, "br"]);
    expect(packed.headers.get("vary")).toBe("accept-encoding");
    expect(packed.headers.get("content-length")).toBe(String(bytes.length));
    expect(bytes.length).toBeLessThan(FILES["assets/large-B1x_9-Zq.js"].length / 10);
    expect(brotliDecompressSync(bytes).toString()).toBe(await whole.text());
  });

  test("[HU-1] a file that stands unchanged is not sent again", async () => {
    const tag = (await get("/index.html")).headers.get("etag") ?? "";
    const again = await get("/index.html", { "if-none-match": tag });
    expect([again.status, await again.text()]).toEqual([304, ""]);
    expect((await get("/index.html", { "if-none-match": '"other"' })).status).toBe(200);
  });

  test("[HU-1] HEAD says the same and sends no body", async () => {
    const head = await get("/index.html", {}, "HEAD");
    expect([head.status, head.headers.get("content-length"), await head.text()]).toEqual([200, "33", ""]);
  });

  test("[HU-2] a screen's address gets the app, whatever stands in it", async () => {
    for (const path of ["/today", "/animals/hazel", "/assets", "/kid/k%20%C3%B6"])
      expect(await (await get(path)).text()).toContain("<title>app");
    const visit = { accept: "text/html,application/xhtml+xml" };
    expect(await (await get("/animals/no.12", visit)).text()).toContain("<title>app");
  });

  test("[HU-2] a file that is not there is not there", async () => {
    for (const path of ["/gone.js", "/assets/old-12345678.js", "/%E0%A4%A.js"])
      expect((await get(path)).status).toBe(404);
  });

  test("[HU-2] nothing outside the folder is read", async () => {
    const ways = [
      "/../secret.txt",
      "/%2e%2e/secret.txt",
      "/..%2fsecret.txt",
      "/..%2f..%2f..%2f..%2fetc%2fpasswd",
      "/assets/..%2f..%2fsecret.txt",
      "/..%5csecret.txt",
      "/..%2fdist-secret.txt",
      "/link.txt",
      "/index.html%00.js",
    ];
    for (const way of ways) {
      const response = await get(way, { accept: "*/*" });
      expect([way, response.status]).toEqual([way, 404]);
      expect(await response.text()).not.toContain("not yours");
    }
  });
});
