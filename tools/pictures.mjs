import { spawnSync } from "node:child_process";
import { mkdirSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { loadTs } from "./run-ts.mjs";

/**
 * `node tools/pictures.mjs`, by hand: takes the pictures in docs/pictures, the demo herd on a small phone and on a computer.
 *
 * The phone's clock stands still in a kidding season, so the same app gives the same pictures on any day.
 */
const root = dirname(dirname(fileURLToPath(import.meta.url)));
const folder = join(root, "docs", "pictures");
const NOW = new Date("2027-03-16T07:40:00");
const VET_DAY = "2027-03-18"; // the demo herd's vet comes two days ahead (fixtures/herds/README.md)
/** No picture may be heavier: a README is read on phones, too. */
const HEAVIEST_KB = 120;

const kB = (/** @type {string} */ file) => statSync(file).size / 1000;

const built = spawnSync(process.execPath, ["tools/build.mjs", "web", "hub"], { cwd: root, stdio: "inherit" });
if (built.status !== 0) process.exit(3);
mkdirSync(folder, { recursive: true });

const { launchBrowser, PHONE, watch } = /** @type {typeof import("../apps/web/e2e/browser.ts")} */ (
  await loadTs(join(root, "apps/web/e2e/browser.ts"))
);
const { startHub } = /** @type {typeof import("../apps/web/e2e/hub-process.ts")} */ (
  await loadTs(join(root, "apps/web/e2e/hub-process.ts"))
);
const { go, readHead, startDemo } = /** @type {typeof import("../apps/web/e2e/steps.ts")} */ (
  await loadTs(join(root, "apps/web/e2e/steps.ts"))
);

/**
 * A screen to take: its address, or none for what comes of reading the head that was on the page before; what has to be there
 * before it is taken; the part that is to stand under the page's head; and how the page is lit, by day if not said.
 *
 * @typedef {{ readonly name: string, readonly path?: string, readonly wanted: string, readonly from?: string, readonly look?: string }} Picture
 * @type {readonly Picture[]}
 */
const ON_THE_PHONE = [
  { name: "today", path: "/", wanted: "main h2", from: "main h2" },
  { name: "reading", path: "/reading/demo-dunnock", wanted: "main input[type=radio]" },
  { name: "answer", wanted: ".squares" },
  { name: "vet-list", path: `/vet/${VET_DAY}`, wanted: "main h2", from: "main h2" },
  { name: "kidding-in-the-barn", path: "/kidding/demo-yarrow", wanted: "main input", look: "barn bare right" },
  { name: "help", path: "/help/reading", wanted: "main svg", from: "main svg" },
];
/** @type {readonly Picture[]} */
const AT_THE_DESK = [
  { name: "pairings", path: "/pairings", wanted: "main .plain-lines li" },
  { name: "pedigree", path: "/pedigree/demo-moth", wanted: "main svg:visible" },
  { name: "season", path: "/plan", wanted: "main svg:visible" },
];
/** A computer's window. */
const DESK = { viewport: { width: 1280, height: 800 } };

/** What is found on the head whose answer is shown. */
const SIGNS = { feel: "Low, rounded", skin: "Slides a little", whorls: "Clear whorl", crown: "Flat" };

/** Runs in the page: puts a part under the page's head, which stays where it is. */
const toTop = (/** @type {Element} */ part) => {
  const head = document.querySelector("header")?.getBoundingClientRect().height ?? 0;
  window.scrollTo(0, window.scrollY + part.getBoundingClientRect().top - head - 16);
};

/** Takes one picture, and says how heavy it is. */
async function take(/** @type {import("playwright-core").Page} */ page, /** @type {Picture} */ picture) {
  const { name, path, wanted, from, look = "day bare right" } = picture;
  if (path === undefined) await readHead(page, SIGNS);
  else {
    await page.evaluate((wish) => localStorage.setItem("pollard-look", wish), look);
    await go(page, hub.address, "/");
    await page.reload();
    // The herd is worked out on another thread, whose clock does not stand still: Today tells it the day.
    await page.getByRole("link", { name: /Moth/ }).first().waitFor();
    await go(page, hub.address, path);
  }
  await page.locator(wanted).first().waitFor({ timeout: 60_000 });
  if (from !== undefined) await page.locator(from).first().evaluate(toTop);
  await page.waitForTimeout(1500);
  const file = join(folder, `${name}.png`);
  await page.screenshot({ path: file, animations: "disabled" });
  console.log(`${relative(root, file)}: ${kB(file).toFixed(0)} kB`);
  if (kB(file) > HEAVIEST_KB) process.exitCode = 1;
}

const hub = await startHub();
const browser = await launchBrowser();
try {
  for (const { device, pictures } of [
    { device: { ...PHONE, deviceScaleFactor: 2 }, pictures: ON_THE_PHONE },
    { device: DESK, pictures: AT_THE_DESK },
  ]) {
    const context = await browser.newContext({ ...device, locale: "en-GB", serviceWorkers: "block" });
    const page = await context.newPage();
    watch(page);
    await page.clock.setFixedTime(NOW);
    await startDemo(page, hub.address);
    for (const picture of pictures) await take(page, picture);
    await context.close();
  }
} finally {
  await browser.close();
  await hub.stop();
}
