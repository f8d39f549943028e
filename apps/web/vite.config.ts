import { createHash } from "node:crypto";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin, type UserConfig } from "vite";

/** Tells the service worker which files make up this build, so that all of them are on the phone before it goes offline. */
function filesForOffline(): Plugin {
  return {
    name: "files-for-offline",
    generateBundle(_options, bundle) {
      const worker = bundle["service-worker.js"];
      if (worker?.type !== "chunk") throw new Error("the service worker was not built");
      const built = Object.keys(bundle).filter((name) => name !== "service-worker.js" && name !== "index.html");
      const still = readdirSync(fileURLToPath(new URL("public", import.meta.url)));
      const files = ["./", ...built.map((name) => `./${name}`), ...still.map((name) => `./${name}`)].sort();
      const digest = createHash("sha256").update(files.join("\n"));
      for (const part of Object.values(bundle)) digest.update(part.type === "chunk" ? part.code : part.source);
      worker.code = worker.code
        .replace("__BUILD_NAME__", digest.digest("hex").slice(0, 12))
        .replace(/(["'`])__BUILD_FILES__\1/, JSON.stringify(JSON.stringify(files)));
    },
  };
}

/** Our packages only name things: a module of theirs that nobody uses is left out, and is fetched with whoever does use it. */
const treeshake = { moduleSideEffects: (id: string) => !/[\\/]packages[\\/][a-z]+[\\/]src[\\/]/.test(id) };

/** The day of the build, or that of the sources where SOURCE_DATE_EPOCH says it, as programs that build alike twice use it. */
const madeOn = (): string => {
  const epoch = Number(process.env["SOURCE_DATE_EPOCH"]);
  return (epoch > 0 ? new Date(epoch * 1000) : new Date()).toISOString().slice(0, 10);
};

const settings: UserConfig = {
  base: "./",
  define: { "import.meta.env.MADE_ON": JSON.stringify(madeOn()) },
  plugins: [react(), filesForOffline()],
  worker: { format: "es", rolldownOptions: { treeshake } },
  build: {
    target: "es2023",
    assetsInlineLimit: 0,
    rolldownOptions: {
      treeshake,
      input: { index: "index.html", "service-worker": "src/service-worker.ts" },
      output: {
        entryFileNames: (chunk) => (chunk.name === "service-worker" ? "service-worker.js" : "assets/[name]-[hash].js"),
      },
    },
  },
};

export default defineConfig(({ command }) => {
  // A build is always the real one, whatever the program that asks for it calls its own surroundings.
  if (command === "build") process.env["NODE_ENV"] = "production";
  return settings;
});
