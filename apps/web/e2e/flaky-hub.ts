import { createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { type RunningHub, startHub } from "./hub-process.ts";

/** A hub behind a bad line: it can be cut off, or take every question and say nothing. */
export interface FlakyHub extends RunningHub {
  /** `silent` holds what is asked until the line is `through` again. */
  become(line: "through" | "cut" | "silent"): void;
  /** The questions of an exchange that wait for an answer now, by their number. */
  held(): readonly number[];
  /** How many questions were asked of it so far. */
  asked(): number;
}

/** Starts a hub, and a line to it that can be bad. */
export async function startFlakyHub(): Promise<FlakyHub> {
  const hub = await startHub();
  const beyond = new URL(hub.address);
  let line: "through" | "cut" | "silent" = "through";
  let asked = 0;
  const waiting = new Map<IncomingMessage, { readonly number: number; readonly answer: ServerResponse }>();

  const pass = (question: IncomingMessage, answer: ServerResponse): void => {
    const { method, url, headers } = question;
    const on = request({ host: beyond.hostname, port: beyond.port, method, path: url, headers }, (said) => {
      answer.writeHead(said.statusCode ?? 502, said.headers);
      said.pipe(answer);
    });
    on.on("error", () => answer.destroy());
    answer.on("close", () => on.destroy());
    question.pipe(on);
  };
  const front = createServer((question, answer) => {
    asked++;
    if (line === "cut") question.socket.destroy();
    else if (line === "silent") {
      waiting.set(question, { number: asked, answer });
      answer.on("close", () => waiting.delete(question));
    } else pass(question, answer);
  });
  await new Promise<void>((settle) => front.listen(0, "127.0.0.1", settle));
  return {
    address: `http://localhost:${(front.address() as AddressInfo).port}`,
    become(next) {
      line = next;
      if (next === "cut") front.closeAllConnections();
      if (next === "through") for (const [question, { answer }] of waiting) pass(question, answer);
      if (next !== "silent") waiting.clear();
    },
    held: () =>
      [...waiting].flatMap(([{ url }, { number }]) => (url !== undefined && /\/entries\b/.test(url) ? [number] : [])),
    asked: () => asked,
    async stop() {
      front.closeAllConnections();
      await new Promise((settle) => front.close(settle));
      await hub.stop();
    },
  };
}
