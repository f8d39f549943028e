import type { House } from "./house.ts";

/** How long after an entry the hub is told, ms; and how often it is asked while nothing happens. */
const SOON_MS = 1500;
const OFTEN_MS = 60_000;
/** Longest pause while no hub answers. */
const SELDOM_MS = 600_000;

/**
 * Exchanges with the hub while the app is open: soon after every change, now and then otherwise, ever less often while
 * nobody answers, at once when the network comes back. Gives back how to stop.
 */
export function exchangeInBackground(house: House): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let pause = OFTEN_MS;
  let running = false;
  let seen = house.version;

  const run = async (): Promise<void> => {
    if (running) return;
    running = true;
    const outcome = await house.exchange();
    running = false;
    seen = house.version;
    pause = outcome === "done" ? OFTEN_MS : Math.min(SELDOM_MS, pause * 2);
    plan(pause);
  };
  const plan = (ms: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void run(), ms);
  };
  const stopListening = house.onChange(() => {
    if (!running && house.version !== seen) plan(SOON_MS);
  });
  const online = (): void => plan(0);
  window.addEventListener("online", online);
  plan(0);
  return () => {
    clearTimeout(timer);
    stopListening();
    window.removeEventListener("online", online);
  };
}
