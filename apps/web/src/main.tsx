import { present } from "@pollard/base";
import { wrap } from "comlink";
import { createRoot } from "react-dom/client";
import { openDevice } from "./adapters/device.ts";
import { applyLook, readLook } from "./adapters/look.ts";
import { newId } from "./adapters/new-id.ts";
import { App, Mishap } from "./app.tsx";
import type { AskHerd, HerdAnswers } from "./worker/herd-answers.ts";
import "./look/look.css";

applyLook(document.documentElement, readLook(localStorage));
const worker = new Worker(new URL("./worker/herd-worker.ts", import.meta.url), { type: "module" });
const answers = wrap<HerdAnswers>(worker) as unknown as AskHerd;
const root = createRoot(present(document.getElementById("app") ?? undefined, "the page's own element"));

const device = await openDevice(newId);
root.render(
  <Mishap>
    <App device={device} answers={answers} />
  </Mishap>,
);
