import fc from "fast-check";

/** Half of a letter, which no text of UTF-8 can hold. */
const LONE = "\ud800";

/** Texts that have broken programs: keys of prototypes, ways out of folders, markup, line ends, other databases' words. */
export const HOSTILE_TEXTS: readonly string[] = [
  "",
  "__proto__",
  "constructor",
  "prototype",
  "toString",
  "hasOwnProperty",
  "../../../../etc/passwd",
  "..\\..\\windows\\win.ini",
  "a\u0000b",
  "\r\nSet-Cookie: a=b",
  '"}],"level":"error","time":"\n{"what":"request"}',
  "<script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
  "javascript:alert(1)",
  "' or 1=1; drop table entry; --",
  "${7*7}{{7*7}}<%= 7*7 %>",
  "\u202egoat\u2066",
  LONE,
  "𝒢\u0301".repeat(40),
  "x".repeat(70_000),
  "9".repeat(400),
  "-0",
  "1e309",
  "NaN",
  "0x10",
];

/** The same as parts of an address: plain, escaped once, escaped twice, and escapes that are none. */
export const HOSTILE_PARTS: readonly string[] = [
  ...HOSTILE_TEXTS.filter((text) => text.length < 3000 && text !== LONE).flatMap((text) => {
    const once = encodeURIComponent(text).replaceAll(".", "%2e");
    return [once, once.replaceAll("%", "%25")];
  }),
  "..",
  "%2e%2e",
  "..%2f..%2f..%2fetc%2fpasswd",
  "..%5c..%5csecret.txt",
  "%c0%ae%c0%ae%c0%af",
  "%E0%A4%A",
  "%",
  "%00",
  "%0d%0aX-Injected:%20yes",
  ";a=b",
  "*",
  ":herd",
  "a".repeat(3000),
];

const text = fc.oneof(fc.constantFrom(...HOSTILE_TEXTS), fc.string({ unit: "grapheme", maxLength: 20 }));

/** Any JSON, with the names that programs trip over as its names and texts. */
const hostileJson = fc.letrec((tie) => ({
  any: fc.oneof(
    { maxDepth: 4 },
    text,
    fc.constantFrom(null, true, false, 0, -1, 1e308, 2 ** 53, 0.1),
    fc.array(tie("any"), { maxLength: 4 }),
    fc.dictionary(text, tie("any"), { maxKeys: 4, noNullPrototype: false }),
  ),
})).any;

/** Something that looks like what an address wants, with a hostile part. */
const nearly = fc
  .record({
    exchange: fc.constantFrom(1, 1, 1, 0, "1", 99),
    entries: fc.oneof(fc.array(hostileJson, { maxLength: 3 }), hostileJson),
    code: fc.oneof(fc.constantFrom("000000000000", "1234 5678 9012"), hostileJson),
    name: hostileJson,
    role: fc.oneof(fc.constantFrom("keeper", "vet"), hostileJson),
    kid: text,
    days: fc.oneof(fc.integer(), hostileJson),
    paper: hostileJson,
    photos: fc.oneof(fc.array(text, { maxLength: 3 }), hostileJson),
    kids: hostileJson,
  })
  .map((value) => JSON.stringify(value));

/** A body as bytes or text: well made, nearly so, cut short, or anything at all. */
export const hostileBody: fc.Arbitrary<string | Uint8Array<ArrayBuffer>> = fc.oneof(
  { arbitrary: nearly, weight: 4 },
  { arbitrary: hostileJson.map((value) => JSON.stringify(value)), weight: 3 },
  { arbitrary: fc.tuple(nearly, fc.nat(200)).map(([whole, at]) => whole.slice(0, at)), weight: 1 },
  { arbitrary: fc.uint8Array({ maxLength: 60 }).map((bytes) => Uint8Array.from(bytes)), weight: 1 },
  { arbitrary: fc.constantFrom("[".repeat(200_000), '{"a":'.repeat(50_000), '"'.repeat(5000), "\ufeff{}"), weight: 1 },
);

/** Headers of a request, each as odd as a library lets it be. */
export const hostileHeaders: fc.Arbitrary<Record<string, string>> = fc.dictionary(
  fc.constantFrom(
    "accept",
    "accept-encoding",
    "accept-language",
    "authorization",
    "content-encoding",
    "content-length",
    "cookie",
    "forwarded",
    "if-none-match",
    "last-event-id",
    "origin",
    "range",
    "sec-fetch-site",
    "transfer-encoding",
    "x-forwarded-for",
    "x-http-method-override",
    "x-original-url",
  ),
  fc.oneof(
    fc.constantFrom(
      "gzip",
      "Bearer x",
      "null",
      "http://localhost:4180",
      "bytes=0-1",
      "-1",
      "99999999999",
      "POST",
      "/metrics",
    ),
    fc.stringMatching(/^[!-~]{0,40}$/),
  ),
  { maxKeys: 3 },
);
