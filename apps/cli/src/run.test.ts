import { describe, expect, test } from "vitest";
import { COMMANDS } from "./commands.ts";
import { typed } from "./testing.ts";

/** A command that is refused: this exit code, nothing on standard output, one sentence that says this. */
async function refused(line: string | readonly string[], exit: number, says: RegExp): Promise<void> {
  const printed = await typed(line);
  expect(printed.exit).toBe(exit);
  expect(printed.out).toBe("");
  expect(printed.err).toMatch(says);
  expect(printed.err.trimEnd().split("\n")).toHaveLength(1);
  expect(printed.err).not.toMatch(/\n\s+at /);
}

describe("the terminal", () => {
  test.each([[""], ["help"], ["--help"], ["-h"]])(
    "[CL-1] `pollard %s` lists every command and is done",
    async (line) => {
      const { exit, out, err } = await typed(line);
      expect([exit, err]).toEqual([0, ""]);
      for (const { name } of COMMANDS) expect(out).toContain(name);
    },
  );

  test("[CL-7] no line of the help is wider than 100 characters", async () => {
    for (const name of ["", ...COMMANDS.map((command) => command.name)])
      for (const line of (await typed(`help ${name}`)).out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });

  test("[CL-1] help on a command tells its options, from either side", async () => {
    const { out } = await typed("help start");
    expect(out).toContain("--port N");
    expect((await typed("start --help")).out).toBe(out);
  });

  test("[CL-2] an unknown command", () => refused("pair", 2, /no command "pair"/));
  test("[CL-2] an unknown option", () =>
    refused("start --prot 9", 2, /no option --prot; it knows --port, --data, --open\./));
  test("[CL-2] an option without its value", () => refused("start --port", 2, /--port needs a value/));
  test("[CL-2] a switch with a value", () => refused("start --open=yes", 2, /--open is a switch/));
  test("[CL-2] an option twice", () => refused("start --port 1 --port 2", 2, /--port is given twice/));
  test("[CL-2] a word too many", () => refused("start here", 2, /does not know what to do with "here"/));
});

describe("start", () => {
  test("[CL-10] the hub gets the port, the folder and the wish for a browser", async () => {
    const { exit, hubs } = await typed(["start", "--port", "4200", "--data", "my herds", "--open"]);
    expect(exit).toBe(0);
    expect(hubs).toEqual([["--port", "4200", "--data", "my herds", "--open"]]);
  });

  test("[CL-10] a port that is none never reaches the hub", async () => {
    const { exit, hubs, err } = await typed("start --port 70000");
    expect([exit, hubs]).toEqual([2, []]);
    expect(err).toBe('"70000" is not a port.\n');
  });

  test("[CL-1] a hub that fails is the world's failure", async () => {
    expect(await typed("start", { hubExit: 1 })).toMatchObject({ exit: 3, err: "The hub ended with code 1.\n" });
  });
});
