import type { BrowserContext, Page } from "playwright-core";

/** A phone's clock that a test sets. It runs on from there; page and worker have the same one. */
export interface PhoneClock {
  /** Sets it to a moment, UTC, and opens the page that is shown anew. */
  set(utc: string): Promise<void>;
  /** The phone is carried into another zone, as IANA names it, while the page stays open. */
  travel(zone: string): Promise<void>;
}

/** Put into the page and before the worker's own program: whatever asks for the time is told the set one. */
const shifted = (ms: number): string => `{
  const Clock = Date;
  const now = () => Clock.now() + ${ms};
  globalThis.Date = class Date extends Clock {
    constructor(...given) { if (given.length === 0) super(now()); else super(...given); }
    static now() { return now(); }
  };
}
`;

/**
 * Prepares a page that has not been opened yet, in a context without a zone of its own. No service worker is started: what
 * one hands out of its own store cannot be given another clock.
 */
export async function phoneClock(context: BrowserContext, page: Page, utc: string, zone: string): Promise<PhoneClock> {
  let ahead = Date.parse(utc) - Date.now();
  await page.addInitScript(() => void Reflect.deleteProperty(Navigator.prototype, "serviceWorker"));
  const session = await context.newCDPSession(page);
  await session.send("Page.enable");
  await session.send("Emulation.setTimezoneOverride", { timezoneId: zone });
  const setPage = async (): Promise<string> => {
    const source = shifted(ahead);
    return (await session.send("Page.addScriptToEvaluateOnNewDocument", { source })).identifier;
  };
  let script = await setPage();
  await page.route(/herd-worker[^/]*\.js$/, async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, body: shifted(ahead) + (await answer.text()) });
  });
  return {
    async set(to) {
      ahead = Date.parse(to) - Date.now();
      await session.send("Page.removeScriptToEvaluateOnNewDocument", { identifier: script });
      script = await setPage();
      await page.reload();
      await page.locator("h1").first().waitFor();
    },
    async travel(to) {
      await session.send("Emulation.setTimezoneOverride", { timezoneId: to });
    },
  };
}
