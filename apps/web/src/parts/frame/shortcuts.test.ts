import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readShortcuts, writeShortcuts } from "../../adapters/own-settings/shortcuts.ts";
import { shortcutOf } from "./shortcuts.ts";

const key = (pressed: string, over: Partial<Parameters<typeof shortcutOf>[0]> = {}) => ({
  key: pressed,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  typing: "not-typing" as const,
  ...over,
});

describe("single keys", () => {
  test("[UI-127] / searches, ? shows the keys, nothing while typing or with Ctrl held", () => {
    expect(shortcutOf(key("/"), "on")).toBe("search");
    expect(shortcutOf(key("?"), "on")).toBe("keys");
    expect(shortcutOf(key("a"), "on")).toBeUndefined();
    expect(shortcutOf(key("/", { typing: "typing" }), "on")).toBeUndefined();
    expect(shortcutOf(key("/", { ctrlKey: true }), "on")).toBeUndefined();
  });

  test("[UI-127] they are on until switched off, and stay off on this device", () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, value: string) => void kept.set(name, value),
    };
    expect(readShortcuts(storage)).toBe("on");
    writeShortcuts(storage, "off");
    expect(readShortcuts(storage)).toBe("off");
  });

  describe("laws", () => {
    test("[UI-127] switched off, no key does anything", () => {
      fc.assert(
        fc.property(fc.string({ maxLength: 2 }), fc.constantFrom("typing", "not-typing"), (pressed, typing) => {
          expect(shortcutOf(key(pressed, { typing }), "off")).toBeUndefined();
        }),
      );
    });
  });
});
