import { type RefObject, useEffect, useRef } from "react";

/** Room for the ring around what has the focus, px. */
const RING_PX = 8;

/**
 * Keeps what the keys reach out from under the bars that stay in sight: tells the page how much of its window they take at
 * the head and at the foot, whenever one of them grows or goes.
 *
 * Shape: to be given to the element whose children the bars are.
 */
export function useClearOfBars(): RefObject<HTMLDivElement | null> {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const within = frame.current;
    if (within === null) return undefined;
    const { style } = document.documentElement;
    const measure = (): void => {
      let [head, foot] = [0, 0];
      for (const bar of within.querySelectorAll<HTMLElement>(":scope > .board, :scope > .dock, :scope > .foot")) {
        const { position, top, bottom } = getComputedStyle(bar);
        const height = bar.offsetHeight;
        if (position !== "sticky" || height > window.innerHeight / 2) continue;
        if (bottom === "auto") head = Math.max(head, Number.parseFloat(top) + height);
        else foot = Math.max(foot, Number.parseFloat(bottom) + height);
      }
      style.scrollPaddingTop = `${head + RING_PX}px`;
      style.scrollPaddingBottom = `${foot + RING_PX}px`;
    };
    const watching = new ResizeObserver(measure);
    watching.observe(document.documentElement);
    const watchBars = (): void => {
      for (const bar of within.children) watching.observe(bar);
    };
    // A bar that comes later, such as the keys at the foot once the answer is there, is watched from then on.
    const coming = new MutationObserver(watchBars);
    coming.observe(within, { childList: true });
    watchBars();
    return () => {
      coming.disconnect();
      watching.disconnect();
      style.scrollPaddingTop = "";
      style.scrollPaddingBottom = "";
    };
  }, []);
  return frame;
}
