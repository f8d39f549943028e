/** How the screen is shown: light, hands, which hand. Kept apart from the herd; read before the first paint. */
export interface Look {
  readonly light: "day" | "sun" | "barn";
  readonly hands: "bare" | "gloves";
  readonly side: "right" | "left";
}

/** Light background until somebody chooses otherwise, whatever the phone prefers (rule UI-10). */
export const FIRST_LOOK: Look = { light: "day", hands: "bare", side: "right" };

const KEY = "pollard-look";

/** The look chosen on this phone. A damaged or missing note gives the first look. */
export function readLook(storage: Pick<Storage, "getItem">): Look {
  const parts = (storage.getItem(KEY) ?? "").split(" ");
  const pick = <T extends string>(at: number, allowed: readonly T[], fallback: T): T =>
    allowed.find((value) => value === parts[at]) ?? fallback;
  return {
    light: pick(0, ["day", "sun", "barn"], FIRST_LOOK.light),
    hands: pick(1, ["bare", "gloves"], FIRST_LOOK.hands),
    side: pick(2, ["right", "left"], FIRST_LOOK.side),
  };
}

export function writeLook(storage: Pick<Storage, "setItem">, look: Look): void {
  storage.setItem(KEY, `${look.light} ${look.hands} ${look.side}`);
}

/** Puts the look on the page. */
export function applyLook(root: HTMLElement, look: Look): void {
  root.dataset["light"] = look.light;
  root.dataset["hands"] = look.hands;
  root.dataset["side"] = look.side;
}
