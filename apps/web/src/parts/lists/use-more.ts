import { type RefObject, useEffect, useRef, useState } from "react";
import { flushSync } from "react-dom";

/** Rows drawn at once: more than any window is high, few enough for a slow computer to draw in a moment. */
const AT_ONCE = 30;
/** How near the end of what is drawn may come before more is, px. */
const NEAR = 600;

/**
 * How many rows of a long table are drawn: some at first, more as their end comes near, all of them on paper.
 *
 * `rows` begins anew whenever it is another list, as after sorting. The end is an element right after the table.
 */
export function useMore(rows: readonly unknown[]): {
  readonly drawn: number;
  readonly end: RefObject<HTMLDivElement | null>;
} {
  const [state, setState] = useState({ of: rows, drawn: AT_ONCE });
  const drawn = Math.min(rows.length, state.of === rows ? state.drawn : AT_ONCE);
  const end = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (end.current === null || drawn === rows.length) return undefined;
    const nearing = new IntersectionObserver(
      (seen) => {
        if (seen.some(({ isIntersecting }) => isIntersecting)) setState({ of: rows, drawn: drawn + AT_ONCE });
      },
      { root: end.current.parentElement, rootMargin: `${NEAR}px` },
    );
    nearing.observe(end.current);
    return () => nearing.disconnect();
  }, [rows, drawn]);
  useEffect(() => {
    const all = (): void => flushSync(() => setState({ of: rows, drawn: rows.length }));
    window.addEventListener("beforeprint", all);
    return () => window.removeEventListener("beforeprint", all);
  }, [rows]);
  return { drawn, end };
}
