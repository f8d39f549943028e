import { describe, expect, test } from "vitest";
import { postgresPrograms } from "../testing/postgres-server.ts";
import { settle } from "./hub-database.ts";

const failing = (code: string) => settle(() => Promise.reject(Object.assign(new Error("no"), { code })));

describe("what a database says when it cannot", () => {
  test("[HU-8] published: the codes for a full disk of both are told from all others", async () => {
    // SQLite, "Result and error codes"; PostgreSQL, appendix "Error codes", class 53.
    for (const code of ["SQLITE_FULL", "53100"])
      expect(await failing(code)).toEqual({ ok: false, error: { code: "full" } });
    for (const code of ["SQLITE_BUSY", "53300", "57P01", "ECONNREFUSED"])
      expect(await failing(code)).toMatchObject({ ok: false, error: { code: "unavailable" } });
  });
});

describe("the databases that tests are run on", () => {
  test.runIf(process.platform === "linux" && process.arch === "x64")(
    "[HU-103] where the project brings a PostgreSQL, it is there: no half of these tests is passed over in silence",
    () => {
      expect(postgresPrograms()).toHaveProperty("bin");
    },
  );
});
