/** The polynomial of CRC-32, bits reversed. */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ POLYNOMIAL : sum >>> 1;
  return sum;
});

/**
 * The checksum of a text's UTF-8 bytes, as eight hexadecimal digits. `before` = the checksum of the text in front of it.
 *
 * Finds damage, not malice: a file whose sum is right may still have been written by anybody.
 *
 * Source: [crc-catalogue] CRC-32/ISO-HDLC; half a surrogate pair counts as U+FFFD, as encoders write it.
 *
 * @example
 * crc32("123456789"); // "cbf43926"
 */
export function crc32(text: string, before = "00000000"): string {
  let sum = Number.parseInt(before, 16) ^ 0xffffffff;
  const take = (byte: number) => {
    sum = (sum >>> 8) ^ (TABLE[(sum ^ byte) & 0xff] ?? 0);
  };
  for (let at = 0; at < text.length; at++) {
    let point = text.codePointAt(at) ?? 0;
    if (point >= 0xd800 && point <= 0xdfff) point = 0xfffd;
    if (point < 0x80) take(point);
    else {
      if (point < 0x800) take(0xc0 | (point >> 6));
      else {
        if (point < 0x10000) take(0xe0 | (point >> 12));
        else {
          at += 1; // the second half of the pair
          take(0xf0 | (point >> 18));
          take(0x80 | ((point >> 12) & 0x3f));
        }
        take(0x80 | ((point >> 6) & 0x3f));
      }
      take(0x80 | (point & 0x3f));
    }
  }
  return ((sum ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}
