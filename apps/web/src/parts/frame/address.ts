import { useSyncExternalStore } from "react";

/**
 * Where the app is: the part of the address after `#`, so that any plain file server can hand the app out.
 *
 * Each step forward is written into the browser's own history with its depth, so the phone's Back and ours are one.
 */
const MOVED = "pollard-moved";

/** What each place in the history remembers: steps of the app behind it, and of these, steps of the job under way. */
interface Place {
  readonly depth: number;
  readonly within: number;
}

const here = (): string => window.location.hash.replace(/^#/, "") || "/";

function placeNow(): Place {
  const state = window.history.state as Partial<Place> | null;
  return { depth: state?.depth ?? 0, within: state?.within ?? 0 };
}

const subscribe = (listen: () => void): (() => void) => {
  window.addEventListener("popstate", listen);
  window.addEventListener("hashchange", listen);
  window.addEventListener(MOVED, listen);
  return () => {
    window.removeEventListener("popstate", listen);
    window.removeEventListener("hashchange", listen);
    window.removeEventListener(MOVED, listen);
  };
};

/** How many steps of this app lie behind the page now shown; kept in the history itself, so it survives a reload. */
export const stepsBehind = (): number => placeNow().depth;

interface Going {
  /** Leaves no step behind, for screens that must not be come back to. */
  readonly replace?: boolean;
  /** A further step of one job (a reading's next question): see `leaveJob`. */
  readonly within?: "job";
}

/** Goes to a screen. */
export function goTo(path: string, going: Going = {}): void {
  const { depth, within } = placeNow();
  if (going.replace) window.history.replaceState({ depth, within }, "", `#${path}`);
  else window.history.pushState({ depth: depth + 1, within: going.within === "job" ? within + 1 : 0 }, "", `#${path}`);
  window.dispatchEvent(new Event(MOVED));
}

/** Ends a job of several steps: its result stands where its first step stood, so Back does not walk through it again. */
export function leaveJob(path: string): void {
  const { within } = placeNow();
  if (within === 0) {
    goTo(path, { replace: true });
    return;
  }
  window.addEventListener("popstate", () => goTo(path, { replace: true }), { once: true });
  window.history.go(-within);
}

/** The location hook that the router is given. */
export const useAddress = (): [string, typeof goTo] => [useSyncExternalStore(subscribe, here), goTo];
useAddress.hrefs = (href: string): string => `#${href}`;
