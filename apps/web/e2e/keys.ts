import type { Page } from "playwright-core";
import { untilAtRest } from "./rest.ts";

/** Where the focus is: what a listener hears of it, and whether it can be seen. */
export interface Stop {
  /** For an answer: its question and itself. */
  readonly name: string;
  readonly role: string;
  /** What hides it: the bar's class, or "outside" the window; nothing where it is in sight. */
  readonly hidden: string;
  /** How thick the ring around it is, px. */
  readonly ring: number;
}

/** Looks in the page at whatever has the focus. */
function here(): Stop {
  const one = document.activeElement as HTMLElement;
  const label = one.closest("label");
  const shown = label?.classList.contains("answer") || label?.classList.contains("file-key") ? label : one;
  const by = one.getAttribute("aria-label") ?? (label ?? one).innerText;
  const name = (by === "" && one.id !== "" ? document.querySelector(`label[for="${one.id}"]`)?.textContent : by) ?? "";
  const type = one instanceof HTMLInputElement ? one.type : one.tagName.toLowerCase();
  const box = shown.getBoundingClientRect();
  const bars = [...document.querySelectorAll<HTMLElement>(".board, .dock, .foot, .update")].filter(
    (bar) => !bar.contains(one) && ["sticky", "fixed"].includes(getComputedStyle(bar).position),
  );
  const under = bars.find((bar) => {
    const cover = bar.getBoundingClientRect();
    const across = Math.min(box.right, cover.right) - Math.max(box.left, cover.left);
    const down = Math.min(box.bottom, cover.bottom) - Math.max(box.top, cover.top);
    if (across <= 1 || down <= 1 || box.height >= window.innerHeight / 2) return false;
    // Of two that lie over each other, the one that is painted there hides the other.
    const [x, y] = [Math.max(box.left, cover.left) + across / 2, Math.max(box.top, cover.top) + down / 2];
    return bar.contains(document.elementFromPoint(x, y));
  });
  const outside = box.bottom < 1 || box.top > window.innerHeight - 1 || box.right < 1 || box.left > innerWidth - 1;
  // A symbol of the drawn pedigree has its ring drawn, too.
  const drawn = one.querySelector(":scope > .ring");
  const { outlineStyle, outlineWidth } = getComputedStyle(shown);
  const outline = outlineStyle === "none" ? 0 : Number.parseFloat(outlineWidth);
  return {
    name: name.trim().replaceAll(/\s+/g, " "),
    role: type,
    hidden: under === undefined ? (outside ? "outside" : "") : under.className,
    ring: drawn === null ? outline : Number.parseFloat(getComputedStyle(drawn).strokeWidth),
  };
}

/**
 * A person at the keys: Tab on and on, until what is wanted is reached. Notes every stop that could not be seen.
 *
 * Assumes: the page was prepared by `atRest`. A person presses nothing before the page is there.
 */
export class Keyboard {
  readonly unseen: string[] = [];
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  /** The thing that has the focus. */
  stop(): Promise<Stop> {
    return this.#page.evaluate(here);
  }

  async tab(): Promise<Stop> {
    await this.#page.keyboard.press("Tab");
    const stop = await this.stop();
    this.#note(stop);
    return stop;
  }

  #note(stop: Stop): void {
    if (stop.role !== "body" && (stop.hidden !== "" || stop.ring < 2))
      this.unseen.push(`${this.#page.url().split("#")[1] ?? "/"}: ${stop.name} ${stop.hidden} ring ${stop.ring}`);
  }

  /** Puts the focus on everything that can take it, one after another, without the presses; answers how many there were. */
  async everyStop(): Promise<number> {
    const stops: readonly Stop[] = await this.#page.evaluate(`
      [...document.querySelectorAll("a[href], button, input, summary, textarea, select, [tabindex='0']")]
        .filter((one) => one.checkVisibility() && one.tabIndex >= 0)
        .map((one) => { one.focus(); return (${here.toString()})(); })
    `);
    for (const stop of stops) this.#note(stop);
    return stops.length;
  }

  /** Tabs to the first thing of that name, once the page is there. */
  async to(name: RegExp, role?: string): Promise<Stop> {
    await untilAtRest(this.#page);
    for (let presses = 0; presses < 150; presses++) {
      const stop = await this.tab();
      if (stop.role !== "body" && name.test(stop.name) && (role === undefined || stop.role === role)) return stop;
    }
    throw new Error(`the keys do not reach ${name}`);
  }

  /** Follows a link or presses a button. */
  async press(name: RegExp): Promise<void> {
    await this.to(name);
    await this.#page.keyboard.press("Enter");
  }

  /**
   * Gives an answer: Tab to its question, arrows to the answer. The first answer of a question nobody has answered yet
   * is taken with Space.
   */
  async answer(first: RegExp, wanted: RegExp): Promise<void> {
    await this.to(first, "radio");
    await this.#page.keyboard.press("Space");
    for (let presses = 0; presses < 12; presses++) {
      const stop = await this.stop();
      if (wanted.test(stop.name)) {
        if (await this.#page.evaluate(() => (document.activeElement as HTMLInputElement).checked)) return;
        throw new Error(`${wanted} has the focus and is not chosen`);
      }
      await this.#page.keyboard.press("ArrowDown");
    }
    throw new Error(`arrows do not reach ${wanted}`);
  }
}
