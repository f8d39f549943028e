import { once } from "node:events";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { gzipSync } from "node:zlib";
import { createAdaptorServer } from "@hono/node-server";
import type { HerdId } from "@pollard/records";
import { anEntry } from "@pollard/records/testing";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { jsonBody } from "../json-body.ts";
import { PATIENCE } from "../doors/patience.ts";
import { tried } from "../testing/attacked-hub.ts";
import { hubProgram, idsAt, pushTo } from "../testing/hub-program.ts";
import { hostileBody } from "./hostile.ts";

const { run } = hubProgram();
const folder = mkdtempSync(join(tmpdir(), "pollard-sockets-"));
let hub: ReturnType<typeof run>;
let address: string;
let port: number;

/** Clients that send the start of a request, a letter now and then, all the while the others are tried. */
const SLOW = 50;
const slow: Promise<{ readonly text: string; readonly seconds: number }>[] = [];
async function dribbling() {
  const from = performance.now();
  const socket = connect(port, "127.0.0.1");
  socket.write("GET /api/herds HTTP/1.1\r\nHost: localhost\r\nX-Slow: ");
  const beat = setInterval(() => socket.write("a"), 500);
  let text = "";
  socket.on("data", (part: Buffer) => (text += part.toString()));
  socket.on("error", () => undefined); // the other end hangs up in the middle of a letter
  await once(socket, "close");
  clearInterval(beat);
  return { text, seconds: (performance.now() - from) / 1000 };
}

beforeAll(async () => {
  hub = run(["--port", "0", "--data", folder, "--log"]);
  address = await hub.address();
  port = Number(new URL(address).port);
  for (let n = 0; n < SLOW; n++) slow.push(dribbling());
});
afterAll(async () => {
  hub.child.kill("SIGKILL");
  await hub.ended;
  rmSync(folder, { recursive: true, force: true });
});

/** What comes back for bytes as they are, until the hub closes or is silent for a while. */
async function raw(
  bytes: string | Uint8Array,
  silentMs = 400,
): Promise<{ readonly text: string; readonly isClosed: boolean }> {
  const socket = connect(port, "127.0.0.1");
  let text = "";
  let isClosed = false;
  let heard = performance.now();
  socket.on("data", (part: Buffer) => {
    text += part.toString("latin1");
    heard = performance.now();
  });
  socket.on("close", () => (isClosed = true));
  socket.on("error", () => undefined); // the other end may well hang up
  socket.write(bytes);
  while (!isClosed && performance.now() - heard < silentMs) await pause(10);
  socket.destroy();
  return { text, isClosed };
}

const statuses = (text: string): readonly number[] =>
  [...text.matchAll(/HTTP\/1\.1 (\d{3})/g)].map(([, status]) => Number(status));
const isAlive = async () => (await fetch(`${address}/api/health`)).status === 200;
const head = (...lines: readonly string[]) => `${lines.join("\r\n")}\r\n\r\n`;
const pushBytes = (herd: HerdId, entries: readonly unknown[], more: readonly string[]) => {
  const body = JSON.stringify({ exchange: 1, entries });
  const about = ["Host: localhost", "Content-Type: application/json", `Content-Length: ${body.length}`, ...more];
  return head(`POST /api/herds/${herd}/entries HTTP/1.1`, ...about) + body;
};
const HERDS = "GET /api/herds HTTP/1.1\r\nHost: localhost\r\n\r\n";

