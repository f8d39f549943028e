import { ok, present } from "@pollard/base";
import fc from "fast-check";
import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { type Backup, readBackup, writeBackup } from "./backup-file.ts";

const picture = (id: string, size = 400) => ({
  id,
  bytes: Uint8Array.from({ length: size }, (_, at) => (at < 3 ? ([0xff, 0xd8, 0xff][at] ?? 0) : (at * 37) % 251)),
});
const backup: Backup = {
  text: '{"format":"pollard-herd","version":1}\n山羊, Ínes\n',
  photos: [picture("019cb84c-3a10-7c41-9d02-6f3a1b2c4d5e"), picture("019cbd7a-51e8-7f0b-8a6d-2b9c8d7e6f50", 3)],
};
const packed = (parts: Record<string, Uint8Array>) => new Blob([zipSync(parts)]);
const bytesOf = async (of: Blob) => new Uint8Array(await of.arrayBuffer());

describe("a backup file", () => {
  test("[UI-84] without photos it is the herd file itself, as ever", async () => {
    const { blob, ending } = await writeBackup({ ...backup, photos: [] });
    expect(ending).toBe("jsonl");
    expect(await blob.text()).toBe(backup.text);
    expect(await readBackup(blob)).toEqual(ok({ text: backup.text, photos: [] }));
  });

  test("[UI-84] with photos it is packed, and everything comes out again", async () => {
    const { blob, ending } = await writeBackup(backup);
    expect(ending).toBe("zip");
    expect(await readBackup(blob)).toEqual(ok(backup));
  });

  test("[UI-84] a packed file of something else, a file with a strange part in it, and pictures that are none", async () => {
    expect(await readBackup(packed({ "letter.txt": strToU8("dear vet") }))).toEqual({
      ok: false,
      error: "packed-strange",
    });
    const mixed = packed({
      "herd.jsonl": strToU8("{}"),
      "../outside.jpg": picture("x").bytes,
      "photos/../../etc.jpg": picture("x").bytes,
      "photos/not-a-picture.jpg": strToU8("<html>"),
      "photos/good.jpg": picture("good").bytes,
    });
    const read = await readBackup(mixed);
    expect(read.ok && read.value.photos.map(({ id }) => id)).toEqual(["good"]);
  });

  test("[UI-84] cut short: said to be damaged, nothing half read", async () => {
    const whole = await bytesOf((await writeBackup(backup)).blob);
    expect(await readBackup(new Blob([whole.slice(0, whole.length - 40)]))).toEqual({
      ok: false,
      error: "packed-damaged",
    });
  });

  describe("laws", () => {
    test("[UI-84] whatever byte is wrong, there is an answer", async () => {
      const whole = await bytesOf((await writeBackup(backup)).blob);
      await fc.assert(
        fc.asyncProperty(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), async (at, by) => {
          const bytes = whole.slice();
          bytes[at] = (present(bytes[at], "byte") + by) % 256;
          const read = await readBackup(new Blob([bytes]));
          expect(typeof read.ok).toBe("boolean");
        }),
        { numRuns: 150 },
      );
    });
  });

  describe("published", () => {
    test("[UI-84] signatures, method and checksum lie where the zip format says", async () => {
      // PKWARE APPNOTE 6.3: local header 50 4B 03 04, method at 8, CRC-32 at 14; end record 50 4B 05 06, its count at 10.
      const bytes = await bytesOf(packed({ "a.txt": strToU8("123456789") }));
      const view = new DataView(bytes.buffer);
      expect(view.getUint32(0, true)).toBe(0x04034b50);
      // The check value of CRC-32/ISO-HDLC for "123456789" (crc-catalogue).
      expect(view.getUint32(14, true)).toBe(0xcbf43926);
      const end = bytes.length - 22;
      expect(view.getUint32(end, true)).toBe(0x06054b50);
      expect(view.getUint16(end + 10, true)).toBe(1);
    });
  });
});
