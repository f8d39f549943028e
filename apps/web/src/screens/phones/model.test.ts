import { Buffer } from "node:buffer";
import jsQR from "jsqr";
import { encode } from "uqr";
import { describe, expect, test } from "vitest";
import { codeInHash, codeShown, digitsOf, joinAddress, whyNot } from "./model.ts";

describe("joining by a code", () => {
  test("[UI-96] a code is shown in fours and read back from however it is typed", () => {
    expect(codeShown("012345678901")).toBe("0123 4567 8901");
    for (const typed of ["0123 4567 8901", "0123-4567-8901", " 012345678901\n"])
      expect(digitsOf(typed)).toBe("012345678901");
  });

  test("[UI-96] the picture holds the address with the code, as a reader made by others finds it", () => {
    const address = joinAddress("https://goats.example:4443", "012345678901");
    const { data, size } = encode(address, { ecc: "M", border: 4 });
    const scale = 4;
    const pixels = new Uint8ClampedArray((size * scale) ** 2 * 4).fill(255);
    for (let y = 0; y < size * scale; y++)
      for (let x = 0; x < size * scale; x++) {
        const dark = data[Math.floor(y / scale)]?.[Math.floor(x / scale)] === true;
        if (dark) pixels.fill(0, (y * size * scale + x) * 4, (y * size * scale + x) * 4 + 3);
      }
    expect(jsQR(pixels, size * scale, size * scale)?.data).toBe(address);
    expect(Buffer.byteLength(address)).toBeLessThan(400);
    expect(codeInHash(new URL(address).hash)).toBe("012345678901");
    expect(codeInHash("#/join/12")).toBeUndefined();
  });

  test("[UI-96] why a phone could not join is one of a few sentences", () => {
    expect(whyNot({ code: "unreachable", cause: new Error("no network") })).toBe("unreachable");
    expect(whyNot({ code: "peer-refused", status: 403, reason: "no-such-code" })).toBe("no-such-code");
    expect(whyNot({ code: "peer-refused", status: 500, reason: "broken" })).toBe("other");
  });
});
