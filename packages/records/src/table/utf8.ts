/** The bytes of a text in UTF-8; a lone half of a pair becomes the sign for what cannot be read, as everywhere else. */
export function utf8Bytes(text: string): readonly number[] {
  const escaped = encodeURIComponent(text.replace(/\p{Surrogate}/gu, "\ufffd"));
  const bytes: number[] = [];
  for (let at = 0; at < escaped.length; at++)
    if (escaped[at] === "%") {
      bytes.push(Number.parseInt(escaped.slice(at + 1, at + 3), 16));
      at += 2;
    } else bytes.push(escaped.charCodeAt(at));
  return bytes;
}

/** How many bytes are read in one go: few enough for the arguments of one call. */
const PIECE = 8192;

/** One sign a byte, by its number. */
export function signsOf(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += PIECE) text += String.fromCharCode(...bytes.subarray(at, at + PIECE));
  return text;
}

/** The text that bytes are in UTF-8; `undefined` where they are not UTF-8. */
export function utf8Text(bytes: Uint8Array): string | undefined {
  const escaped = signsOf(bytes).replace(
    /[%\u0080-\u00ff]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).padStart(2, "0")}`,
  );
  try {
    return decodeURIComponent(escaped);
  } catch (error) {
    if (error instanceof URIError) return undefined;
    throw error;
  }
}
