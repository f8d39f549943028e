import { present } from "@pollard/base";
import type { Locator, Page } from "playwright-core";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { beforeAll, describe, expect, test } from "vitest";
import type { Status } from "../src/drawings/marks.tsx";
import { StatusChip } from "../src/parts/status-chip.tsx";
import { startOwnHerd } from "./steps.ts";
import { underTest } from "./under-test.ts";

type Triple = readonly [number, number, number];

/**
 * How light of red, green and blue is seen by those who lack one kind of cone: severity 1.0, on linear sRGB.
 * Source: [machado2009], tables of severity 1.0.
 */
const VISIONS: Readonly<Record<string, readonly [Triple, Triple, Triple]>> = {
  "every cone": [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  "grey only": [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
  "without red": [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  "without green": [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  "without blue": [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};
const MARKS: readonly Status[] = ["now", "soon", "done", "planned", "unsure"];

/** The side of a mark in a chip, and how many dots of the screen make one px. */
const [SIDE, DOTS] = [24, 2];
/** A difference narrower than this in either direction is an outline that lies a little beside another: no eye goes by it. */
const SPOT_PX = 2;
/**
 * How much of the field any two marks must differ in: twice the gap of a Landolt ring, a fifth of the ring high and wide, by
 * which eyes are tested at the edge of what they see. Source: ISO 8596, from memory; twice: judgement.
 */
const LEAST_SHARE = 2 / 25;

const linear = (byte: number): number => {
  const c = byte / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};

/** Relative luminance (WCAG 2.2) of a colour as it is seen with these cones. */
function seenLuminance([r, g, b]: Triple, [red, green, blue]: readonly [Triple, Triple, Triple]): number {
  const [x, y, z] = [linear(r), linear(g), linear(b)];
  const seen = (row: Triple): number => Math.min(1, Math.max(0, row[0] * x + row[1] * y + row[2] * z));
  return 0.2126 * seen(red) + 0.7152 * seen(green) + 0.0722 * seen(blue);
}

const contrast = (a: number, b: number): number => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);

interface Picture {
  readonly pixels: readonly Triple[];
  readonly ground: Triple;
}

/** Which dots of a mark stand out from its own ground by 3:1 (WCAG 2.2, 1.4.11): its shape, whatever its colours. */
function shapeOf({ pixels, ground }: Picture, vision: string): readonly boolean[] {
  const cones = present(VISIONS[vision], vision);
  const base = seenLuminance(ground, cones);
  return pixels.map((pixel) => contrast(seenLuminance(pixel, cones), base) >= 3);
}

/** The share of the field in which one shape has ink and the other has none, slivers left out. */
function differingShare(a: readonly boolean[], b: readonly boolean[]): number {
  const [width, spot] = [SIDE * DOTS, SPOT_PX * DOTS];
  const counted = new Set<number>();
  for (let top = 0; top + spot <= width; top++)
    for (let left = 0; left + spot <= width; left++) {
      const dots = Array.from({ length: spot * spot }, (_, n) => {
        return (top + Math.floor(n / spot)) * width + left + (n % spot);
      });
      if (dots.every((at) => a[at] !== b[at])) for (const at of dots) counted.add(at);
    }
  return counted.size / (width * width);
}

/** The mark of a chip as it is drawn on the screen, dot by dot. */
async function pictureOf(page: Page, chip: Locator): Promise<Picture> {
  const shot = (await chip.locator("svg").screenshot()).toString("base64");
  const ground = await chip.evaluate((one) => getComputedStyle(one).backgroundColor.match(/\d+/g)?.map(Number) ?? []);
  const pixels = await page.evaluate(async (png) => {
    const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const pen = canvas.getContext("2d");
    pen?.drawImage(picture, 0, 0);
    return [...(pen?.getImageData(0, 0, picture.width, picture.height).data ?? [])];
  }, shot);
  return {
    ground: ground.slice(0, 3) as unknown as Triple,
    pixels: Array.from({ length: pixels.length / 4 }, (_, n) => pixels.slice(4 * n, 4 * n + 3) as unknown as Triple),
  };
}

describe("the five marks of a thing to do", () => {
  const { address, newPhone } = underTest();
  let page: Page;
  beforeAll(async () => {
    const phone = { viewport: { width: 360, height: 640 }, deviceScaleFactor: DOTS, bypassCSP: true };
    ({ page } = await newPhone(phone));
    await startOwnHerd(page, address);
    const chips = MARKS.map((status) => renderToStaticMarkup(createElement(StatusChip, { status, word: status })));
    await page.evaluate((html) => {
      document.body.innerHTML = `<div style="display:grid;gap:8px;justify-items:start">${html}</div>`;
      // A height of whole px, so that no edge is smeared by where it happens to lie.
      for (const chip of document.querySelectorAll<HTMLElement>(".chip")) chip.style.height = "40px";
    }, chips.join(""));
  });

  test.each(["day", "sun", "barn"])(
    "[UI-336] any two differ in shape, whatever cones an eye has: %s",
    async (light) => {
      await page.evaluate((of) => (document.documentElement.dataset["light"] = of), light);
      const pictures = new Map<Status, Picture>();
      for (const mark of MARKS) pictures.set(mark, await pictureOf(page, page.locator(`.chip.${mark}`)));
      const alike: string[] = [];
      for (const vision of Object.keys(VISIONS)) {
        const shapes = MARKS.map((mark) => shapeOf(present(pictures.get(mark), mark), vision));
        expect(shapes.map((shape) => shape.length)).toEqual(MARKS.map(() => (SIDE * DOTS) ** 2));
        for (const [at, one] of shapes.entries())
          for (const [further, other] of shapes.slice(at + 1).entries()) {
            const share = differingShare(one, other);
            if (share < LEAST_SHARE) alike.push(`${vision}: ${MARKS[at]} and ${MARKS[at + 1 + further]} ${share}`);
          }
      }
      expect(alike).toEqual([]);
    },
  );

  describe("published", () => {
    test("[UI-336] white stays white, and who lacks a cone for red or green sees a plane of colours", () => {
      for (const [vision, [[a, b, c], [d, e, f], [g, h, i]]] of Object.entries(VISIONS)) {
        for (const row of [a + b + c, d + e + f, g + h + i]) expect(row, vision).toBeCloseTo(1, 5);
        const volume = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
        // The matrix for blue is that of a cone moved to where blue is nearly lost, not of one that is lacking.
        if (["without red", "without green"].includes(vision)) expect(volume, vision).toBeCloseTo(0, 5);
      }
    });

    test("[UI-336] a Landolt ring and a closed one differ by the gap of a fifth", () => {
      // ISO 8596: the ring's line and its gap are a fifth of its outer diameter.
      const width = SIDE * DOTS;
      const ring = (gap: boolean) =>
        Array.from({ length: width * width }, (_, n) => {
          const [x, y] = [(n % width) + 0.5 - width / 2, Math.floor(n / width) + 0.5 - width / 2];
          const far = Math.hypot(x, y) / width;
          return far <= 0.5 && far >= 0.3 && !(gap && x > 0 && Math.abs(y) <= width / 10);
        });
      expect(differingShare(ring(false), ring(true))).toBeCloseTo(1 / 25, 2);
    });
  });
});
