import type { Day } from "@pollard/base";
import { useEffect, useState } from "react";
import type { PrintedMark } from "../../adapters/database/idb-marks.ts";
import { useGround } from "../../house/use-house.tsx";

/** What this phone last printed of the list for a day, and how to remember a new printing. */
export function usePrinted(day: Day): {
  readonly printed: PrintedMark | undefined;
  readonly setPrinted: (mark: PrintedMark) => void;
} {
  const { house } = useGround();
  const [printed, setMark] = useState<PrintedMark>();
  useEffect(() => {
    let wanted = true;
    void house.marks.printed(day).then((found) => {
      if (wanted && found.ok) setMark(found.value);
    });
    return () => {
      wanted = false;
    };
  }, [house, day]);
  return {
    printed,
    setPrinted(mark) {
      void house.marks.setPrinted(day, mark).then((kept) => {
        if (kept.ok) setMark(mark);
      });
    },
  };
}
