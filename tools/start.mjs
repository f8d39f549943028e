import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildOrExit } from "./build.mjs";
import { installIfNeeded } from "./installed.mjs";

/** `npm start`: installs and builds what is missing, then runs the hub here. Arguments go to the hub (apps/hub/src/main.ts). */
const root = dirname(dirname(fileURLToPath(import.meta.url)));
installIfNeeded(root);
await buildOrExit(root, ["web", "hub"]);
await import(pathToFileURL(join(root, "apps/hub/dist/main.mjs")).href);
