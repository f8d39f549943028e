import { readFileSync } from "node:fs";
import { dirname } from "node:path";
import { pathToFileURL } from "node:url";

/** A package by its bare name that is not one of ours: `valibot`, `node:fs`, but not `@pollard/base` or `./day.ts`. */
const FOREIGN = /^(?!@pollard\/)(?![./\\])(?![A-Za-z]:[/\\])/;

/**
 * Makes one JavaScript file for Node of a TypeScript file and everything it imports from this repository.
 *
 * @param {object} job
 * @param {string} job.input the TypeScript file, absolute
 * @param {string} job.output the JavaScript file to write, absolute
 * @param {readonly (string | RegExp)[]} [job.external] packages left outside, to be found in node_modules when it runs;
 *   without the list: every package that is not one of ours
 * @param {boolean} [job.keepPlaces] whether `import.meta.url` shall name the source file rather than the output
 */
export async function bundle({ input, output, external = [FOREIGN], keepPlaces = false }) {
  const { rolldown } = await import("rolldown");
  const made = await rolldown({
    input,
    external: [/^node:/, ...external],
    platform: "node",
    plugins: keepPlaces ? [sourcePlaces] : [],
    logLevel: "warn",
  });
  await made.write({ file: output, format: "esm", codeSplitting: false });
  await made.close();
}

const sourcePlaces = {
  name: "source-places",
  /** @param {string} id */
  load(id) {
    if (!/\.m?[jt]s$/.test(id) || id.includes("node_modules")) return null;
    const text = readFileSync(id, "utf8");
    if (!text.includes("import.meta.")) return null;
    return text
      .replaceAll("import.meta.url", JSON.stringify(pathToFileURL(id).href))
      .replaceAll("import.meta.dirname", JSON.stringify(dirname(id)));
  },
};
