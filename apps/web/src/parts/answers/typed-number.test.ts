import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { typedNumber } from "./typed-number.ts";

const valueOf = (text: string): unknown => {
  const typed = typedNumber(text);
  return typed.state === "number" ? typed.value : typed.state;
};

describe("numbers as they are typed", () => {
  test("[UI-201] a decimal comma is a decimal point", () => {
    expect(["3,6", "3.6", " 3 ", "0,05", "12.50"].map(valueOf)).toEqual([3.6, 3.6, 3, 0.05, 12.5]);
  });

  test("[UI-201] what may be a mark for thousands is refused, and whatever else is no number", () => {
    const unclear = [
      "1,200",
      "1.200",
      "1,234.5",
      "1.234,5",
      "1 200",
      "3,",
      ",5",
      "-3",
      "3e2",
      "0x10",
      "3 lb",
      "Infinity",
    ];
    expect(unclear.map(valueOf)).toEqual(unclear.map(() => "unclear"));
    expect(["", "  "].map(valueOf)).toEqual(["empty", "empty"]);
  });

  describe("laws", () => {
    test("[UI-201] whatever has up to two decimals is taken for what it is, with either mark", () => {
      const written = fc.tuple(fc.nat(9999), fc.nat(99), fc.constantFrom(",", "."));
      fc.assert(
        fc.property(written, ([whole, rest, mark]) => {
          expect(valueOf(`${whole}${mark}${String(rest).padStart(2, "0")}`)).toBe(
            Number((whole + rest / 100).toFixed(2)),
          );
        }),
      );
    });

    test("[UI-201] no number written with marks for thousands, in any language, is taken for a smaller one", () => {
      const languages = fc.constantFrom("en-US", "en-GB", "es-ES", "es-MX", "de-DE", "fr-FR", "en-IN", "de-CH");
      fc.assert(
        fc.property(fc.integer({ min: 10_000, max: 9_999_999 }), languages, (n, language) => {
          expect(valueOf(n.toLocaleString(language))).toBe("unclear");
        }),
      );
    });
  });
});
