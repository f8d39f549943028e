import { err, ok, type Result } from "@pollard/base";

/** How large a kept picture may be: its longest side, pixels, and its bytes. */
export interface PhotoSize {
  readonly longest: number;
  readonly bytes: number;
}
/** The usual size, and the one for a phone that has hardly any room left. Our judgement. */
export const USUAL: PhotoSize = { longest: 1600, bytes: 300_000 };
export const MUCH_SMALLER: PhotoSize = { longest: 800, bytes: 40_000 };
/** Qualities tried at one size, the best first; then the picture is made smaller. */
const QUALITIES = [0.85, 0.7, 0.55] as const;
const SMALLER = 0.75;
/** Shortest side worth keeping: smaller is no picture of anything. */
const LEAST_SIDE = 200;

/** The size of a picture within the longest side, in whole pixels, shape kept; a smaller one stays as it is. */
export function sizeWithin(
  size: { readonly width: number; readonly height: number },
  longest: number,
): { readonly width: number; readonly height: number } {
  const by = Math.min(1, longest / Math.max(size.width, size.height));
  return { width: Math.max(1, Math.round(size.width * by)), height: Math.max(1, Math.round(size.height * by)) };
}

/**
 * A picture small enough to be kept by the hundred, as a JPEG: at most 1600 px and 300 kB where nothing else is asked for.
 *
 * It is drawn anew, so what the camera wrote beside it (the place, above all) is gone, and it stands upright.
 */
export async function shrinkPhoto(
  picture: Blob,
  size: PhotoSize = USUAL,
): Promise<Result<Uint8Array<ArrayBuffer>, "not-a-picture">> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(picture, { imageOrientation: "from-image" });
  } catch {
    return err("not-a-picture");
  }
  try {
    for (let { longest } = size; longest >= LEAST_SIDE; longest *= SMALLER) {
      const canvas = document.createElement("canvas");
      const { width, height } = sizeWithin(bitmap, longest);
      [canvas.width, canvas.height] = [width, height];
      canvas.getContext("2d")?.drawImage(bitmap, 0, 0, width, height);
      for (const quality of QUALITIES) {
        const jpeg = await new Promise<Blob | null>((settle) => canvas.toBlob(settle, "image/jpeg", quality));
        if (jpeg !== null && jpeg.size <= size.bytes) return ok(new Uint8Array(await jpeg.arrayBuffer()));
      }
    }
  } finally {
    bitmap.close();
  }
  return err("not-a-picture");
}
