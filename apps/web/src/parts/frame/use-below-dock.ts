import { type RefObject, useEffect, useRef, useState } from "react";

/**
 * Whether a part of the page still lies below what can be seen: under the dock, or under the window's edge.
 *
 * Shape: `in-sight` once half of it has come up, and wherever the page has been moved past it.
 */
export function useBelowDock(): {
  readonly part: RefObject<HTMLDivElement | null>;
  readonly where: "below" | "in-sight";
} {
  const part = useRef<HTMLDivElement>(null);
  const [where, setWhere] = useState<"below" | "in-sight">("in-sight");
  useEffect(() => {
    const one = part.current;
    if (one === null) return undefined;
    const dock = one.closest(".frame")?.querySelector(".dock");
    const covered = dock === null || dock === undefined ? 0 : Math.ceil(dock.getBoundingClientRect().height);
    const coming = new IntersectionObserver(
      (seen) => {
        const last = seen.at(-1);
        if (last === undefined) return;
        const middle = last.boundingClientRect.top + last.boundingClientRect.height / 2;
        setWhere(middle > window.innerHeight - covered ? "below" : "in-sight");
      },
      { rootMargin: `0px 0px -${covered}px 0px`, threshold: [0, 0.5, 1] },
    );
    coming.observe(one);
    return () => coming.disconnect();
  }, []);
  return { part, where };
}
