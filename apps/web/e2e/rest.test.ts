import { describe, expect, test } from "vitest";
import { atRest } from "./rest.ts";
import { choose, startDemo, untilSaved } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone } = underTest();

async function demo() {
  const { page } = await newPhone();
  const show = await atRest(page, address);
  await startDemo(page, address);
  return { page, show };
}

describe("a screen that has come to rest", () => {
  test("[HO-54] has what the herd's thread and the disk had to say", async () => {
    const { page, show } = await demo();
    await show("/score");
    expect(await page.locator(".calls-picture").count()).toBe(1);
    await show("/reading/demo-dunnock");
    await choose(page, "Pointed");
    await untilSaved(page);
    await page.reload();
    await show("/reading/demo-dunnock");
    expect(await page.getByRole("radio", { name: "Pointed", exact: true }).isChecked()).toBe(true);
  });

  test("[HO-54] has what the hub had to say, however late", async () => {
    const { page, show } = await demo();
    const happened: string[] = [];
    await page.route("**/api/**", async (route) => {
      await page.waitForTimeout(500);
      happened.push("answered");
      await route.continue();
    });
    await show("/phones");
    happened.push("shown");
    expect(happened[0]).toBe("answered");
    expect(happened.at(-1)).toBe("shown");
  });
});
