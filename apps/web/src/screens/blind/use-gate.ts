import type { KidModel } from "@pollard/advice";
import { useEffect, useState, useSyncExternalStore } from "react";
import { draftKey } from "../../adapters/database/idb-drafts.ts";
import { useGround } from "../../house/use-house.tsx";
import { type Gate, gateOf } from "./model.ts";

/** The gate before a kid's answer; `looking` until it is known whether a reading of it stands open. */
export function useGate(
  id: string,
  kid: KidModel | undefined,
  shown: "asked-for" | "not-asked-for" = "not-asked-for",
): Gate | "looking" {
  const { house, who } = useGround();
  const version = useSyncExternalStore(house.onChange, () => house.version);
  const [reading, setReading] = useState<{ readonly of: string; readonly state: "open" | "none" }>();
  useEffect(() => {
    let wanted = true;
    void house.drafts.find(draftKey("head-reading", id)).then((found) => {
      // Where the phone cannot look, one may stand open: nothing is shown.
      const open = !found.ok || found.value?.state === "open";
      if (wanted) setReading({ of: id, state: open ? "open" : "none" });
    });
    return () => {
      wanted = false;
    };
  }, [house, id, version]);
  if (kid === undefined) return "open";
  if (reading?.of !== id) return "looking";
  return gateOf({ kid, who, reading: reading.state, shown });
}
