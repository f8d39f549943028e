import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { exchangeInBackground } from "./background.ts";
import type { House } from "./house.ts";

/** A house whose exchanges a test ends, and into which it enters something. */
function aHouse() {
  const listeners = new Set<() => void>();
  const underWay: ((outcome: "done" | "away") => void)[] = [];
  let entered = 0;
  let exchanges = 0;
  const changed = (): void => {
    for (const listen of listeners) listen();
  };
  const house = {
    herd: { id: "herd", role: "vet" },
    get entered() {
      return entered;
    },
    onChange: (listen: () => void) => {
      listeners.add(listen);
      return () => listeners.delete(listen);
    },
    exchange: async () => {
      exchanges++;
      const outcome = await new Promise((settle) => underWay.push(settle));
      changed();
      return outcome;
    },
  } as unknown as House;
  return {
    house,
    exchanges: () => exchanges,
    enter: () => {
      entered++;
      changed();
    },
    /** Something else changed: a draft, another tab. */
    changed,
    end: async (outcome: "done" | "away" = "done") => {
      underWay.shift()?.(outcome);
      await vi.advanceTimersByTimeAsync(0);
    },
  };
}

const after = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("window", new EventTarget());
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test.each([
  ["done", 50_000],
  // Ever less often: after two failures for longer than three minutes.
  ["away", 200_000],
] as const)(
  "[UI-384] what is entered while an exchange is under way that ends %s is handed over soon after it",
  async (outcome, quiet) => {
    const { house, exchanges, enter, end } = aHouse();
    const stop = exchangeInBackground(house);
    await after(0);
    expect(exchanges()).toBe(1);
    enter();
    await end(outcome);
    await after(2000);
    expect(exchanges()).toBe(2);
    await end(outcome);
    await after(quiet);
    expect(exchanges()).toBe(2);
    stop();
  },
);

test("[UI-384] once it is stopped it asks nothing more, also where an exchange was still under way", async () => {
  const { house, exchanges, enter, end } = aHouse();
  const stop = exchangeInBackground(house);
  await after(0);
  enter();
  stop();
  await end();
  await after(3_600_000);
  expect(exchanges()).toBe(1);
});

test("[UI-384] what is no entry asks nothing of the hub; entries that come together go together", async () => {
  const { house, exchanges, enter, changed, end } = aHouse();
  const stop = exchangeInBackground(house);
  await after(0);
  await end();
  changed();
  await after(10_000);
  expect(exchanges()).toBe(1);
  for (let i = 0; i < 5; i++) {
    enter();
    await after(500);
  }
  await after(2000);
  expect(exchanges()).toBe(2);
  stop();
});
