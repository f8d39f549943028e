const KEY = "pollard-shortcuts";

/** Do single keys do something on this device? They do until somebody switches them off. */
export const readShortcuts = (storage: Pick<Storage, "getItem">): "on" | "off" =>
  storage.getItem(KEY) === "off" ? "off" : "on";

export const writeShortcuts = (storage: Pick<Storage, "setItem">, shortcuts: "on" | "off"): void =>
  storage.setItem(KEY, shortcuts);
