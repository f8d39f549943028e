import { err, ok, type Result } from "@pollard/base";

/** Longest side of a kept picture, pixels, and most bytes. Our judgement. */
export const LONGEST_SIDE = 1600;
export const MOST_BYTES = 300_000;
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
 * A picture small enough to be kept by the hundred: at most 1600 px and 300 kB, as a JPEG.
 *
 * It is drawn anew, so what the camera wrote beside it (the place, above all) is gone, and it stands upright.
 */
export async function shrinkPhoto(picture: Blob): Promise<Result<Uint8Array<ArrayBuffer>, "not-a-picture">> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(picture, { imageOrientation: "from-image" });
  } catch {
    return err("not-a-picture");
  }
  try {
    for (let longest = LONGEST_SIDE; longest >= LEAST_SIDE; longest *= SMALLER) {
      const canvas = document.createElement("canvas");
      const { width, height } = sizeWithin(bitmap, longest);
      [canvas.width, canvas.height] = [width, height];
      canvas.getContext("2d")?.drawImage(bitmap, 0, 0, width, height);
      for (const quality of QUALITIES) {
        const jpeg = await new Promise<Blob | null>((settle) => canvas.toBlob(settle, "image/jpeg", quality));
        if (jpeg !== null && jpeg.size <= MOST_BYTES) return ok(new Uint8Array(await jpeg.arrayBuffer()));
      }
    }
  } finally {
    bitmap.close();
  }
  return err("not-a-picture");
}
