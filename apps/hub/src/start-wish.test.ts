import { describe, expect, test } from "vitest";
import { startWish } from "./start-wish.ts";

const wish = (line: string, env: Record<string, string> = {}) =>
  startWish(
    line.split(" ").filter((word) => word !== ""),
    env,
    "/project",
  );

describe("how a hub is to be run", () => {
  test("[HU-20] without a word: the usual port, the folder of the project, no backup, no server", () => {
    expect(wish("")).toEqual({
      port: 4180,
      data: "/project/.data",
      open: false,
      jsonLog: false,
      backup: undefined,
      restore: undefined,
      database: undefined,
      metricsToken: undefined,
    });
  });

  test("[HU-20] backups once a day, or as often as was said", () => {
    const hours = (line: string) => {
      const found = wish(line);
      return "backup" in found ? (found.backup?.everyMs ?? 0) / 3_600_000 : found.sentence;
    };
    expect(hours("--backup-to /b")).toBe(24);
    expect(hours("--backup-to /b --backup-every 6h")).toBe(6);
    expect(hours("--backup-to /b --backup-every 30m")).toBe(0.5);
    expect(hours("--backup-to /b --backup-every 20d")).toBe(480);
  });

  test("[HU-20] the environment names the database server, how many connections, and the token for the counts", () => {
    const env = { DATABASE_URL: "postgresql://u:p@h/d", DATABASE_CONNECTIONS: "25", METRICS_TOKEN: "t" };
    expect(wish("", env)).toMatchObject({
      database: { address: "postgresql://u:p@h/d", connections: 25 },
      metricsToken: "t",
    });
    expect(wish("", { DATABASE_URL: "", METRICS_TOKEN: "" })).toMatchObject({
      database: undefined,
      metricsToken: undefined,
    });
  });

  test("[HU-20] phones come in by the hub's own certificate, or through a proxy on this computer", () => {
    expect(wish("--name https://goats.example:8443 --cert /c.pem --key /k.pem")).toMatchObject({
      beyond: {
        reach: "https://goats.example:8443",
        host: "0.0.0.0",
        port: 8443,
        certificate: { cert: "/c.pem", key: "/k.pem" },
      },
    });
    expect(wish("--name https://goats.example --cert /c.pem --key /k.pem --host 192.0.2.7")).toMatchObject({
      beyond: { host: "192.0.2.7", port: 443 },
    });
    expect(wish("--name https://goats.example --behind-proxy 4181")).toMatchObject({
      beyond: { reach: "https://goats.example", host: "127.0.0.1", port: 4181, certificate: undefined },
    });
  });

  test("[HU-92] one thing may be done at the door instead of running", () => {
    expect(wish("--let-in helper --herd oak --name https://goats.example")).toMatchObject({
      door: { kind: "let-in", role: "helper", herd: "oak" },
      beyond: { reach: "https://goats.example" },
    });
    expect(wish("--phones")).toMatchObject({ door: { kind: "phones" }, beyond: undefined });
    expect(wish("--let-out 1234abcd")).toMatchObject({ door: { kind: "let-out", phone: "1234abcd" } });
  });

  test.each([
    ["--port goat", "not a port"],
    ["--port 70000", "not a port"],
    ["--goats", "--goats"],
    ["extra", "extra"],
    ["--backup-every 6h", "--backup-to"],
    ["--backup-to /b --backup-every never", "not a time"],
    ["--backup-to /b --backup-every 0h", "not a time"],
    ["--backup-to /b --backup-every 21d", "not a time"],
    ["--host 0.0.0.0", "this computer only"],
    ["--host 0.0.0.0 --name https://goats.example --behind-proxy 4181", "this computer only"],
    ["--name https://goats.example", "by TLS only"],
    ["--name http://goats.example --behind-proxy 4181", "not an address"],
    ["--name https://goats.example/herd --behind-proxy 4181", "not an address"],
    ["--name goats.example --behind-proxy 4181", "not an address"],
    ["--name https://goats.example --behind-proxy goat", "not a port"],
    ["--name https://goats.example --cert c.pem", "belong together"],
    ["--name https://goats.example --cert c.pem --key k.pem --behind-proxy 4181", "only one of them"],
    ["--cert c.pem --key k.pem", "--name"],
    ["--behind-proxy 4181", "--name"],
    ["--let-in owner", "keeper, helper, vet"],
    ["--let-in keeper --phones", "one at a time"],
    ["--phones --herd oak", "--let-in"],
    ["--photo-room much", "not a number of megabytes"],
    ["--let-in vet --name goats.example", "not an address"],
  ])("[HU-20] %s is refused with a sentence", (line, part) => {
    const found = wish(line);
    expect(found).toMatchObject({ exitCode: 2 });
    expect("sentence" in found && found.sentence).toContain(part);
  });

  test("[HU-20] a number of connections that is none is refused, and the sentence shows no password", () => {
    const found = wish("", { DATABASE_URL: "postgresql://u:secret@h/d", DATABASE_CONNECTIONS: "many" });
    expect(found).toMatchObject({ exitCode: 2, sentence: "DATABASE_CONNECTIONS=many: not a number of connections." });
  });
});
