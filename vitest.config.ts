import { defineConfig } from "vitest/config";

/**
 * `unit` needs nothing but Node; `e2e` builds the app, starts a hub and drives a real browser.
 * Seeds of the law tests are fixed unless `npm run fuzz` asks for fresh ones (tools/fast-check-seed.ts).
 */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["packages/*/src/**/*.test.ts", "apps/*/src/**/*.test.{ts,tsx}", "tools/**/*.test.ts"],
          setupFiles: ["tools/fast-check-seed.ts"],
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: "e2e",
          include: ["apps/web/e2e/**/*.test.ts"],
          globalSetup: ["apps/web/e2e/built-app.ts"],
          testTimeout: 120_000,
          hookTimeout: 180_000,
          expect: { poll: { timeout: 20_000 } },
          fileParallelism: false,
          // After everything else, with the machine to itself; what a busy one got wrong once is tried once more, and told.
          sequence: { groupOrder: 1 },
          retry: 1,
        },
      },
    ],
  },
});
