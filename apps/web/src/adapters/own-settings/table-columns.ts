const KEY = "pollard-columns";

/** Columns of the herd's table that this device leaves out; none until somebody says otherwise. */
export const readHiddenColumns = (storage: Pick<Storage, "getItem">): readonly string[] =>
  (storage.getItem(KEY) ?? "").split(" ").filter((column) => column !== "");

export const writeHiddenColumns = (storage: Pick<Storage, "setItem">, hidden: readonly string[]): void =>
  storage.setItem(KEY, hidden.join(" "));
