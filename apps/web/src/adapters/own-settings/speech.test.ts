import { describe, expect, test } from "vitest";
import { readLanguage, writeLanguage } from "./speech.ts";

function shelf(): Pick<Storage, "getItem" | "setItem"> {
  const kept = new Map<string, string>();
  return { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) };
}

describe("the language of this phone", () => {
  test("[UI-130] the phone's own first wish that there is, until somebody chooses; a damaged note is no choice", () => {
    const storage = shelf();
    expect(readLanguage(storage, ["gl-ES", "es-UY", "en"])).toBe("es");
    expect(readLanguage(storage, ["fr", "de-AT"])).toBe("en");
    writeLanguage(storage, "en");
    expect(readLanguage(storage, ["es-UY"])).toBe("en");
    storage.setItem("pollard-language", "xx");
    expect(readLanguage(storage, ["es-UY"])).toBe("es");
  });
});
