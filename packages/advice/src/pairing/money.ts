import type { Herd } from "@pollard/records";
import { amountSetting } from "../settings.ts";

/** What the keeper pays, in the keeper's own currency; `undefined` until said. No default: prices differ too much. */
export interface Money {
  readonly visit: number | undefined;
  readonly head: number | undefined;
}

/** Where prices stand among the settings. */
export const MONEY_SETTINGS = { visit: "money-visit", head: "money-head" } as const;

/** What the keeper pays for a visit and for a head; `undefined` where no price was given. */
export const moneyOf = (herd: Herd): Money => ({
  visit: amountSetting(herd, MONEY_SETTINGS.visit),
  head: amountSetting(herd, MONEY_SETTINGS.head),
});