describe("bytes that are no proper request", () => {
  // RFC 9112 sections 3.2, 5.1, 6.1 and 6.3: what a server has to refuse, since two readers could understand it in two ways.
  test.each([
    [
      "a length and pieces at once",
      head("POST /api/join HTTP/1.1", "Host: localhost", "Content-Length: 5", "Transfer-Encoding: chunked") +
        `0\r\n\r\n${HERDS}`,
    ],
    [
      "two lengths",
      head("POST /api/join HTTP/1.1", "Host: localhost", "Content-Length: 5", "Content-Length: 50") + HERDS,
    ],
    ["a length that is none", head("POST /api/join HTTP/1.1", "Host: localhost", "Content-Length: +5") + HERDS],
    [
      "pieces that are hidden",
      head("POST /api/join HTTP/1.1", "Host: localhost", "Transfer-Encoding: xchunked") + `0\r\n\r\n${HERDS}`,
    ],
    [
      "pieces that are named twice",
      head("POST /api/join HTTP/1.1", "Host: localhost", "Transfer-Encoding: chunked", "Transfer-Encoding: identity") +
        `0\r\n\r\n${HERDS}`,
    ],
    ["a blank before the colon", head("GET /api/herds HTTP/1.1", "Host : localhost")],
    [
      "a piece with a length that is none",
      head("POST /api/join HTTP/1.1", "Host: localhost", "Transfer-Encoding: chunked") +
        `0x5\r\nhello\r\n0\r\n\r\n${HERDS}`,
    ],
    ["no host", head("GET /api/herds HTTP/1.1")],
    ["a header folded over two lines", head("GET /api/herds HTTP/1.1", "Host: localhost", "X-A: b", " c: d")],
    [
      "a bare line end in a header",
      head("GET /api/herds HTTP/1.1", "Host: localhost", "X-A: b\nTransfer-Encoding: chunked"),
    ],
    ["a NUL in a header", head("GET /api/herds HTTP/1.1", "Host: localhost", "X-A: b\u0000c")],
    ["headers of 200 kB", head("GET /api/herds HTTP/1.1", "Host: localhost", `X-A: ${"b".repeat(200_000)}`)],
    ["no HTTP at all", "\u0016\u0003\u0001\u0002\u0000\u0001\u0000\u0001\u00fc\u0003\u0003"],
    ["an unknown method", head("BREW /api/herds HTTP/1.1", "Host: localhost")],
  ])("[HU-82] %s: one refusal, the line is closed, and nothing behind it is read as a request", async (_, bytes) => {
    const { text, isClosed } = await raw(bytes);
    const said = statuses(text);
    expect(said.length).toBeLessThanOrEqual(1);
    for (const status of said) expect([400, 405, 431]).toContain(status);
    expect(isClosed).toBe(true);
    expect(text).not.toContain('"herds"');
    expect(await isAlive()).toBe(true);
  });

  test.each([
    [
      "two hosts",
      head("GET /api/herds HTTP/1.1", "Host: localhost", "Host: evil.example", "Connection: close"),
      [400, 421],
    ],
    [
      "an address with a host of its own",
      head("GET http://evil.example/api/herds HTTP/1.1", "Host: localhost", "Connection: close"),
      [400, 421],
    ],
    [
      "a host with a name before it",
      head("GET /api/herds HTTP/1.1", "Host: localhost@evil.example", "Connection: close"),
      [400, 421],
    ],
    ["a host with a path", head("GET /api/herds HTTP/1.1", "Host: localhost/evil", "Connection: close"), [400, 421]],
    ["an empty host", head("GET /api/herds HTTP/1.1", "Host:", "Connection: close"), [400, 421]],
    ["a tunnel", head("CONNECT localhost:22 HTTP/1.1", "Host: localhost", "Connection: close"), []],
    [
      "an upgrade",
      head("GET /api/herds/x/entries HTTP/1.1", "Host: evil.example", "Connection: Upgrade", "Upgrade: websocket"),
      [400, 421],
    ],
  ])("[HU-82] %s opens nothing", async (_, bytes, may) => {
    const { text } = await raw(bytes);
    for (const status of statuses(text)) expect(may).toContain(status);
    expect(text).not.toContain('"herds"');
    expect(await isAlive()).toBe(true);
  });

  test("[HU-82] folders above the app's are not reached by an address that no client would put right", async () => {
    const ways = [
      "/../../../../etc/passwd",
      "/assets/../../../../../etc/passwd",
      "//etc/passwd",
      "/..%2f..%2f..%2f..%2fetc%2fpasswd",
      "/%2e%2e/%2e%2e/%2e%2e/etc/passwd",
      "/..\\..\\..\\etc\\passwd",
      "/%c0%ae%c0%ae/etc/passwd",
      "/....//....//etc/passwd",
      "/api/herds/herd/photos/..%2f..%2fhub.db",
      "/api/herds/herd/photos/../../../../etc/passwd",
      "/.git/config",
      "/package.json",
    ];
    for (const way of ways) {
      const { text } = await raw(head(`GET ${way} HTTP/1.1`, "Host: localhost", "Connection: close"));
      expect([way, /root:|\[core\]|"workspaces"|SQLite format/.test(text)]).toEqual([way, false]);
    }
    tried("paths over sockets", ways.length);
  });

  test("[HU-80] some hundred hostile bodies over sockets", async () => {
    let count = 0;
    await fc.assert(
      fc.asyncProperty(hostileBody, fc.constantFrom("herd", "__proto__", "%00"), async (body, herd) => {
        const response = await fetch(`${address}/api/herds/${herd}/entries`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body,
        });
        await response.text();
        expect(response.status).toBeLessThan(500);
        count++;
      }),
      { numRuns: 300 },
    );
    tried("hostile bodies over sockets", count);
  });

  test("[HU-80] a body that is packed is not unpacked: what is small on its way stays small", async () => {
    const bomb = gzipSync(Buffer.alloc(64 * 1024 * 1024, 32));
    const response = await fetch(`${address}/api/herds/herd/entries`, {
      method: "POST",
      headers: { "content-type": "application/json", "content-encoding": "gzip" },
      body: bomb,
    });
    expect([response.status, await response.json()]).toMatchObject([400, { code: "not-json" }]);
  });
});

