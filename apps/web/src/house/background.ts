import { listenToHub } from "../adapters/hub/hub-news.ts";
import type { House } from "./house.ts";

/** How long after the hub said that there is something new, ms: what comes together is fetched together. */
const NEWS_MS = 200;
/** How long after an entry the hub is told, ms; and how often it is asked while nothing happens. */
const SOON_MS = 1500;
const OFTEN_MS = 60_000;
/** Longest pause while no hub answers. */
const SELDOM_MS = 600_000;

/**
 * Exchanges with the hub while the app is open: soon after every change here, at once when the hub says that there is
 * something new or the network comes back, now and then otherwise, ever less often while nobody answers. Gives back how to stop.
 */
export function exchangeInBackground(house: House): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let pause = OFTEN_MS;
  let running = false;
  let stopped = false;
  /** Was something new told of during an exchange that may have been past it? */
  let again = false;
  let handed = house.entered;

  const run = async (): Promise<void> => {
    if (running) {
      again = true;
      return;
    }
    running = true;
    handed = house.entered;
    const outcome = await house.exchange();
    running = false;
    pause = outcome === "done" ? OFTEN_MS : Math.min(SELDOM_MS, pause * 2);
    plan(again ? NEWS_MS : house.entered === handed ? pause : SOON_MS);
    again = false;
  };
  const plan = (ms: number): void => {
    clearTimeout(timer);
    if (stopped) return;
    timer = setTimeout(() => void run(), ms);
  };
  const stopListening = house.onChange(() => {
    if (!running && house.entered !== handed) plan(SOON_MS);
  });
  const online = (): void => plan(0);
  window.addEventListener("online", online);
  const { id, token, role } = house.herd;
  // A vet's phone is shown lists and no herd.
  const stopNews =
    role === "vet" ? () => undefined : listenToHub(id, { base: document.baseURI, token, onNews: () => plan(NEWS_MS) });
  plan(0);
  return () => {
    stopped = true;
    stopNews();
    clearTimeout(timer);
    stopListening();
    window.removeEventListener("online", online);
  };
}
