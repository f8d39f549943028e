import { posix } from "node:path";
import { describe, expect, test } from "vitest";
import { startWish, USAGE } from "../apps/hub/src/start-wish.ts";
import { files, textOf } from "./repository.ts";

const linesOf = (path: string): readonly string[] =>
  textOf(path)
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "" && !line.startsWith("#"));

const UNIT = "docs/running/pollard.service";
const CONTAINER = "docs/running/Containerfile";

/** What stands behind the hub's program in a command line. */
const argumentsIn = (command: string): readonly string[] => {
  const [before, after] = command.split("apps/hub/dist/main.mjs");
  expect([command, before?.includes("node")]).toEqual([command, true]);
  return (after ?? "").trim().split(/\s+/);
};

const unitCommand = /^ExecStart=(.*)$/m.exec(textOf(UNIT).replaceAll(/\\\n/g, ""))?.[1] ?? "";
const containerCommand = (
  JSON.parse(/^ENTRYPOINT (\[.*\])$/m.exec(textOf(CONTAINER))?.[1] ?? "[]") as readonly string[]
).join(" ");

describe("what runs a hub", () => {
  test("[HO-45] a container is built of what git holds, never of a herd that lies beside it", () => {
    const left = new Set(linesOf(".dockerignore").map((line) => line.replace(/^\*\*\//, "")));
    const wanted = [".git", ...linesOf(".gitignore").map((line) => line.replace(/\/$/, ""))];
    expect(wanted.filter((each) => !left.has(each))).toEqual([]);
    expect(wanted).toContain(".data");
  });

  test("[HO-46] the unit and the container start the hub by a command that it follows, with a folder that they give it", () => {
    for (const [where, command, data] of [
      [UNIT, unitCommand, "/var/lib/pollard"],
      [CONTAINER, containerCommand, "/data"],
    ] as const)
      expect([where, startWish(argumentsIn(command), {}, "/")]).toEqual([
        where,
        expect.objectContaining({ port: 4180, data, jsonLog: true, backup: expect.anything() as unknown }),
      ]);
    expect(textOf(UNIT)).toMatch(/^StateDirectory=pollard$/m);
    expect(textOf(CONTAINER)).toContain('VOLUME ["/data", "/backups"]');
  });

  test("[HO-46] every option that the guides name is one of the hub's", () => {
    const guides = files.filter((path) => posix.dirname(path) === "docs/running" && path.endsWith(".md"));
    const known = new Set([...USAGE.matchAll(/--[a-z-]+/g)].map(([option]) => option));
    const others = /^(--network|--system|--home-dir|--now|--check|--owner|--pwprompt)$/;
    const strange = guides.flatMap((guide) =>
      [...textOf(guide).matchAll(/(?<![\w-])--[a-z][a-z-]*/g)]
        .map(([option]) => option)
        .filter((option) => !known.has(option) && !others.test(option))
        .map((option) => `${guide}: ${option}`),
    );
    expect(guides.length).toBe(3);
    expect(strange).toEqual([]);
  });
});
