import { once } from "node:events";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer, type IncomingHttpHeaders, request as httpRequest } from "node:http";
import { request as tlsRequest } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { connect as connectTls, type SecureVersion } from "node:tls";
import { anEntry } from "@pollard/records/testing";
import { afterAll, describe, expect, test } from "vitest";
import { testCertificate } from "../testing/certificate.ts";
import { freePort } from "../testing/free-port.ts";
import { hubProgram, pushTo } from "../testing/hub-program.ts";

const { run } = hubProgram();
const folder = mkdtempSync(join(tmpdir(), "pollard-doors-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const NAME = "goats.example";

interface Answer {
  readonly status: number;
  readonly json: Readonly<Record<string, unknown>>;
}

interface Asking {
  readonly port: number;
  readonly host: string;
  /** The certificate to be trusted; without one the request goes in plain text. */
  readonly ca?: string;
  readonly token?: string;
}

/** A request as a phone makes it: to a port of this computer, under a name that leads there. */
function ask({ port, host, ca, token }: Asking, path: string, body?: unknown): Promise<Answer> {
  const headers = {
    host,
    ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
    ...(body === undefined ? {} : { "content-type": "application/json" }),
  };
  const options = { host: "127.0.0.1", port, path, method: body === undefined ? "GET" : "POST", headers, agent: false };
  return new Promise((settle, fail) => {
    const sent = ca === undefined ? httpRequest(options) : tlsRequest({ ...options, ca, servername: NAME });
    sent.on("error", fail);
    sent.on("response", (response) => {
      let text = "";
      response.on("data", (part: Buffer) => (text += part.toString()));
      response.on("end", () => {
        const isJson = response.headers["content-type"]?.includes("json") ?? false;
        settle({ status: response.statusCode ?? 0, json: isJson ? (JSON.parse(text) as Answer["json"]) : {} });
      });
    });
    sent.end(body === undefined ? undefined : JSON.stringify(body));
  });
}

/** A proxy as it is set up carelessly or well: which headers it hands on is all that matters here. */
async function proxyTo(port: number, headersOf: (headers: IncomingHttpHeaders) => IncomingHttpHeaders) {
  const server = createServer((incoming, outgoing) => {
    const { method, url } = incoming;
    const options = { host: "127.0.0.1", port, method, path: url, headers: headersOf(incoming.headers) };
    const onward = httpRequest(options, (response) => {
      outgoing.writeHead(response.statusCode ?? 502, response.headers);
      response.pipe(outgoing);
    });
    incoming.pipe(onward);
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  return { port: (server.address() as AddressInfo).port, close: () => server.close() };
}

/** A code that this computer gave out, used by whoever asks. */
async function joinedBy(house: string, phone: Asking): Promise<string> {
  const made = await fetch(`${house}/api/herds/herd/invites`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ role: "keeper" }),
  });
  const { code } = (await made.json()) as { readonly code: string };
  const joined = await ask(phone, "/api/join", { code, name: "Ines's phone" });
  expect(joined.status).toBe(200);
  return String(joined.json["token"]);
}

describe("the doors of a hub", () => {
  test("[HU-50] with a certificate of its own, a phone comes in by TLS under the hub's name, and by a code", async () => {
    const { cert, key } = testCertificate(NAME);
    const [certFile, keyFile] = [join(folder, "cert.pem"), join(folder, "key.pem")];
    writeFileSync(certFile, cert);
    writeFileSync(keyFile, key);
    const port = await freePort();
    const name = `https://${NAME}:${port}`;
    const data = join(folder, "tls");
    const hub = run(["--port", "0", "--data", data, "--name", name, "--cert", certFile, "--key", keyFile]);
    const house = await hub.address();
    const entry = anEntry("note", { text: "first kid" });
    await pushTo(house, [entry]);
    const phone: Asking = { port, host: `${NAME}:${port}`, ca: cert };
    const path = "/api/herds/herd/entries";
    expect(await ask(phone, path)).toMatchObject({ status: 401, json: { code: "not-let-in" } });
    // On this computer too, by that door nobody is at home.
    expect((await ask({ ...phone, host: `localhost:${port}` }, "/api/herds")).status).toBe(401);
    const token = await joinedBy(house, phone);
    expect((await ask({ ...phone, token }, path)).json).toMatchObject({ entries: [{ id: entry.id }] });
    const guess = async () => (await ask(phone, "/api/join", { code: "000000000000", name: "guesser" })).status;
    for (let n = 0; n < 5; n++) expect(await guess()).toBe(403);
    expect(await guess()).toBe(429);
    await expect(ask({ port, host: phone.host }, path)).rejects.toThrow(/hang up|reset|parse/i);
    await expect(ask({ ...phone, ca: testCertificate(NAME).cert }, path)).rejects.toThrow(/certificate|signature/i);
    hub.child.kill("SIGTERM");
    expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
  });

  test("[HU-94] the hub's own certificate is shown by TLS 1.2 and 1.3; who speaks an older one is told that it is the version", async () => {
    const { cert, key } = testCertificate(NAME);
    const [certFile, keyFile] = [join(folder, "versions.pem"), join(folder, "versions-key.pem")];
    writeFileSync(certFile, cert);
    writeFileSync(keyFile, key);
    const port = await freePort();
    const name = ["--name", `https://${NAME}:${port}`, "--cert", certFile, "--key", keyFile];
    const hub = run(["--port", "0", "--data", join(folder, "versions"), ...name]);
    await hub.address();
    const spoken = (version: SecureVersion) =>
      new Promise<string>((settle) => {
        // The lowest level lets this side speak the old ones at all, so that it is the hub that refuses.
        const versions = { minVersion: version, maxVersion: version, ciphers: "DEFAULT@SECLEVEL=0" } as const;
        const line = connectTls({ host: "127.0.0.1", port, servername: NAME, ca: cert, ...versions });
        line.on("secureConnect", () => {
          settle(line.getProtocol() ?? "");
          line.destroy();
        });
        line.on("error", (error) => settle("code" in error ? String(error.code) : error.message));
      });
    // RFC 8446 6.2: protocol_version, "the protocol version the peer has attempted to negotiate is recognized but not supported".
    for (const old of ["TLSv1", "TLSv1.1"] as const)
      expect(await spoken(old)).toBe("ERR_SSL_TLSV1_ALERT_PROTOCOL_VERSION");
    for (const good of ["TLSv1.2", "TLSv1.3"] as const) expect(await spoken(good)).toBe(good);
    hub.child.kill("SIGTERM");
    expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
  });

  test.each([
    ["hands the name on", (headers: IncomingHttpHeaders) => ({ ...headers, "x-forwarded-for": "203.0.113.9" })],
    [
      "puts its own name for the hub in its place and tells nothing",
      (headers: IncomingHttpHeaders) => Object.fromEntries(Object.entries(headers).filter(([name]) => name !== "host")),
    ],
    ["calls the hub localhost", (headers: IncomingHttpHeaders) => ({ ...headers, host: "localhost" })],
  ])("[HU-51] a proxy on this computer that %s lets nobody in without a token", async (_, headersOf) => {
    const port = await freePort();
    const data = join(folder, String(port));
    const hub = run(["--port", "0", "--data", data, "--name", `https://${NAME}`, "--behind-proxy", String(port)]);
    const house = await hub.address();
    const proxy = await proxyTo(port, headersOf);
    const phone: Asking = { port: proxy.port, host: NAME };
    for (const path of ["/api/herds", "/api/herds/herd/entries", "/api/herds/herd/devices", "/metrics"])
      expect([path, (await ask(phone, path)).status]).toEqual([path, 401]);
    // Whose guesses they are, a proxy's address does not tell.
    for (let n = 0; n < 6; n++)
      expect((await ask(phone, "/api/join", { code: "000000000000", name: "guesser" })).status).toBe(403);
    const token = await joinedBy(house, phone);
    expect((await ask({ ...phone, token }, "/api/herds/herd/entries")).status).toBe(200);
    expect((await ask({ ...phone, token }, "/api/herds")).status).toBe(403);
    expect((await fetch(`${house}/api/herds`)).status).toBe(200);
    proxy.close();
    hub.child.kill("SIGTERM");
    expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
  });
});
