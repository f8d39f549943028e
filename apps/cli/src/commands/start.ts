import { ok } from "@pollard/base";
import type { Command } from "../command.ts";
import { failed, wrong } from "../outcome.ts";

/** Runs the hub with the web app until it is stopped. */
export const start: Command = {
  name: "start",
  takes: [],
  about: "runs the hub with the web app on this computer",
  options: [
    { name: "port", value: "N", about: "port on this computer (4180)" },
    { name: "data", value: "DIR", about: "folder that keeps the herds (.data in the project's folder)" },
    { name: "open", about: "opens the page in the browser" },
  ],
  async run(args, world) {
    const port = args.value("port");
    if (port !== undefined && !(/^\d{1,5}$/.test(port) && Number(port) <= 65_535))
      return wrong(`"${port}" is not a port.`);
    const data = args.value("data");
    const code = await world.runHub([
      ...(port === undefined ? [] : ["--port", port]),
      ...(data === undefined ? [] : ["--data", data]),
      ...(args.has("open") ? ["--open"] : []),
    ]);
    return code === 0 ? ok(0) : failed(`The hub ended with code ${code}.`);
  },
};
