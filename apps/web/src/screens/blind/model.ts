import type { KidModel } from "@pollard/advice";

/**
 * Whether a read head's answer may be shown to whoever holds the phone.
 *
 * `read-first`: others have read it and the holder has not, so it is offered to be read blind. `under-way`: a reading of it
 * stands open on this phone. Both can be passed by asking for the answer; nothing of it is on the page before.
 */
export type Gate = "open" | "read-first" | "under-way";

export function gateOf(of: {
  readonly kid: KidModel;
  readonly who: string | undefined;
  readonly reading: "open" | "none";
  readonly shown: "asked-for" | "not-asked-for";
}): Gate {
  const { kid, who, reading, shown } = of;
  if (shown === "asked-for" || kid.belief === undefined || kid.advice.kind === "done") return "open";
  if (reading === "open") return "under-way";
  return who === undefined || kid.belief.readers.includes(who) ? "open" : "read-first";
}
