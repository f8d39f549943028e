import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { launchBrowser } from "../apps/web/e2e/browser.ts";
import { type FourLociTimes, timeFourLoci } from "./herds/four-loci.ts";

/** The genotypes of a herd of 300 at four loci where the app works them out: in a worker of the browser, beside Node. */
const TARGET_MS = 50;
/** An address at which the browser finds nothing but what is given to it here. */
const PLACE = "http://localhost";

export async function bench() {
  const root = fileURLToPath(new URL("../", import.meta.url));
  const output = join(root, "node_modules", ".pollard-run", "four-loci-worker.mjs");
  const { bundle }: typeof import("../tools/bundle.mjs") = await import(join(root, "tools/bundle.mjs"));
  await bundle({ input: join(root, "bench/herds/four-loci-worker.ts"), output, external: [] });
  const program = readFileSync(output, "utf8");
  rmSync(output);
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage();
    await page.route(`${PLACE}/**`, (route) => {
      const isProgram = route.request().url().endsWith(".js");
      return isProgram
        ? route.fulfill({ contentType: "text/javascript", body: program })
        : route.fulfill({ contentType: "text/html", body: "<!doctype html><title>bench</title>" });
    });
    await page.goto(`${PLACE}/`);
    const inWorker = await page.evaluate(
      () =>
        new Promise<readonly FourLociTimes[]>((settle, fail) => {
          const worker = new Worker("/program.js", { type: "module" });
          worker.addEventListener("message", ({ data }) => settle(data));
          worker.addEventListener("error", ({ message }) => fail(new Error(message)));
        }),
    );
    return [...lines("in the browser's worker", inWorker), ...lines("in Node", timeFourLoci())];
  } finally {
    await browser.close();
  }
}

function lines(where: string, times: readonly FourLociTimes[]) {
  const sum = (of: "loaded" | "first" | "again"): number => times.reduce((total, time) => total + time[of], 0);
  const verdict = (ms: number): string => (ms <= TARGET_MS ? `meets ${TARGET_MS}` : `MISSES ${TARGET_MS}`);
  return [
    ...times.map(({ locus, method, loaded, first, again }) => ({
      what: `${locus}, 300 animals, ${where}`,
      value: again,
      unit: "ms",
      note: `${method}; after one finding more (first time ${first.toFixed(1)}, program just loaded ${loaded.toFixed(1)})`,
    })),
    ...times.map(({ locus, entry }) => ({
      what: `four loci together, after one finding more at ${locus}, ${where}`,
      value: entry,
      unit: "ms",
      note: `the first time ${(sum("first") / entry).toFixed(1)} times as long`,
    })),
    {
      what: `four loci together, after one finding more at each, ${where}`,
      value: sum("again"),
      unit: "ms",
      note: verdict(sum("again")),
    },
    {
      what: `four loci together the first time, ${where}`,
      value: sum("first"),
      unit: "ms",
      note: verdict(sum("first")),
    },
    {
      what: `four loci together, program just loaded, ${where}`,
      value: sum("loaded"),
      unit: "ms",
      note: "what a reader waits for once: the engine's code is still being compiled",
    },
  ];
}
