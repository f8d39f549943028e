import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { addGoat, go, startOwnHerd } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

/** Names that run something, or fetch something, wherever they are taken for anything but text. */
const NAMES = [
  '<img src="https://evil.example/a" onerror="window.ran=1">',
  "<script>window.ran=1</script>",
  '"><svg onload="window.ran=1">',
  "javascript:window.ran=1",
] as const;

/** What a page asks for and says, to be looked at afterwards. */
function watched(page: Page) {
  const asked: string[] = [];
  const dialogs: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("dialog", (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  const expectQuiet = async () => {
    expect(await page.evaluate(() => "ran" in window)).toBe(false);
    expect(dialogs).toEqual([]);
    expect(asked.filter((url) => !url.startsWith(address) && !/^(?:data|blob):/.test(url))).toEqual([]);
  };
  return { asked, expectQuiet };
}

describe("names that would like to be more", () => {
  test("[UI-181] as names of herd, person and goats they are text on every page, and nobody else is asked for anything", async () => {
    const { page, errors } = await newPhone();
    const { asked, expectQuiet } = watched(page);
    await startOwnHerd(page, address, NAMES[1], NAMES[0]);
    for (const name of NAMES) await addGoat(page, address, { name, sex: "Doe", head: "Horned" });
    for (const path of ["/", "/animals", "/season", "/safe", "/more"]) {
      await go(page, address, path);
      await expectQuiet();
    }
    await go(page, address, "/animals");
    const said = await page.locator("main").innerText();
    for (const name of NAMES) expect(said).toContain(name);
    for (const name of NAMES) {
      await go(page, address, "/animals");
      await page.getByRole("link").filter({ hasText: name }).first().click();
      await page.getByRole("heading").filter({ hasText: name }).first().waitFor();
      await expectQuiet();
    }
    expect(asked.length).toBeGreaterThan(10);
    expect(errors).toEqual([]);
  });

  test("[HU-48] on a guest's page they are text too: nothing runs, nothing is fetched", async () => {
    const blocks = [
      ...NAMES.map((text) => ({ kind: "heading", text })),
      { kind: "facts", rows: NAMES.map((text) => [text, text]) },
      { kind: "table", columns: NAMES.map((title) => ({ title })), rows: [[...NAMES]] },
      { kind: "list", items: [...NAMES] },
      { kind: "warning", lines: [...NAMES] },
    ];
    const paper = { language: "en", title: NAMES[0], herd: NAMES[1], asOf: NAMES[2], blocks };
    const made = await fetch(`${address}/api/herds/hostile/papers`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ kid: "moth", days: 1, paper }),
    });
    expect(made.status).toBe(200);
    const { path } = (await made.json()) as { readonly path: string };
    const { page } = await newPhone();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    await page.goto(`${address}${path}`);
    const said = await page.locator("main").innerText();
    for (const name of NAMES) expect(said).toContain(name);
    expect(await page.locator("img, svg, script, a").count()).toBe(0);
    expect(asked.filter((url) => !url.endsWith("/favicon.ico"))).toEqual([`${address}${path}`]);
  });
});
