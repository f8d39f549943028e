import { useEffect } from "react";
import { readShortcuts } from "../../adapters/own-settings/shortcuts.ts";
import { goTo } from "./address.ts";

/** What single keys do anywhere in the app. */
export type Shortcut = "search" | "keys";

/** A key as it was pressed, and whether somebody is typing. */
interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly typing: "typing" | "not-typing";
}

/** What a key does: nothing while somebody types, with Ctrl, Alt or Meta held, or where shortcuts are switched off. */
export function shortcutOf(pressed: Pressed, shortcuts: "on" | "off"): Shortcut | undefined {
  if (shortcuts === "off" || pressed.typing === "typing") return undefined;
  if (pressed.ctrlKey || pressed.metaKey || pressed.altKey) return undefined;
  return pressed.key === "/" ? "search" : pressed.key === "?" ? "keys" : undefined;
}

/** Set while somebody asked to search and the table that is searched is not there yet. */
let searchWished = false;

/** Puts the cursor into a field that searches, if that is what somebody asked for on another screen. */
export function takeSearchWish(field: HTMLElement | null): void {
  if (!searchWished || field === null) return;
  searchWished = false;
  field.focus();
}

function search(): void {
  const field = document.querySelector<HTMLElement>("[data-search]");
  if (field !== null) {
    field.focus();
    return;
  }
  if (!window.matchMedia("(min-width: 900px)").matches) {
    goTo("/find");
    return;
  }
  searchWished = true;
  goTo("/animals");
}

/** Listens for single keys as long as the app is open. */
export function useShortcuts(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const { key, ctrlKey, metaKey, altKey, target } = event;
      const typing =
        target instanceof Element && target.closest("input:not([type=radio]):not([type=checkbox]), textarea, select");
      const shortcut = shortcutOf(
        { key, ctrlKey, metaKey, altKey, typing: typing ? "typing" : "not-typing" },
        readShortcuts(localStorage),
      );
      if (shortcut === undefined || event.defaultPrevented) return;
      event.preventDefault();
      if (shortcut === "search") search();
      else goTo("/keys");
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}
