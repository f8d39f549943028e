import { present } from "@pollard/base";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, inject } from "vitest";
import { launchBrowser, newPhone, newProfile, type Phone, type Profile } from "./browser.ts";
import { type RunningHub, startHub } from "./hub-process.ts";

/** What a browser test is done with. */
export interface UnderTest {
  /** Where the hub is that all browser tests share. */
  readonly address: string;
  /** A phone of its own: own storage, own service worker. */
  readonly newPhone: (device?: BrowserContextOptions) => Promise<Phone>;
  /** Storage for a browser of its own, which can be killed. */
  readonly newProfile: () => Profile;
  /** A hub of its own. */
  readonly startHub: (more?: readonly string[]) => Promise<RunningHub>;
  /** Has something else put away at the same time as the phones and hubs. */
  readonly putAway: (away: () => Promise<unknown>) => void;
}

/**
 * The app in a browser: called at the top of a test file, it gives phones and hubs.
 *
 * What a test opens is put away after it, also when it failed; what is opened before the tests serves all of them, and goes
 * after the last.
 */
export function underTest(flags: readonly string[] = []): UnderTest {
  const putAway = awayInTime();
  let browser: Browser | undefined;
  beforeAll(async () => {
    browser = await launchBrowser(flags);
  });
  afterAll(async () => {
    await browser?.close();
  });
  return {
    address: inject("address"),
    putAway,
    newPhone: async (device) => {
      const phone = await newPhone(present(browser, "a browser"), device);
      putAway(() => phone.context.close());
      return phone;
    },
    newProfile: () => {
      const profile = newProfile();
      putAway(() => profile.remove());
      return profile;
    },
    startHub: async (more) => {
      const hub = await startHub(more);
      putAway(() => hub.stop());
      return hub;
    },
  };
}

type Away = () => Promise<unknown>;

/** Gathers what is to be put away, and does it after the test, or after all tests, that opened it: the last opened first. */
function awayInTime(): (away: Away) => void {
  const ofFile: Away[] = [];
  const ofTest: Away[] = [];
  let now = ofFile;
  const putAll = async (all: Away[]): Promise<void> => {
    for (const away of all.splice(0).toReversed()) await away();
  };
  beforeEach(() => {
    now = ofTest;
  });
  afterEach(async () => {
    now = ofFile;
    await putAll(ofTest);
  });
  afterAll(() => putAll(ofFile));
  return (away) => void now.push(away);
}
