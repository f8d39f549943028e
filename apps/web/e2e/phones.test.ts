import { createServer, type AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchBrowser, newPhone } from "./browser.ts";
import { type RunningHub, startHub } from "./hub-process.ts";
import { addGoat, choose, go, press, sayWho, startOwnHerd, untilHeading } from "./steps.ts";

/** The hub's own name and certificate, for a name that belongs to nobody (RFC 2606). */
const NAME = "goats.example";
const certificate = (ending: string): string =>
  fileURLToPath(new URL(`../../hub/src/testing/certificate/${NAME}.${ending}`, import.meta.url));

let browser: Browser;
let hub: RunningHub;
let reach: string;

/** A port that is free now. */
const freePort = (): Promise<number> =>
  new Promise((settle) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => settle(port));
    });
  });

beforeAll(async () => {
  const port = await freePort();
  reach = `https://${NAME}:${port}`;
  const door = ["--name", reach, "--host", "127.0.0.1", "--cert", certificate("crt"), "--key", certificate("key")];
  hub = await startHub(door);
  browser = await launchBrowser([`--host-resolver-rules=MAP ${NAME} 127.0.0.1`, "--ignore-certificate-errors"]);
});
afterAll(async () => {
  await browser.close();
  await hub.stop();
});

/** The digits of a code, as they stand on the computer's page. */
async function codeFor(computer: Page, role: "Everything" | "Record only"): Promise<string> {
  await go(computer, hub.address, "/phones");
  await choose(
    computer,
    `${role} ${role === "Everything" ? "You, or who keeps the herd with you" : "Strikes nothing out, changes no settings"}`,
  );
  await press(computer, "Show a code");
  return computer.locator(".join-code").innerText();
}

describe("phones", () => {
  test("[UI-97] a phone joins by the digits, both see what the other wrote; shut out, it keeps what it has", async () => {
    const computer = await newPhone(browser);
    await startOwnHerd(computer.page, hub.address);
    await addGoat(computer.page, hub.address, { name: "Hazel", sex: "Doe" });
    await go(computer.page, hub.address, "/safe");
    await press(computer.page, "Exchange now");

    const code = await codeFor(computer.page, "Everything");
    expect(code).toMatch(/^\d{4} \d{4} \d{4}$/);
    const phone = await newPhone(browser);
    await phone.page.goto(`${reach}/#/join/${code.replaceAll(" ", "")}`);
    await phone.page.getByLabel(/called/).fill("Tobias's phone");
    await press(phone.page, "Join");
    await sayWho(phone.page, "Tobias");
    await go(phone.page, reach, "/animals");
    await untilHeading(phone.page, "1 goat");
    await addGoat(phone.page, reach, { name: "Flint", sex: "Buck" });
    await go(phone.page, reach, "/safe");
    await press(phone.page, "Exchange now");
    await phone.page
      .getByText(/Everything is on the hub/)
      .first()
      .waitFor();

    await go(computer.page, hub.address, "/safe");
    await press(computer.page, "Exchange now");
    await go(computer.page, hub.address, "/animals");
    await untilHeading(computer.page, "2 goats");

    await go(computer.page, hub.address, "/phones");
    await press(computer.page, /Let it in no longer: Tobias/);
    await computer.page.getByText(/is let in no longer. What it wrote stays/).waitFor();
    await addGoat(phone.page, reach, { name: "Moss", sex: "Doe" });
    await go(phone.page, reach, "/safe");
    await press(phone.page, "Exchange now");
    await phone.page.getByText(/This phone is let in no longer/).waitFor();
    await go(phone.page, reach, "/animals");
    await untilHeading(phone.page, "3 goats");
    expect([...computer.errors, ...phone.errors]).toEqual([]);
  });

  test("[UI-97] a code that is used up, and one that never was, are said in a sentence", async () => {
    const computer = await newPhone(browser);
    await startOwnHerd(computer.page, hub.address, "Elmfield");
    const phone = await newPhone(browser);
    await phone.page.goto(reach);
    await press(phone.page, /Join a herd/);
    await phone.page.getByLabel(/The code/).fill("0000 0000 0000");
    await phone.page.getByLabel(/called/).fill("A phone");
    await press(phone.page, "Join");
    await phone.page.getByText(/This code is not good/).waitFor();
    expect([...computer.errors, ...phone.errors]).toEqual([]);
  });
});
