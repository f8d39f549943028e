import {
  createContext,
  type DependencyList,
  useContext,
  useEffect,
  useRef,
  useState,
  useSyncExternalStore,
} from "react";
import { Bug, type Day, type WeightUnit } from "@pollard/base";
import type { Language, Screens } from "@pollard/words";
import { today as clockToday } from "../adapters/clock.ts";
import type { Device, KeptHerd } from "../adapters/device.ts";
import type { Look } from "../adapters/own-settings/look.ts";
import type { AskHerd } from "../worker/herd-answers.ts";
import type { House } from "./house.ts";
import { screens } from "./wording.ts";

/** Everything a screen stands on: the phone, the herd that is open, who holds the phone, and the look. */
export interface Ground {
  readonly device: Device;
  readonly house: House;
  readonly who: string | undefined;
  readonly look: Look;
  readonly language: Language;
  /** In what this phone takes and shows weights. */
  readonly unit: WeightUnit;
  readonly setWho: (name: string) => Promise<void>;
  readonly setLook: (look: Look) => void;
  readonly setLanguage: (language: Language) => Promise<void>;
  readonly setUnit: (unit: WeightUnit) => void;
  /** Closes this herd and opens that one; `undefined` goes back to the first screen. */
  readonly openHerd: (herd: KeptHerd | undefined) => Promise<void>;
}

export const GroundContext = createContext<Ground | undefined>(undefined);

export function useGround(): Ground {
  const ground = useContext(GroundContext);
  if (!ground) throw new Bug("a screen stands outside the app");
  return ground;
}

/** Words of the screens, in the language that this device speaks. */
export const useScreens = (): Screens => screens;

export { care, loci, weights, weightsIn, words, wordsFor } from "./wording.ts";

/** Today's calendar day; turns over at midnight while the page is open. */
export function useToday(): Day {
  const [day, setDay] = useState(clockToday);
  useEffect(() => {
    const look = (): void => setDay(clockToday());
    const timer = setInterval(look, 30_000);
    document.addEventListener("visibilitychange", look);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", look);
    };
  }, []);
  return day;
}

/** An answer of the herd, and whether a newer one is being worked out. `undefined` before the first. */
export interface Asked<T> {
  readonly value: T | undefined;
  readonly working: boolean;
}

/**
 * Asks the herd something, again whenever the ledger changes. The old answer stays until the new one is there.
 *
 * Assumes: `ask` depends only on `dependencies`.
 */
export function useAsked<T>(ask: (answers: AskHerd) => Promise<T>, dependencies: DependencyList): Asked<T> {
  const { house } = useGround();
  const version = useSyncExternalStore(house.onChange, () => house.version);
  const [asked, setAsked] = useState<Asked<T>>({ value: undefined, working: true });
  const [broken, setBroken] = useState<{ readonly reason: unknown } | undefined>();
  const about = useRef<DependencyList>(dependencies);
  useEffect(() => {
    let wanted = true;
    const sameQuestion = about.current.every((part, at) => Object.is(part, dependencies[at]));
    about.current = dependencies;
    setAsked((before) => ({ value: sameQuestion ? before.value : undefined, working: true }));
    ask(house.answers).then(
      (value) => {
        if (wanted) setAsked({ value, working: false });
      },
      (reason: unknown) => {
        if (wanted) setBroken({ reason });
      },
    );
    return () => {
      wanted = false;
    };
    // oxlint-disable-next-line react/exhaustive-deps -- `ask` is named by its dependencies
  }, [house, version, ...dependencies]);
  if (broken) throw broken.reason;
  return asked;
}
