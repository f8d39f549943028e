const KEY = "pollard-paper";

/** The paper that is in this house's printer; A4 until somebody says otherwise. */
export const readPaper = (storage: Pick<Storage, "getItem">): "A4" | "Letter" =>
  storage.getItem(KEY) === "Letter" ? "Letter" : "A4";

export const writePaper = (storage: Pick<Storage, "setItem">, paper: "A4" | "Letter"): void =>
  storage.setItem(KEY, paper);
