/**
 * Is this a browser's tab on an iPhone or iPad? There the tab and the home screen keep separate storage, so the app has
 * to go onto the home screen before the first entry. Source: judgement.
 */
export function needsHomeScreen(
  browser: { readonly userAgent: string; readonly maxTouchPoints: number },
  page: Pick<Window, "matchMedia">,
): boolean {
  const isApplePhone = /iPhone|iPad|iPod/.test(browser.userAgent);
  const isTabletAsDesk = /Macintosh/.test(browser.userAgent) && browser.maxTouchPoints > 1;
  return (isApplePhone || isTabletAsDesk) && !page.matchMedia("(display-mode: standalone)").matches;
}
