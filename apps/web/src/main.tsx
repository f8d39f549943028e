import { present } from "@pollard/base";
import { createRoot } from "react-dom/client";
import { openDevice } from "./adapters/device.ts";
import { applyLook, readLook } from "./adapters/own-settings/look.ts";
import { newId } from "./adapters/new-id.ts";
import { readLanguage, readUnit } from "./adapters/own-settings/speech.ts";
import { App } from "./app.tsx";
import { speak, weighIn } from "./house/wording.ts";
import { Mishap } from "./mishap.tsx";
import { herdThread } from "./worker/herd-thread.ts";
import "./look/look.css";

applyLook(document.documentElement, readLook(localStorage));
const { answers } = herdThread();
const root = createRoot(present(document.getElementById("app") ?? undefined, "the page's own element"));

const [device, language] = await Promise.all([
  openDevice(newId),
  speak(readLanguage(localStorage, navigator.languages)),
]);
const unit = readUnit(localStorage, navigator.languages);
weighIn(unit);
root.render(
  <Mishap>
    <App device={device} answers={answers} firstLanguage={language} firstUnit={unit} />
  </Mishap>,
);
