import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { DESK, launchBrowser, newPhone, PHONE } from "./browser.ts";
import { startHub } from "./hub-process.ts";
import { SCREENS } from "./screens.ts";
import { startDemo } from "./steps.ts";

/**
 * Takes every screen on the invented herd, on a small phone and at a desk, in three lights, to be looked at by a person.
 * By hand: `node tools/run-ts.mjs apps/web/e2e/shots.ts`; the pictures go to apps/web/e2e/shots, and nowhere else.
 */
const root = fileURLToPath(new URL("../../../", import.meta.url));
const folder = fileURLToPath(new URL("shots/", import.meta.url));
spawnSync(process.execPath, ["tools/build.mjs", "web", "hub"], { cwd: root, stdio: "inherit" });

const hub = await startHub();
const browser = await launchBrowser();
for (const [name, device] of [
  ["phone", PHONE],
  ["desk", DESK],
] as const) {
  const { context, page } = await newPhone(browser, device);
  await startDemo(page, hub.address);
  for (const light of ["day", "sun", "barn"]) {
    mkdirSync(`${folder}${name}-${light}`, { recursive: true });
    await page.evaluate((wanted) => localStorage.setItem("pollard-look", `${wanted} bare right`), light);
    await page.reload();
    for (const path of SCREENS) {
      await page.goto(`${hub.address}/#${path}`);
      await page.locator("h1").first().waitFor();
      await page.getByText("Working it out").first().waitFor({ state: "detached" });
      await page.waitForTimeout(200);
      const file = path === "/" ? "today" : path.slice(1).replaceAll("/", "-");
      await page.screenshot({ path: `${folder}${name}-${light}/${file}.png` });
    }
  }
  await context.close();
}
await browser.close();
await hub.stop();
