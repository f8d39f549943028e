import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { DESK } from "./browser.ts";
import { addGoat, choose, go, press, startDemo, startOwnHerd, untilHeading, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

const [DOES, BUCKS] = [40, 7];

/**
 * Lets the herd's own thread through, and keeps what is said to any further one, such as the plan's, until it is let go.
 *
 * An ended thread hears nothing: comlink takes leave of it whenever the browser happens to collect garbage.
 */
async function holdPlans(page: Page) {
  await page.addInitScript(() => {
    const [kept, held] = [[] as (() => void)[], { is: true }];
    let threads = 0;
    Object.assign(window, {
      holdPlans: () => (held.is = true),
      plansHeld: () => kept.length,
      letPlansGo: () => {
        held.is = false;
        for (const say of kept.splice(0)) say();
      },
    });
    window.Worker = class extends Worker {
      private readonly isHerds = ++threads === 1;
      private isEnded = false;
      override postMessage(...said: unknown[]): void {
        if (this.isEnded) return;
        const say = (): void => super.postMessage(...(said as [unknown, Transferable[]]));
        if (this.isHerds || !held.is) say();
        else kept.push(say);
      }
      override terminate(): void {
        this.isEnded = true;
        super.terminate();
      }
    };
  });
  return {
    hold: () => page.evaluate("holdPlans()"),
    held: () => page.evaluate<number>("plansHeld()"),
    letGo: () => page.evaluate("letPlansGo()"),
  };
}

describe("planning the breeding", () => {
  test("[UI-91] the grid by keyboard: arrows move, Enter opens the pair, a wish is kept and changes the plan", async () => {
    const { page, errors } = await newPhone(DESK);
    await startDemo(page, address);
    await go(page, address, "/pairings");
    const grid = page.getByRole("grid");
    await grid.waitFor();
    await grid.locator('a[tabindex="0"][data-cell]').focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowDown");
    const label = await page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");
    expect(label).toMatch(/ with .*: \d+ in 20 kids with horns/);
    await page.keyboard.press("Enter");
    await untilHeading(page, / × /);

    await go(page, address, "/pair/demo-hazel/demo-rook");
    await untilHeading(page, /Hazel × Rook/);
    await choose(page, "She goes to him");
    await untilSaved(page);
    await go(page, address, "/pairings/demo-hazel");
    await page.getByText("Hazel with Rook").first().waitFor();
    expect(errors).toEqual([]);
  });

  test("[UI-219] a plan that takes long can be stopped; the last one stays, and every other question is answered", async () => {
    const { page, errors } = await newPhone(DESK);
    const plans = await holdPlans(page);
    await startOwnHerd(page, address);
    const goat = (sex: string, n: number): string =>
      `${sex} ${n};${sex};2020-03-01;${n % 3 === 0 ? "polled" : "horned"}`;
    const rows = [
      ...Array.from({ length: DOES }, (_, n) => goat("doe", n)),
      ...Array.from({ length: BUCKS }, (_, n) => goat("buck", n)),
    ];
    await go(page, address, "/list");
    const list = Buffer.from(["name;sex;born;head", ...rows].join("\n"));
    await page.locator("input[type=file]").setInputFiles({ name: "goats.csv", mimeType: "text/csv", buffer: list });
    await press(page, `Bring in ${DOES + BUCKS} goats`);
    await untilSaved(page);

    // Stopped before there is any plan.
    await go(page, address, "/pairings");
    await press(page, "Stop");
    await page.getByText("Stopped. There is no plan yet.").waitFor();
    await press(page, "Work it out");
    await plans.letGo();
    await page.getByRole("button", { name: "Print this plan" }).waitFor();
    const lines = () => page.locator(".sheet-page :is(li, tr)").allInnerTexts();
    const plan = await lines();
    expect(plan.length).toBeGreaterThan(DOES / 2);

    await plans.hold();

    // Something is entered: the old plan stays while the next is worked out, and after that was stopped.
    await go(page, address, "/add");
    await page.getByLabel(/^Name/).fill("Latecomer");
    await choose(page, "Doe", "Sex");
    await press(page, "Add this goat");
    await untilHeading(page, "Latecomer");
    await go(page, address, "/pairings");
    await page.getByText("Working out the plan anew.").waitFor();
    expect(await lines()).toEqual(plan);
    // Another question is answered although the plan is not there.
    await go(page, address, "/animals");
    await untilHeading(page, `${DOES + BUCKS + 1} goats`);
    await go(page, address, "/pairings");
    await press(page, "Stop");
    await page.getByText("Stopped. The plan below is older").waitFor();
    expect(await lines()).toEqual(plan);
    expect(errors).toEqual([]);
  });

  test("[UI-341] while it is worked out what tests are worth, every other question is answered", async () => {
    const { page, errors } = await newPhone(DESK);
    const threads = await holdPlans(page);
    await startDemo(page, address);
    await go(page, address, "/tests");
    await expect.poll(() => threads.held()).toBeGreaterThan(0);
    await page.getByText("Working out what each test would change").waitFor();
    // An answer of the herd's own thread comes although this one does not.
    await page.evaluate(() => (window.location.hash = "/animals"));
    await untilHeading(page, /\d+ goats/);
    await page.evaluate(() => (window.location.hash = "/tests"));
    await page.getByText("Working out what each test would change").waitFor();
    await threads.letGo();
    const lines = page.locator("main tbody tr");
    await lines.first().waitFor();
    const told = await lines.allInnerTexts();

    // Whoever comes back finds the answer at once, and keeps it while it is worked out anew.
    await threads.hold();
    await go(page, address, "/animal/demo-hazel");
    await page.evaluate(() => (window.location.hash = "/tests"));
    await lines.first().waitFor();
    expect(await threads.held()).toBe(0);
    await addGoat(page, address, { name: "Latecomer", sex: "Doe" });
    await page.evaluate(() => (window.location.hash = "/tests"));
    await expect.poll(() => threads.held()).toBeGreaterThan(0);
    expect(await lines.allInnerTexts()).toEqual(told);
    expect(errors).toEqual([]);
  });

  test("[UI-93] a forecast is worked out with the network off, and says what it rests on", async () => {
    const { context, page, errors } = await newPhone();
    await startDemo(page, address);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await go(page, address, "/forecast");
    await context.setOffline(true);
    await choose(page, "1 year");
    await press(page, "Work it out");
    await page.getByText(/simulated herds; nine in ten/).waitFor();
    await go(page, address, "/review");
    await untilHeading(page, /season/);
    await go(page, address, "/kept");
    await page
      .getByText(/intersex is not ruled out/i)
      .first()
      .waitFor();
    expect(errors).toEqual([]);
  });
});
