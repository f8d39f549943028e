import { useState } from "react";
import type { ExchangeOutcome } from "../worker/hub-exchange.ts";
import { useGround } from "./use-house.tsx";

/** How an exchange that somebody asked for stands, and the asking; one at a time. */
export interface ExchangeNow {
  /** `idle`: none was asked for, or the last one was whole. */
  readonly state: "idle" | "working" | Exclude<ExchangeOutcome["state"], "done" | "not-kept">;
  readonly now: () => Promise<void>;
}

/** An exchange with the hub at the press of a key. */
export function useExchangeNow(): ExchangeNow {
  const { house } = useGround();
  const [state, setState] = useState<ExchangeNow["state"]>("idle");
  return {
    state,
    async now() {
      if (state === "working") return;
      setState("working");
      const outcome = await house.exchange();
      setState(outcome === "done" ? "idle" : outcome === "not-kept" ? "away" : outcome);
    },
  };
}
