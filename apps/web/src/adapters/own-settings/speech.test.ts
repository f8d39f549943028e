import { describe, expect, test } from "vitest";
import { readLanguage, readUnit, writeLanguage, writeUnit } from "./speech.ts";

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

describe("the unit of weights of this phone", () => {
  test("[UI-200] pounds where the phone's own region weighs so, until somebody chooses; a damaged note is no choice", () => {
    const storage = shelf();
    const usual = (...wishes: readonly string[]) => readUnit(storage, wishes);
    expect([usual("en-US", "en"), usual("es-US"), usual("en-LR"), usual("es-Latn-US")]).toEqual([
      "lb",
      "lb",
      "lb",
      "lb",
    ]);
    expect([usual("en-GB"), usual("es-MX", "en-US"), usual("en"), usual(), usual("es-419")]).toEqual(
      Array.from({ length: 5 }, () => "kg"),
    );
    expect(usual("en", "en-US")).toBe("lb");
    writeUnit(storage, "kg");
    expect(usual("en-US")).toBe("kg");
    storage.setItem("pollard-unit", "stone");
    expect(usual("en-US")).toBe("lb");
  });
});
