import { describe, expect, test } from "vitest";
import { needsHomeScreen } from "./model.ts";

const page = (standalone: boolean) => ({ matchMedia: () => ({ matches: standalone }) }) as unknown as Window;
const IPHONE =
  "Mozilla/5.0 (iPhone; CPU iPhone OS 18_2 like Mac OS X) AppleWebKit/605.1.15 Version/18.2 Mobile Safari/604.1";
const IPAD = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Version/18.2 Safari/605.1.15";
const ANDROID = "Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 Chrome/130.0 Mobile Safari/537.36";

describe("the first minutes", () => {
  test("[UI-33] an iPhone's tab is sent to the home screen first, since the two keep separate herds", () => {
    expect(needsHomeScreen({ userAgent: IPHONE, maxTouchPoints: 5 }, page(false))).toBe(true);
    expect(needsHomeScreen({ userAgent: IPHONE, maxTouchPoints: 5 }, page(true))).toBe(false);
    expect(needsHomeScreen({ userAgent: IPAD, maxTouchPoints: 5 }, page(false))).toBe(true);
    expect(needsHomeScreen({ userAgent: IPAD, maxTouchPoints: 0 }, page(false))).toBe(false);
    expect(needsHomeScreen({ userAgent: ANDROID, maxTouchPoints: 5 }, page(false))).toBe(false);
  });
});
