import { err, ok, type Result } from "@pollard/base";

/** Most bytes of a picture that travels; the app shrinks its own to that. Our judgement: a barn's signal, and a phone's room. */
export const PHOTO_LIMIT = 300_000;
/** Most names of pictures in one question. */
export const PHOTO_NAMES_LIMIT = 500;

/** What a picture is kept as. */
export type PictureType = "image/jpeg" | "image/png" | "image/webp";

/** Why a picture is not taken. */
export type PhotoProblem = "not-a-photo-name" | "not-a-picture" | "too-large" | "not-its-digest" | "other-photo";

/** The digest of bytes that names them: SHA-256 as 64 hexadecimal digits. Each technology has its own. */
export type Digest = (bytes: Uint8Array) => Promise<string>;

const DIGEST = /^[0-9a-f]{64}$/;
const PLAIN_ID = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/**
 * Whether a picture may travel under this name: the SHA-256 of its bytes, or, as the first versions named them, an id.
 *
 * Nothing else is a name, so none of them is ever a path.
 */
export const isPhotoName = (name: string): boolean => DIGEST.test(name) || PLAIN_ID.test(name);

/** What kind of picture bytes are, told by how they begin and by nothing that anybody says of them. */
export function pictureType(bytes: Uint8Array): PictureType | undefined {
  const begins = (signs: readonly number[], at = 0) => signs.every((sign, place) => bytes[at + place] === sign);
  if (begins([0xff, 0xd8, 0xff])) return "image/jpeg";
  if (begins([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return "image/png";
  if (begins([0x52, 0x49, 0x46, 0x46]) && begins([0x57, 0x45, 0x42, 0x50], 8)) return "image/webp";
  return undefined;
}

/**
 * The kind of a picture that may be kept under a name, or why it may not; both sides of an exchange ask it of what comes.
 *
 * Source: the signatures stand in ITU T.81, the PNG specification and RFC 9649.
 */
export async function checkedPhoto(
  name: string,
  bytes: Uint8Array,
  digest: Digest,
): Promise<Result<PictureType, PhotoProblem>> {
  if (!isPhotoName(name)) return err("not-a-photo-name");
  if (bytes.length > PHOTO_LIMIT) return err("too-large");
  const type = pictureType(bytes);
  if (type === undefined) return err("not-a-picture");
  return DIGEST.test(name) && (await digest(bytes)) !== name ? err("not-its-digest") : ok(type);
}
