import { useEffect } from "react";

/**
 * Keeps the screen on while something is being entered, where the phone can: cold or gloved hands do not unlock it.
 *
 * A phone that refuses (battery low, not able to) goes on as it would; nothing depends on it.
 */
export function useAwake(wanted: "capture" | undefined): void {
  useEffect(() => {
    if (wanted === undefined || !("wakeLock" in navigator)) return;
    let lock: Promise<WakeLockSentinel | undefined> = Promise.resolve(undefined);
    const hold = (): void => {
      if (document.visibilityState !== "visible") return;
      lock = navigator.wakeLock.request("screen").catch(() => undefined);
    };
    hold();
    document.addEventListener("visibilitychange", hold);
    return () => {
      document.removeEventListener("visibilitychange", hold);
      void lock.then((held) => held?.release());
    };
  }, [wanted]);
}
