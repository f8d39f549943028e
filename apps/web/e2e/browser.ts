import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { kill } from "node:process";
import { present } from "@pollard/base";
import packaged from "@sparticuz/chromium";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";

const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Where a Chrome or Chromium usually lies. */
const USUAL_PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
];

/** The browser to test in: the one named by CHROMIUM_PATH, one on this machine, or the one in our packages. */
export async function browserPath(): Promise<string> {
  const named = process.env["CHROMIUM_PATH"];
  if (named !== undefined && named !== "") return named;
  const found = USUAL_PLACES.find((place) => existsSync(place));
  if (found !== undefined) return found;
  process.env["TMPDIR"] ??= tmpdir();
  return packaged.executablePath();
}

export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: await browserPath(), args: [...FLAGS, ...more] });
}

/** A small phone held upright. */
export const PHONE = { viewport: { width: 360, height: 640 }, hasTouch: true, isMobile: true } as const;
export const DESK = { viewport: { width: 1280, height: 800 } } as const;

/** How long a test waits for anything on the page, ms: generous for a slow machine, short enough to be told of. */
const PATIENCE_MS = 20_000;

/** A phone, or another device, with one page. Errors of the page are kept to be looked at. */
export interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly errors: string[];
}

/** A phone of its own: own storage, own service worker. */
export async function newPhone(browser: Browser, device: BrowserContextOptions = PHONE): Promise<Phone> {
  const context = await browser.newContext({ locale: "en-GB", ...device, acceptDownloads: true });
  const page = await context.newPage();
  return { context, page, errors: watch(page) };
}

/** Sets the patience, and gathers what goes wrong on the page. */
export function watch(page: Page): string[] {
  page.setDefaultTimeout(PATIENCE_MS);
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  return errors;
}

/** A browser that can be killed the hard way and started again on the same storage, like a phone whose battery is pulled. */
export interface Killable {
  readonly page: Page;
  /** Killed again, it stays dead. */
  kill(): Promise<void>;
}

/** Storage of a browser that outlives it. */
export interface Profile {
  /** Starts a browser on it; the one before has to be dead. */
  start(): Promise<Killable>;
  /** Kills what still runs on it, and removes it. */
  remove(): Promise<void>;
}

export function newProfile(): Profile {
  const folder = mkdtempSync(join(tmpdir(), "pollard-profile-"));
  let last: Killable | undefined;
  return {
    start: async () => (last = await killableBrowser(folder)),
    remove: async () => {
      await last?.kill();
      removeFolder(folder);
    },
  };
}

/**
 * Removes a folder of a browser that was killed. A part of it that still writes as it dies is no fault of what was tested:
 * what is left then lies in the system's folder for passing things.
 */
function removeFolder(path: string): void {
  try {
    rmSync(path, { recursive: true, force: true, maxRetries: 20, retryDelay: 300 });
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "ENOTEMPTY")) throw error;
  }
}

async function killableBrowser(profile: string): Promise<Killable> {
  const args = [...FLAGS, "--remote-debugging-port=0", `--user-data-dir=${profile}`, "--window-size=360,640"];
  const process = spawn(await browserPath(), args, { stdio: ["ignore", "ignore", "pipe"], detached: true });
  const ended = new Promise((settle) => process.once("exit", settle));
  const browser = await chromium.connectOverCDP(await debuggerOf(process));
  const context = browser.contexts()[0] ?? (await browser.newContext());
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize(PHONE.viewport);
  watch(page);
  return {
    page,
    kill: async () => {
      // All its parts at once, as when a battery is pulled: a part that outlived the others would go on writing.
      if (process.exitCode === null && process.signalCode === null)
        kill(-present(process.pid, "the browser's number"), "SIGKILL");
      await ended;
      await browser.close().catch(() => undefined);
    },
  };
}

function debuggerOf(process: ChildProcess): Promise<string> {
  return new Promise((settle, fail) => {
    let said = "";
    process.once("exit", (code) => fail(new Error(`the browser ended with ${code}: ${said}`)));
    process.stderr?.on("data", (part: Buffer) => {
      said += part.toString();
      const found = /ws:\/\/\S+/.exec(said);
      if (found) settle(found[0]);
    });
  });
}

/** A browser without a font draws blank pages in silence: the first word on the page has to be wider than nothing. */
export async function widthOfFirstWord(page: Page): Promise<number> {
  return page
    .locator("h1")
    .first()
    .evaluate((heading) => {
      const range = document.createRange();
      range.selectNodeContents(heading);
      return range.getBoundingClientRect().width;
    });
}
