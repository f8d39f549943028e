import type { HerdId } from "@pollard/records";
import { herdUrl } from "./hub-peer.ts";

/** Shortest and longest pause before the line is opened again, ms. */
const SOON_MS = 2000;
const SELDOM_MS = 300_000;

/** What the listener tells, and of what it needs to know. */
export interface Listening {
  readonly base: string;
  readonly token: string | undefined;
  readonly onNews: () => void;
}

/**
 * Keeps a line to the hub open, on which it says that there is something new, while the app is in front of somebody.
 *
 * No entry comes that way: the exchange fetches it. Where no hub answers the line is tried ever less often; nothing waits
 * for it, and nothing is shown of it. Gives back how to stop.
 */
export function listenToHub(herd: HerdId, { base, token, onNews }: Listening): () => void {
  let line: AbortController | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let pause = SOON_MS;

  const listen = async (): Promise<void> => {
    if (line !== undefined || document.hidden) return;
    const own = new AbortController();
    line = own;
    try {
      const response = await fetch(herdUrl(herd, base, "news"), {
        headers: token === undefined ? {} : { authorization: `Bearer ${token}` },
        signal: own.signal,
        cache: "no-store",
      });
      if (response.ok && response.body !== null) {
        pause = SOON_MS;
        await hear(response.body, onNews);
      } else pause = Math.min(SELDOM_MS, pause * 2);
    } catch {
      // No hub, or the line was cut: both are ordinary in a barn.
      pause = Math.min(SELDOM_MS, pause * 2);
    }
    line = undefined;
    clearTimeout(timer);
    if (!document.hidden && !own.signal.aborted) timer = setTimeout(() => void listen(), pause);
  };
  const leave = (): void => {
    clearTimeout(timer);
    line?.abort();
    line = undefined;
  };
  const seen = (): void => {
    leave();
    pause = SOON_MS;
    void listen();
  };
  document.addEventListener("visibilitychange", seen);
  window.addEventListener("online", seen);
  void listen();
  return () => {
    document.removeEventListener("visibilitychange", seen);
    window.removeEventListener("online", seen);
    leave();
  };
}

/** Reads a line to its end. Every event is told; comments, which only keep the line alive, are not. */
export async function hear(body: ReadableStream<Uint8Array>, onNews: () => void): Promise<void> {
  const reader = body.pipeThrough(new TextDecoderStream() as ReadableWritablePair<string, Uint8Array>).getReader();
  let rest = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const events = (rest + value).split("\n\n");
    rest = events.pop() ?? "";
    if (events.some((event) => event.split("\n").includes("event: news"))) onNews();
  }
}
