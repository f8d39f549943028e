import type { Page } from "playwright-core";

/** Runs in the page: from here on notes what a person who listens is told, how urgently and what. */
export function listen(): void {
  const told: string[] = [];
  Object.assign(window, { told });
  const note = (): void => {
    for (const one of document.querySelectorAll<HTMLElement>("output, [role=status], [role=alert]")) {
      const said = `${one.role ?? "status"}: ${one.innerText.split("\n")[0]}`;
      if (!told.includes(said)) told.push(said);
    }
  };
  new MutationObserver(note).observe(document.body, { subtree: true, childList: true, characterData: true });
}

/** What was told on the page since then, each once. */
export const toldOn = (page: Page) => page.evaluate(() => (window as unknown as { told: string[] }).told);
