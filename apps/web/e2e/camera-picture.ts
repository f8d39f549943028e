import type { Page } from "playwright-core";

/** A picture as large as a phone's camera makes it, full of detail, so that it is hard to shrink. */
export async function cameraPicture(page: Page): Promise<Buffer> {
  const base64 = await page.evaluate(async () => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [3000, 2250];
    const ink = canvas.getContext("2d");
    if (ink === null) throw new Error("no canvas");
    for (let i = 0; i < 40_000; i++) {
      ink.fillStyle = `hsl(${(i * 47) % 360} 60% ${20 + ((i * 13) % 60)}%)`;
      ink.fillRect((i * 7919) % 3000, (i * 104_729) % 2250, 24, 18);
    }
    return canvas.toDataURL("image/jpeg", 0.95).split(",")[1] ?? "";
  });
  return Buffer.from(base64, "base64");
}
