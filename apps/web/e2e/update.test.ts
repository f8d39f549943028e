import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { readFileSync, existsSync } from "node:fs";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { choose, go, startDemo, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const dist = fileURLToPath(new URL("../dist/", import.meta.url));
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
};

const { newPhone } = underTest();
let server: Server;
let edition = 1;

/** The built app from a plain file server whose service worker can become another edition. */
beforeAll(async () => {
  server = createServer((request, response) => {
    const name = (request.url ?? "/").split("?")[0] ?? "/";
    const path = join(dist, name === "/" ? "index.html" : name);
    if (!existsSync(path)) {
      response.writeHead(404).end();
      return;
    }
    response.setHeader("content-type", TYPES[extname(path)] ?? "application/octet-stream");
    const body = readFileSync(path);
    response.end(name === "/service-worker.js" ? `${body.toString()}\n// edition ${edition}` : body);
  });
  await new Promise<void>((settle) => server.listen(0, "127.0.0.1", settle));
});
afterAll(() => {
  server.close();
});

/** Asks for a newer edition, and waits until it lies ready beside the one that runs. */
const fetchUpdate = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const isWaiting = () => registration.waiting?.state === "installed";
    for (let tries = 0; tries < 100 && !isWaiting(); tries++) await new Promise((settle) => setTimeout(settle, 100));
    return isWaiting();
  });

describe("a newer app", () => {
  test("[UI-9] it waits while an answer is open, is offered afterwards, and takes over when somebody agrees", async () => {
    const { page } = await newPhone();
    const address = `http://localhost:${(server.address() as AddressInfo).port}`;
    await startDemo(page, address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await go(page, address, "/reading/demo-dunnock");
    await untilHeading(page, /What do you feel/);
    await choose(page, "Pointed");
    await untilSaved(page);
    await page.evaluate(() => Object.assign(window, { notReloaded: "yes" }));

    edition++;
    expect(await fetchUpdate(page)).toBe(true);
    expect(await page.evaluate(() => "notReloaded" in window)).toBe(true);
    expect(await page.getByRole("radio", { name: "Pointed", exact: true }).isChecked()).toBe(true);
    await go(page, address, "/");
    await page.getByText("You were here").waitFor();
    expect(await page.getByText("A newer Pollard is ready.").count()).toBe(0);

    await page.getByRole("button", { name: "Put aside" }).click();
    await go(page, address, "/animals");
    await go(page, address, "/");
    await page.getByText("A newer Pollard is ready.").waitFor();
    expect(await page.evaluate(() => "notReloaded" in window)).toBe(true);
    await page.getByRole("button", { name: "Change over now" }).click();
    await page.waitForFunction(() => !("notReloaded" in window));
    await page.getByText("1 answer put aside").waitFor();
    expect(await page.getByText("A newer Pollard is ready.").count()).toBe(0);
  });
});