describe("a line that is cut", () => {
  test.each([10, 50, 90])(
    "[HU-83] at %i in a hundred of a push: nothing of it is kept, and again it is kept whole",
    async (share) => {
      const herd = `cut-${share}`;
      const entries = Array.from({ length: 50 }, (_, n) => anEntry("note", { text: `rain ${n}` }, { herd }));
      const body = JSON.stringify({ exchange: 1, entries });
      const socket = connect(port, "127.0.0.1");
      await once(socket, "connect");
      const start = head(
        `POST /api/herds/${herd}/entries HTTP/1.1`,
        "Host: localhost",
        "Content-Type: application/json",
        `Content-Length: ${body.length}`,
      );
      socket.write(start + body.slice(0, Math.floor((body.length * share) / 100)));
      await pause(50);
      socket.resetAndDestroy();
      await pause(50);
      expect(await idsAt(address, herd)).toEqual([]);
      expect((await pushTo(address, entries, herd)).verdicts.map(({ verdict }) => verdict)).toEqual(
        entries.map(() => "accepted"),
      );
      expect(await idsAt(address, herd)).toEqual(entries.map(({ id }) => id));
    },
  );

  test("[HU-83] after the whole push, before its answer: again it is known", async () => {
    const entries = [anEntry("note", { text: "rain" }, { herd: "unheard" })];
    const body = JSON.stringify({ exchange: 1, entries });
    const socket = connect(port, "127.0.0.1");
    await once(socket, "connect");
    socket.write(
      head(
        "POST /api/herds/unheard/entries HTTP/1.1",
        "Host: localhost",
        "Content-Type: application/json",
        `Content-Length: ${body.length}`,
      ) + body,
    );
    socket.end();
    while ((await idsAt(address, "unheard")).length === 0) await pause(10);
    socket.resetAndDestroy();
    expect((await pushTo(address, entries, "unheard")).verdicts).toEqual([{ verdict: "known" }]);
  });

  test("[HU-83] two hundred lines cut in every place leave the hub as it was, and no fault in its log", async () => {
    const request =
      head(
        "POST /api/herds/herd/entries HTTP/1.1",
        "Host: localhost",
        "Content-Type: application/json",
        "Content-Length: 40",
      ) + "{".repeat(40);
    await Promise.all(
      Array.from({ length: 200 }, async (_, n) => {
        const socket = connect(port, "127.0.0.1");
        socket.on("error", () => undefined); // it is cut on purpose
        await once(socket, "connect");
        socket.write(request.slice(0, 1 + (n % request.length)));
        await pause(5);
        socket.resetAndDestroy();
      }),
    );
    expect(await isAlive()).toBe(true);
    tried("lines cut", 200);
  });
});

