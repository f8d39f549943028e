import { useSyncExternalStore } from "react";

const DESK = "(min-width: 900px)";
const subscribe = (listen: () => void): (() => void) => {
  const query = window.matchMedia(DESK);
  query.addEventListener("change", listen);
  return () => query.removeEventListener("change", listen);
};

/** Is this a desk, so that what only a desk shows is worth working out? The same width as in the style sheets. */
export const useWide = (): "desk" | "phone" =>
  useSyncExternalStore(subscribe, () => (window.matchMedia(DESK).matches ? "desk" : "phone"));
