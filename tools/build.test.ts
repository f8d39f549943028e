import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { buildIfNeeded } from "./build.mjs";
import { root } from "./repository.ts";
import { loadTs } from "./run-ts.mjs";

/** A project of three files, laid out as ours is. */
const small = mkdtempSync(join(tmpdir(), "pollard-build-"));
afterAll(() => rmSync(small, { recursive: true }));
symlinkSync(join(root, "node_modules"), join(small, "node_modules"));
function write(path: string, text: string) {
  mkdirSync(dirname(join(small, path)), { recursive: true });
  writeFileSync(join(small, path), text);
}
write(
  "apps/hub/src/main.ts",
  'import { addDays, day } from "@pollard/base"; export const x: string = addDays(day("2026-02-28"), 1);',
);
write("packages/base/src/rain.ts", "");

const built = join(small, "apps/hub/dist/main.mjs");
const load = async () =>
  (await import(/* @vite-ignore */ `${pathToFileURL(built).href}?${Date.now()}`)) as { x: string };

describe("building", () => {
  test("[HO-13] an app is built when it is not there, and again only when what it is made of has changed", async () => {
    expect(await buildIfNeeded(small, ["hub"])).toEqual(["hub"]);
    expect((await load()).x).toBe("2026-03-01");
    expect(await buildIfNeeded(small, ["hub"])).toEqual([]);

    write("apps/hub/src/main.test.ts", "what no build reads");
    write("apps/hub/README.md", "neither this");
    write("packages/base/published/table.json", "[]");
    expect(await buildIfNeeded(small, ["hub"])).toEqual([]);

    write("packages/base/src/rain.ts", "export const rain = 1;");
    expect(await buildIfNeeded(small, ["hub"])).toEqual(["hub"]);
    rmSync(built);
    expect(await buildIfNeeded(small, ["hub"])).toEqual(["hub"]);
  });

  test("[HO-13] what stops a build is said with the app's name, and the next build tries again", async () => {
    const whole = readFileSync(join(small, "apps/hub/src/main.ts"), "utf8");
    write("apps/hub/src/main.ts", "export const = ;");
    await expect(buildIfNeeded(small, ["hub"])).rejects.toThrow("hub could not be built");
    write("apps/hub/src/main.ts", whole);
    expect(await buildIfNeeded(small, ["hub"])).toEqual([]); // what stands there was made of just these files
    await expect(buildIfNeeded(small, ["barn"])).rejects.toThrow("nothing is called barn");
  });

  test("[HO-13] a TypeScript file runs where it lies, with the packages as they stand", async () => {
    const file = join(small, "probe.ts");
    writeFileSync(
      file,
      'import { day } from "@pollard/base"; export const seen: string[] = [day("2026-01-01"), import.meta.url, import.meta.dirname];',
    );
    expect((await loadTs(file))["seen"]).toEqual(["2026-01-01", pathToFileURL(file).href, small]);
  });
});
