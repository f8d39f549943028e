import type { ToRecord } from "./entry-maker.ts";

/** Something that one tap did and the phone's disk did not take. */
export interface HeldDeed {
  /** What was done, in words. */
  readonly said: string;
  readonly facts: readonly ToRecord[];
  /** Whose hand it was. */
  readonly who: string;
}

/** Deeds that are on no disk, in the order of their taps; held as long as the page is open. */
export interface HeldDeeds {
  all(): readonly HeldDeed[];
  /** Holds a deed; the same one tapped again takes the place of the first. */
  hold(deed: HeldDeed): void;
  /** What was held of these facts is on disk. */
  letGo(facts: readonly ToRecord[]): void;
}

/** Nothing is held at the start. */
export function heldDeeds(): HeldDeeds {
  let held: readonly HeldDeed[] = [];
  /** What was done, whichever ids it was given: tapped twice, it is one deed. */
  const meant = (facts: readonly ToRecord[]): string => JSON.stringify(facts.map(({ fact }) => fact));
  const without = (facts: readonly ToRecord[]): readonly HeldDeed[] =>
    held.filter((each) => meant(each.facts) !== meant(facts));
  return {
    all: () => held,
    hold(deed) {
      held = [...without(deed.facts), deed];
    },
    letGo(facts) {
      held = without(facts);
    },
  };
}
