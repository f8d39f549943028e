import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** Reads the repository for the tests about it. Paths are relative to its root, with forward slashes. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

const NOT_OURS = new Set(["node_modules", "dist", ".git", ".data", "coverage", "shots"]);

function* walk(folder: string): Generator<string> {
  for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
    if (NOT_OURS.has(entry.name)) continue;
    const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory()) yield* walk(path);
    else if (entry.isFile()) yield path;
  }
}

/** Every file of the project, sorted. */
export const files: readonly string[] = [...walk("")].sort();

/** The text of a file of the project. */
export const textOf = (path: string): string => readFileSync(join(root, path), "utf8");

/** Whether the project has such a file or folder. */
export const isThere = (path: string): boolean => statSync(join(root, path), { throwIfNoEntry: false }) !== undefined;

/** TypeScript and JavaScript of the project, tests included. */
export const codeFiles: readonly string[] = files.filter((path) => /\.(ts|tsx|mjs)$/.test(path));

/** Whether a file is a test, or is made for tests only. */
export const isTest = (path: string): boolean =>
  /\.test\.tsx?$|\/testing\.ts$|\/testing\/|\.contract\.ts$|\/e2e\//.test(path);

export interface Workspace {
  readonly folder: string;
  /** `genetics` for packages/genetics, `web` for apps/web. */
  readonly layer: string;
  readonly name: string;
  readonly dependencies: readonly string[];
}

/** Every package and app, with what its package.json says it needs. */
export const workspaces: readonly Workspace[] = files
  .filter((path) => /^(packages|apps)\/[^/]+\/package\.json$/.test(path))
  .map((path) => {
    const manifest = JSON.parse(textOf(path)) as { name: string; dependencies?: Record<string, string> };
    const folder = dirname(path);
    return {
      folder,
      layer: folder.slice(folder.indexOf("/") + 1),
      name: manifest.name,
      dependencies: Object.keys(manifest.dependencies ?? {}),
    };
  });

/** The package or app that a file belongs to. */
export const workspaceOf = (path: string): Workspace | undefined =>
  workspaces.find(({ folder }) => path.startsWith(`${folder}/`));
