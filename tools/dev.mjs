import { spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildOrExit } from "./build.mjs";
import { installIfNeeded } from "./installed.mjs";

/**
 * `npm run dev`: the web app as it is edited, on Vite's own port, with a hub behind `/api`.
 * The hub keeps a data folder of its own, so that trying things out never touches a real herd.
 */
const HUB_PORT = "4179";
const root = dirname(dirname(fileURLToPath(import.meta.url)));
installIfNeeded(root);
await buildOrExit(root, ["hub"]);

const hub = spawn(
  process.execPath,
  [join(root, "apps/hub/dist/main.mjs"), "--port", HUB_PORT, "--data", join(root, ".data/dev")],
  { stdio: "inherit" },
);
const { createServer } = await import("vite");
const server = await createServer({
  root: join(root, "apps/web"),
  // The hub answers only to its own pages, so the forwarded request names the hub's origin.
  server: {
    proxy: {
      "/api": {
        target: `http://127.0.0.1:${HUB_PORT}`,
        changeOrigin: true,
        headers: { origin: `http://127.0.0.1:${HUB_PORT}` },
      },
    },
  },
});
await server.listen();
server.printUrls();

const stop = () => {
  hub.kill("SIGTERM");
  void server.close().then(() => process.exit(0));
};
process.once("SIGINT", stop);
process.once("SIGTERM", stop);
