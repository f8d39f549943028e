import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright-core";

/** What axe looks at: every rule on the whole page, where nothing else is said. */
interface Looked {
  readonly rules?: readonly string[];
  readonly within?: string;
}

/**
 * What axe finds wrong on a page now, frames included, a line each: the rule, and the parts of the page.
 *
 * axe is run within the page. Its usual way puts the parts together on a blank page opened for each run, which finds the same
 * on frames of the page's own address, and takes twice as long.
 */
export async function axeFaults(page: Page, { rules, within }: Looked = {}): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ["violations"] });
  if (rules !== undefined) axe.withRules([...rules]);
  if (within !== undefined) axe.include(within);
  const { violations } = await axe.analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
}
