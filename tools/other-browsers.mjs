import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/**
 * `node tools/other-browsers.mjs`, by hand: the first reading in Firefox and in WebKit, where they are on this computer, and whether
 * the app comes up again without a hub. No part of `npm test`, which carries one browser with it.
 *
 * Firefox is driven by Marionette, WebKit by WebKitWebDriver (W3C WebDriver); WebKit's small browser wants a screen (`xvfb-run`).
 *
 * @typedef {{ readonly name: string, go(url: string): Promise<void>, run(script: string): Promise<unknown>, end(): Promise<void> }} Driven
 */
const root = dirname(dirname(fileURLToPath(import.meta.url)));
const PATIENCE_MS = 30_000;
const pause = (/** @type {number} */ ms) => new Promise((settle) => setTimeout(settle, ms));
const firstOf = (/** @type {readonly string[]} */ places) => places.find((place) => existsSync(place));

/** @returns {Promise<Driven | undefined>} */
async function firefox() {
  const program = firstOf([
    "/usr/bin/firefox",
    "/usr/bin/firefox-esr",
    "/Applications/Firefox.app/Contents/MacOS/firefox",
  ]);
  if (program === undefined) return undefined;
  const profile = mkdtempSync(join(tmpdir(), "pollard-firefox-"));
  const process = spawn(program, ["--headless", "--marionette", "--no-remote", "--profile", profile], {
    stdio: "ignore",
  });
  const socket = await connected(2828);
  let received = Buffer.alloc(0);
  /** @type {Map<number, { settle(value: any): void, fail(error: Error): void }>} */
  const waiting = new Map();
  socket.on("data", (part) => {
    received = Buffer.concat([received, part]);
    for (;;) {
      const colon = received.indexOf(":");
      const length = Number(received.subarray(0, colon).toString());
      if (colon < 0 || received.length < colon + 1 + length) return;
      const message = JSON.parse(received.subarray(colon + 1, colon + 1 + length).toString());
      received = received.subarray(colon + 1 + length);
      if (!Array.isArray(message)) continue;
      const [, id, error, value] = message;
      const asked = waiting.get(id);
      if (error) asked?.fail(new Error(error.message));
      else asked?.settle(value?.value ?? value);
    }
  });
  let next = 1;
  const send = (/** @type {string} */ command, /** @type {object} */ given) =>
    new Promise((settle, fail) => {
      const id = next++;
      waiting.set(id, { settle, fail });
      const text = JSON.stringify([0, id, command, given]);
      socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
  await send("WebDriver:NewSession", {});
  return {
    name: "Firefox",
    go: async (url) => void (await send("WebDriver:Navigate", { url })),
    run: (script) => send("WebDriver:ExecuteScript", { script, args: [] }),
    async end() {
      socket.destroy();
      process.kill();
      await pause(1000);
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** A socket to a port that is only just being opened. @param {number} port @returns {Promise<import("node:net").Socket>} */
async function connected(port) {
  for (const until = Date.now() + PATIENCE_MS; Date.now() < until; await pause(300)) {
    const socket = connect(port, "127.0.0.1");
    const isOpen = await new Promise((settle) => {
      socket.once("connect", () => settle(true));
      socket.once("error", () => settle(false));
    });
    if (isOpen) return socket;
  }
  throw new Error(`nothing answers on port ${port}`);
}

/** @returns {Promise<Driven | undefined>} */
async function webkit() {
  const driver = firstOf(["/usr/bin/WebKitWebDriver"]);
  const browser = firstOf(
    ["4.1", "6.0", "4.0"].map((version) => `/usr/lib/x86_64-linux-gnu/webkit2gtk-${version}/MiniBrowser`),
  );
  if (driver === undefined || browser === undefined || !process.env["DISPLAY"]) return undefined;
  const port = 4779;
  const running = spawn(driver, [`--port=${port}`], { stdio: "ignore" });
  (await connected(port)).destroy();
  /** @param {string} method @param {string} path @param {object} [body] @returns {Promise<any>} */
  const ask = async (method, path, body) => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const { value } = await response.json();
    if (value?.error) throw new Error(`${value.error} ${value.message}`);
    return value;
  };
  const alwaysMatch = { "webkitgtk:browserOptions": { binary: browser, args: ["--automation"] } };
  const { sessionId } = await ask("POST", "/session", { capabilities: { alwaysMatch } });
  return {
    name: "WebKit",
    go: (url) => ask("POST", `/session/${sessionId}/url`, { url }),
    run: (script) => ask("POST", `/session/${sessionId}/execute/sync`, { script, args: [] }),
    async end() {
      await ask("DELETE", `/session/${sessionId}`);
      running.kill();
    },
  };
}

/** From the first page to an answer, again after loading anew, and once more with the hub gone. @param {Driven} driven */
async function firstReading(driven) {
  const data = mkdtempSync(join(tmpdir(), "pollard-hub-"));
  const hub = spawn(process.execPath, [join(root, "apps/hub/dist/main.mjs"), "--port", "0", "--data", data]);
  /** @type {string} */
  const address = await new Promise((settle) =>
    hub.stdout.on("data", (said) => {
      const found = /http:\/\/localhost:\d+/.exec(said.toString());
      if (found) settle(found[0]);
    }),
  );
  const until = async (/** @type {string} */ what) => {
    for (const end = Date.now() + PATIENCE_MS; Date.now() < end; await pause(200))
      if (await driven.run(`return !!(${what})`)) return;
    throw new Error(
      `${what} did not come; the page says: ${String(await driven.run("return document.body.innerText"))}`,
    );
  };
  const said = (/** @type {string} */ text) => `document.body.innerText.includes(${JSON.stringify(text)})`;
  const press = async (/** @type {string} */ kind, /** @type {string} */ text) => {
    const found = `[...document.querySelectorAll('${kind}')].find((one) => one.textContent.trim().startsWith(${JSON.stringify(text)}))`;
    await until(found);
    await driven.run(`(${found}).click()`);
  };
  try {
    await driven.go(address);
    await press("button", "Look around");
    await until(said("using this device"));
    await driven.run(
      "const field = document.querySelector('input'); Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, 'Ines'); field.dispatchEvent(new Event('input', { bubbles: true }));",
    );
    await press("button", "Next");
    await press("button", "Start");
    await until(said("Dunnock"));
    await driven.run("location.hash = '/reading/demo-dunnock'");
    for (const answer of ["Pointed", "Held fast", "Clear whorl", "Flat"]) {
      await press("label.answer", answer);
      await until(said("Saved on this device"));
      await press("button", "Next");
    }
    await press("button", "Store this reading");
    await until("document.querySelector('.squares')");
    await until("navigator.serviceWorker && navigator.serviceWorker.controller");
    hub.kill();
    await pause(500);
    await driven.go(`${address}/#/answer/demo-dunnock`);
    await driven.run("location.reload()");
    await pause(2000);
    await until("document.querySelector('.squares')");
    console.log(`${driven.name}: a head was read, and its answer came up again without a hub.`);
  } finally {
    hub.kill();
    rmSync(data, { recursive: true, force: true });
  }
}

const built = spawnSync(process.execPath, ["tools/build.mjs", "web", "hub"], { cwd: root, stdio: "inherit" });
if (built.status !== 0) process.exit(3);
for (const [name, start] of /** @type {const} */ ([
  ["Firefox", firefox],
  ["WebKit", webkit],
])) {
  const driven = await start();
  if (driven === undefined) {
    console.log(`${name}: not on this computer${name === "WebKit" ? ", or no screen (xvfb-run)" : ""}.`);
    continue;
  }
  try {
    await firstReading(driven);
  } catch (error) {
    console.error(`${name}: ${error instanceof Error ? error.message : String(error)}`);
    process.exitCode = 1;
  } finally {
    await driven.end();
  }
}
