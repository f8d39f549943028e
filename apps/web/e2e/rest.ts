import type { Page } from "playwright-core";

/** What was asked of threads, of the disk and of the hub, and is not answered yet: each by what it is about. */
type Asking = Set<{ readonly about: string }>;
type Counted = typeof globalThis & { asking: Asking };

/** Runs in the page before anything of the app: notes what is asked of others, and strikes out what is answered. */
function noteWhatIsAsked(): void {
  const asking: Asking = new Set();
  (globalThis as Counted).asking = asking;

  window.Worker = class extends Worker {
    readonly #waiting = new Map<unknown, { readonly about: string }>();
    #ended: "yes" | "no" = "no";
    constructor(...given: ConstructorParameters<typeof Worker>) {
      super(...given);
      this.addEventListener("message", ({ data }: MessageEvent<{ readonly id?: unknown } | undefined>) => {
        const answered = this.#waiting.get(data?.id);
        if (answered !== undefined) asking.delete(answered);
      });
    }
    override postMessage(...said: unknown[]): void {
      const { id, path } = (said[0] ?? {}) as { readonly id?: unknown; readonly path?: readonly string[] };
      if (id !== undefined && this.#ended === "no") {
        const question = { about: `a thread: ${path?.join(".")}` };
        this.#waiting.set(id, question);
        asking.add(question);
      }
      super.postMessage(...(said as [unknown, Transferable[]]));
    }
    override terminate(): void {
      this.#ended = "yes";
      for (const question of this.#waiting.values()) asking.delete(question);
      super.terminate();
    }
  };

  const transaction = "transaction" as const;
  const begin = IDBDatabase.prototype[transaction];
  IDBDatabase.prototype[transaction] = function (...asked) {
    const begun = begin.apply(this, asked);
    const question = { about: `the disk: ${typeof asked[0] === "string" ? asked[0] : [...asked[0]].join(" ")}` };
    asking.add(question);
    for (const end of ["complete", "abort"]) begun.addEventListener(end, () => asking.delete(question));
    return begun;
  };

  const ask = window.fetch;
  window.fetch = async (...asked) => {
    const question = { about: `the hub: ${asked[0] instanceof Request ? asked[0].url : asked[0]}` };
    asking.add(question);
    try {
      return await ask(...asked);
    } finally {
      asking.delete(question);
    }
  };
}

/** Runs in the page: waits until a heading is shown, all that was asked is answered, and nothing is drawn any more. */
async function rest(): Promise<void> {
  const [QUIET_MS, PATIENCE_MS] = [20, 30_000];
  const until = performance.now() + PATIENCE_MS;
  let drawn = 0;
  const drawing = new MutationObserver(() => drawn++);
  drawing.observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
  const isThere = (): boolean =>
    [...document.querySelectorAll("h1")].some((heading) => heading.checkVisibility()) &&
    [...document.querySelectorAll("iframe")].every((frame) => frame.contentDocument?.readyState === "complete");
  // An answer is drawn a moment after it came, and may ask something more: twice in a row nothing may have happened.
  for (let quiet = 0; quiet < 2; ) {
    const before = drawn;
    await new Promise((settle) => setTimeout(settle, QUIET_MS));
    const { asking } = globalThis as Counted;
    quiet = asking.size === 0 && drawn === before && isThere() ? quiet + 1 : 0;
    if (performance.now() > until)
      throw new Error(`${location.hash} does not come to rest: ${[...asking].map(({ about }) => about).join(", ")}`);
  }
  drawing.disconnect();
}

/** Waits until a page that `atRest` has prepared has come to rest. */
export const untilAtRest = (page: Page): Promise<void> => page.evaluate(rest);

/**
 * Prepares a page that has not been opened yet; gives what opens a screen of the app on it and waits until it has come to rest:
 * its heading is there, whatever it asked is answered, and nothing is drawn any more.
 */
export async function atRest(page: Page, address: string): Promise<(path: string) => Promise<void>> {
  await page.addInitScript(noteWhatIsAsked);
  return async (path) => {
    await page.goto(`${address}/#${path}`);
    await untilAtRest(page);
  };
}
