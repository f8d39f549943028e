import { present } from "@pollard/base";
import type { Page } from "playwright-core";

const DATABASE = "pollard-herd-";

/** The name of the database in which a page keeps its herd; for pages with one herd. */
export async function herdDatabase(page: Page): Promise<string> {
  const names = await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name ?? ""));
  return present(
    names.find((name) => name.startsWith(DATABASE)),
    "the database of a herd",
  );
}

/** The id of the herd that a page keeps. */
export const herdOnDisk = async (page: Page): Promise<string> => (await herdDatabase(page)).slice(DATABASE.length);
