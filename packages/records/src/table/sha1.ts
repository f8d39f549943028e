const rotated = (word: number, by: number): number => (word << by) | (word >>> (32 - by));
const ROUND_KEYS = [0x5a827999, 0x6ed9eba1, 0x8f1bbcdc, 0xca62c1d6] as const;

/**
 * The SHA-1 digest of bytes, twenty bytes. For names that are made from what they name; never to keep a secret.
 *
 * Source: [rfc3174] section 6.1.
 */
export function sha1(bytes: readonly number[]): readonly number[] {
  const words = padded(bytes);
  let state: readonly [number, number, number, number, number] = [
    0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476, 0xc3d2e1f0,
  ];
  for (let block = 0; block < words.length; block += 16) {
    const w = words.slice(block, block + 16);
    for (let t = 16; t < 80; t++)
      w.push(rotated((w[t - 3] ?? 0) ^ (w[t - 8] ?? 0) ^ (w[t - 14] ?? 0) ^ (w[t - 16] ?? 0), 1));
    let [a, b, c, d, e] = state;
    for (let t = 0; t < 80; t++) {
      const mixed = t < 20 ? (b & c) | (~b & d) : t >= 40 && t < 60 ? (b & c) | (b & d) | (c & d) : b ^ c ^ d;
      const next = (rotated(a, 5) + mixed + e + (w[t] ?? 0) + (ROUND_KEYS[Math.floor(t / 20)] ?? 0)) | 0;
      [e, d, c, b, a] = [d, c, rotated(b, 30), a, next];
    }
    state = [(state[0] + a) | 0, (state[1] + b) | 0, (state[2] + c) | 0, (state[3] + d) | 0, (state[4] + e) | 0];
  }
  return state.flatMap((word) => [24, 16, 8, 0].map((by) => (word >>> by) & 0xff));
}

/** The bytes as whole blocks of sixteen words: then a one, zeros, and the length in bits. */
function padded(bytes: readonly number[]): readonly number[] {
  const words = Array.from({ length: Math.ceil((bytes.length + 9) / 64) * 16 }, () => 0);
  const put = (byte: number, at: number): void => {
    words[at >> 2] = (words[at >> 2] ?? 0) | (byte << (24 - 8 * (at & 3)));
  };
  bytes.forEach(put);
  put(0x80, bytes.length);
  words[words.length - 2] = Math.floor(bytes.length / 2 ** 29);
  words[words.length - 1] = (bytes.length * 8) | 0;
  return words;
}
