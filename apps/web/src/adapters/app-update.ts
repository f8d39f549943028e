import { type Day, parseDay } from "@pollard/base";

/** On what day this app was built; `undefined` while it is being edited. */
export const madeOn = (): Day | undefined => parseDay(String(import.meta.env["MADE_ON"] ?? ""));

/**
 * The service worker: puts the whole app on this phone, and tells of a newer one that waits. A newer one takes over at
 * the next cold start, or when `takeOver` is called by somebody who was asked; never by itself (rule UI-9).
 */
export async function keepAppHere(onUpdate: (takeOver: () => void) => void): Promise<void> {
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return;
  const registration = await navigator.serviceWorker.register("./service-worker.js", { scope: "./" });
  const offer = (waiting: ServiceWorker): void =>
    onUpdate(() => {
      navigator.serviceWorker.addEventListener("controllerchange", () => window.location.reload(), { once: true });
      waiting.postMessage("take-over");
    });
  const watch = (worker: ServiceWorker | null): void =>
    worker?.addEventListener("statechange", () => {
      if (worker.state === "installed" && navigator.serviceWorker.controller) offer(worker);
    });
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
  watch(registration.installing);
  registration.addEventListener("updatefound", () => watch(registration.installing));
}
