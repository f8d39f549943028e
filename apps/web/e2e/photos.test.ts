import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { cameraPicture } from "./camera-picture.ts";
import { atRest, untilAtRest } from "./rest.ts";
import { herdDatabase } from "./herd-on-disk.ts";
import { addGoat, exchangeNow, go, press, sayWho, startOwnHerd, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const { address, newPhone, startHub } = underTest();

/** The pictures in the open herd's database, each with its size in pixels and bytes. */
const keptPictures = async (page: Page) =>
  page.evaluate(
    async (name) => {
      const db = await new Promise<IDBDatabase>((settle) => {
        const request = indexedDB.open(name);
        request.addEventListener("success", () => settle(request.result));
      });
      const all = await new Promise<{ readonly bytes: Uint8Array<ArrayBuffer> }[]>((settle) => {
        const request = db.transaction("photos").objectStore("photos").getAll();
        request.addEventListener("success", () =>
          settle(request.result as { readonly bytes: Uint8Array<ArrayBuffer> }[]),
        );
      });
      db.close();
      return Promise.all(
        all.map(async ({ bytes }) => {
          const { width, height } = await createImageBitmap(new Blob([bytes]));
          return { width, height, bytes: bytes.length };
        }),
      );
    },
    await herdDatabase(page),
  );

async function hazelsPhotoPage(page: Page, at = address): Promise<void> {
  await startOwnHerd(page, at);
  await addGoat(page, at, { name: "Hazel", sex: "Doe" });
  await page.getByRole("link", { name: "Take a photo" }).click();
  await untilHeading(page, "Photo of Hazel");
}

describe("photos", () => {
  test("[UI-83] a camera's picture is shrunk, kept, and shown on the goat's page; a file that is none is said to be", async () => {
    const { page, errors } = await newPhone();
    await hazelsPhotoPage(page);
    const camera = page.locator("input[type=file]").first();
    await camera.setInputFiles({ name: "a.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture") });
    await page.getByText("This is no picture that this device can open.").waitFor();
    await camera.setInputFiles({ name: "b.jpg", mimeType: "image/jpeg", buffer: await cameraPicture(page) });
    await page.locator("img.photo-shown").waitFor();
    await press(page, "Keep this photo");
    await page.getByRole("link", { name: "Take a photo" }).waitFor();
    await page.locator("img.photo-shown").waitFor();
    expect(await page.locator("img.photo-shown").getAttribute("alt")).toMatch(/^The head, today, by Ines$/);
    const [picture, ...more] = await keptPictures(page);
    expect(more).toEqual([]);
    expect(picture?.width).toBeLessThanOrEqual(1600);
    expect((picture?.width ?? 0) / (picture?.height ?? 1)).toBeCloseTo(4 / 3, 2);
    expect(picture?.bytes).toBeLessThanOrEqual(300_000);
    expect(errors).toEqual([]);
  });

  test("[UI-291] a hub without room for pictures is told of, with how many stay on the phone", async () => {
    const hub = await startHub(["--photo-room", "0"]);
    const { page, errors } = await newPhone();
    await hazelsPhotoPage(page, hub.address);
    const camera = page.locator("input[type=file]").first();
    await camera.setInputFiles({ name: "b.jpg", mimeType: "image/jpeg", buffer: await cameraPicture(page) });
    await page.locator("img.photo-shown").waitFor();
    await press(page, "Keep this photo");
    await page.getByRole("link", { name: "Take a photo" }).waitFor();
    await go(page, hub.address, "/safe");
    await press(page, "Exchange now");
    await page.getByText("The hub has no room for pictures. 1 picture stays on this device.").waitFor();
    await page
      .getByRole("listitem")
      .filter({ hasText: /^Photo of Hazel$/ })
      .waitFor();
    expect(await page.getByText(/no room|would not take/).count()).toBe(1);
    // The browser itself notes down what a server refuses.
    expect(errors.filter((error) => !error.includes("507"))).toEqual([]);
  });

  test("[UI-83] the phone drops the page behind the camera: the place comes back, and what is missing is said", async () => {
    const { page } = await newPhone();
    const show = await atRest(page, address);
    await hazelsPhotoPage(page);
    const [chooser] = await Promise.all([
      page.waitForEvent("filechooser"),
      page.getByText("Take a photo", { exact: true }).click(),
    ]);
    expect(chooser.isMultiple()).toBe(false);
    await untilAtRest(page); // the phone has time to write before it is short of memory
    await page.goto("about:blank");
    await page.goto(address);
    await page.getByText("Photo of Hazel").waitFor();
    await page.getByRole("link", { name: "Carry on" }).click();
    await page.getByText(/The picture did not come back/).waitFor();
    await page.getByRole("button", { name: "Back" }).click();
    await show("/");
    expect(await page.getByText("Photo of Hazel").count()).toBe(0);
  });

  test("[UI-84] a backup with a photo is packed; another phone takes it all in; damaged, it changes nothing", async () => {
    const { page } = await newPhone();
    await hazelsPhotoPage(page);
    await page
      .locator("input[type=file]")
      .first()
      .setInputFiles({ name: "b.jpg", mimeType: "image/jpeg", buffer: await cameraPicture(page) });
    await press(page, "Keep this photo");
    await page.getByRole("link", { name: "Take a photo" }).waitFor();
    await go(page, address, "/safe");
    await page.getByText("1 photo goes along.").waitFor();
    const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Make a backup file")]);
    expect(download.suggestedFilename()).toMatch(/\.zip$/);
    const backup = readFileSync(await download.path());

    const other = await newPhone();
    await other.page.goto(address);
    const zip = (buffer: Buffer) => ({ name: "b.zip", mimeType: "application/zip", buffer });
    await other.page.locator("input[type=file]").setInputFiles(zip(backup.subarray(0, backup.length - 300)));
    await other.page.getByText("This backup is damaged and cannot be opened. Nothing was changed.").waitFor();
    await other.page.locator("input[type=file]").setInputFiles(zip(backup));
    await sayWho(other.page, "Tobias");
    await go(other.page, address, "/animals");
    await other.page.getByRole("link", { name: /Hazel/ }).first().click();
    await other.page.locator("img.photo-shown").waitFor();
    await go(other.page, address, "/safe");
    await other.page.locator("input[type=file]").setInputFiles(zip(backup));
    await other.page
      .locator("output.card")
      .getByText(/0 entries came in/)
      .waitFor();
  });

  test("[UI-133] what one phone enters, picture and all, is on the other within seconds, with no tap", async () => {
    const hub = await startHub();
    const computer = await newPhone();
    await startOwnHerd(computer.page, hub.address);
    await addGoat(computer.page, hub.address, { name: "Hazel", sex: "Doe" });
    await exchangeNow(computer.page, hub.address);
    const other = await newPhone();
    await other.page.goto(hub.address);
    await other.page
      .getByRole("button", { name: /1 entr|2 entr|3 entr/ })
      .first()
      .click();
    await sayWho(other.page, "Tobias");
    await go(other.page, hub.address, "/animals");
    await untilHeading(other.page, "1 goat");
    await addGoat(computer.page, hub.address, { name: "Flint", sex: "Buck" });
    // Whoever waits for a heading gives up long before the minute after which the phone would have asked by itself.
    await untilHeading(other.page, "2 goats");

    await go(computer.page, hub.address, "/animals");
    await computer.page.getByRole("link", { name: /Hazel/ }).first().click();
    await computer.page.getByRole("link", { name: "Take a photo" }).click();
    const camera = computer.page.locator("input[type=file]").first();
    await camera.setInputFiles({
      name: "b.jpg",
      mimeType: "image/jpeg",
      buffer: await cameraPicture(computer.page),
    });
    await press(computer.page, "Keep this photo");
    await other.page.getByRole("link", { name: /Hazel/ }).first().click();
    await other.page.locator("img.photo-shown").waitFor({ timeout: 20_000 });
    expect(await keptPictures(other.page)).toEqual(await keptPictures(computer.page));
    expect([...computer.errors, ...other.errors]).toEqual([]);
  });
});