describe("a thousand clients at once", () => {
  test("[HU-84] all are answered, each push is kept, and memory stays bounded", async () => {
    const isLinux = process.platform === "linux";
    const rss = () => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${hub.child.pid}/status`, "utf8"))?.[1]) / 1024;
    const before = isLinux ? rss() : 0;
    const herd = "crowd" as HerdId;
    const sockets = await Promise.all(
      Array.from({ length: 1000 }, async () => {
        const socket = connect(port, "127.0.0.1");
        await once(socket, "connect");
        return socket;
      }),
    );
    const pushed: string[] = [];
    const answers = await Promise.all(
      sockets.map(async (socket, n) => {
        if (n % 5 === 0) {
          const entry = anEntry("note", { text: "rain" }, { herd });
          pushed.push(entry.id);
          socket.write(pushBytes(herd, [entry], ["Connection: close"]));
        } else socket.write(head("GET /api/herds/crowd/entries HTTP/1.1", "Host: localhost", "Connection: close"));
        let text = "";
        for await (const part of socket) text += (part as Buffer).toString();
        return text;
      }),
    );
    expect(answers.filter((text) => !text.startsWith("HTTP/1.1 200"))).toEqual([]);
    expect(new Set(await idsAt(address, herd))).toEqual(new Set(pushed));
    expect((isLinux ? rss() : 0) - before).toBeLessThan(250); // MB
    tried("clients at once", sockets.length);
  }, 60_000);

  test("[HU-85] whoever sends the start of a request a letter at a time is told so and hung up on", async () => {
    for (const { text, seconds } of await Promise.all(slow)) {
      expect(statuses(text)).toEqual([408]);
      expect(seconds).toBeLessThan(25);
    }
    expect(await isAlive()).toBe(true);
    tried("slow clients", SLOW);
  });

  test("[HU-85] the same for the rest of a request, in a hundredth of the time", async () => {
    const scaled = Object.fromEntries(Object.entries(PATIENCE).map(([name, ms]) => [name, ms / 100]));
    const server = createAdaptorServer({
      fetch: async (request) => Response.json(await jsonBody(request)),
      overrideGlobalObjects: false,
      serverOptions: scaled,
    });
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    const from = performance.now();
    const socket = connect((server.address() as AddressInfo).port, "127.0.0.1");
    socket.write(pushBytes("herd" as HerdId, [], []).slice(0, -5));
    socket.on("error", () => undefined); // the other end hangs up
    socket.resume();
    await once(socket, "close");
    expect(performance.now() - from).toBeGreaterThan(2500);
    expect(performance.now() - from).toBeLessThan(6000);
    server.close();
  });
});

test("[HU-82] what was tried is in the log by sort only, each line one whole JSON, and the hub ends cleanly", async () => {
  const forged = '"}\n{"what":"forged","level":"error"}';
  await fetch(`${address}/api/${encodeURIComponent(forged)}`, { headers: { "user-agent": "forged" } });
  await raw(head('GET /x"}\u000b{"what":"forged" HTTP/1.1', "Host: localhost", "Connection: close"));
  hub.child.kill("SIGTERM");
  const { code, out, problems } = await hub.ended;
  const lines = out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as { readonly what: string; readonly level: string });
  expect(lines.length).toBeGreaterThan(1000);
  expect(lines.filter(({ what }) => what === "forged")).toEqual([]);
  expect(lines.filter(({ level }) => level === "error")).toEqual([]);
  expect([code, problems]).toEqual([0, ""]);
});
