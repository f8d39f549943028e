import type { VetFigures, VetWindow } from "@pollard/husbandry";
import type { Herd } from "@pollard/records";

/** The keeper's settings, by the keys under which entries hold them. Anything unset or unusable keeps its default. */
export const WINDOW_SETTINGS = {
  "buckling-look-from": ["buck", "lookFrom"],
  "buckling-aim-from": ["buck", "aimFrom"],
  "buckling-aim-to": ["buck", "aimTo"],
  "buckling-amber-after": ["buck", "amberAfter"],
  "buckling-end": ["buck", "end"],
  "doeling-look-from": ["doe", "lookFrom"],
  "doeling-aim-from": ["doe", "aimFrom"],
  "doeling-aim-to": ["doe", "aimTo"],
  "doeling-amber-after": ["doe", "amberAfter"],
  "doeling-end": ["doe", "end"],
} as const satisfies Readonly<Record<string, readonly ["buck" | "doe", keyof VetWindow]>>;

/** Oldest age, in days, that is taken for the end of a window: past it, it would not be disbudding at all [ava2022]. */
const LATEST_END_DAYS = 21;

/** What the herd is called, for sheets and file names; `undefined` until the keeper says. */
export const herdNameOf = (herd: Herd): string | undefined => textSetting(herd, "herd-name");

/** The breed of animals whose own is not recorded. */
export const herdBreedOf = (herd: Herd): string | undefined => textSetting(herd, "herd-breed");

/** The vet's own figures for the window. A figure that is no whole day within three weeks is left aside. */
export function vetFiguresOf(herd: Herd): VetFigures {
  const figures: { buck: Partial<Record<keyof VetWindow, number>>; doe: Partial<Record<keyof VetWindow, number>> } = {
    buck: {},
    doe: {},
  };
  for (const [key, [sex, name]] of Object.entries(WINDOW_SETTINGS)) {
    const value = herd.settings.get(key);
    if (typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= LATEST_END_DAYS)
      figures[sex][name] = value;
  }
  return figures;
}

function textSetting(herd: Herd, key: string): string | undefined {
  const value = herd.settings.get(key);
  return typeof value === "string" && value.trim() !== "" ? value : undefined;
}

/** A number the keeper set, if it is one and not negative. */
export function amountSetting(herd: Herd, key: string): number | undefined {
  const value = herd.settings.get(key);
  return typeof value === "number" && Number.isFinite(value) && value >= 0 ? value : undefined;
}
