import { catalogueOf, englishCatalogue } from "@pollard/words";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { axeFaults } from "./axe.ts";
import { PHONE } from "./browser.ts";
import { atRest } from "./rest.ts";
import { SCREENS } from "./screens.ts";
import { choose, follow, go, press, untilHeading } from "./steps.ts";
import { underTest } from "./under-test.ts";

const SPANISH = { ...PHONE, locale: "es-UY" } as const;
const { address, newPhone } = underTest();

const untilGuardado = (page: Page) =>
  page
    .getByText(/^Guardado en este aparato/)
    .first()
    .waitFor();

async function sayWho(page: Page): Promise<void> {
  await untilHeading(page, /usa este aparato/);
  await page.getByLabel("Nombre").fill("Inés");
  await press(page, "Siguiente");
  await press(page, "Empezar");
  await page.getByRole("link", { name: "Buscar" }).waitFor();
}

/** Every fixed text that stands in a catalogue. */
function textsIn(words: object): readonly string[] {
  return Object.values(words).flatMap((value: unknown) =>
    typeof value === "string" ? [value] : typeof value === "object" && value !== null ? textsIn(value) : [],
  );
}

describe("the app in Spanish", () => {
  test("[UI-130] a phone that asks for Spanish: a kidding, a head read, advice; without a network, and back to English", async () => {
    const { context, page, errors } = await newPhone(SPANISH);
    await page.goto(address);
    await press(page, /Empezar mi rebaño/);
    expect(await page.locator("html").getAttribute("lang")).toBe("es");
    await page.getByLabel(/se llama su rebaño/).fill("La Peña");
    await press(page, "Siguiente");
    await sayWho(page);

    await go(page, address, "/add");
    await page.getByLabel(/^Nombre/).fill("Ñandú");
    await choose(page, "Cabra", "Sexo");
    await choose(page, "Con cuernos", /Cabeza adulta/);
    await untilGuardado(page);
    await press(page, "Añadir este animal");
    await untilHeading(page, "Ñandú");

    await go(page, address, "/kidding");
    await follow(page, "Otra cabra");
    await press(page, "Por nombre");
    await page.getByLabel("Nombre").fill("ñan");
    await follow(page, /Ñandú/);
    await untilHeading(page, "Cría 1");
    await choose(page, "Macho");
    await choose(page, "Viva");
    await untilGuardado(page);
    await press(page, "Revisar el parto");
    await press(page, "Terminar este parto");
    await untilHeading(page, "Una cría está en el rebaño.");

    await follow(page, "Leer esta cabeza");
    for (const [question, answer] of [
      [/Qué nota/, "Puntiagudo"],
      [/Se desliza la piel/, "Sujeta"],
      [/remolino de pelo/, "Remolino claro"],
      [/forma tiene la coronilla/, "No miré"],
    ] as const) {
      await untilHeading(page, question);
      await page.getByRole("radio", { name: answer, exact: true }).check();
      await untilGuardado(page);
      await press(page, "Siguiente");
    }
    await press(page, "Guardar esta lectura");
    await page.locator(".squares").waitFor();
    expect(await page.locator("main").innerText()).toMatch(/de cada \d+ crías como esta echan cuernos/);

    await page.evaluate(() => navigator.serviceWorker.ready);
    await context.setOffline(true);
    await page.reload();
    await page
      .getByText(/crías como esta echan cuernos/)
      .first()
      .waitFor();
    await page.goto(`${address}/#/holder`);
    await choose(page, "English");
    await untilHeading(page, "This device");
    expect(await page.locator("html").getAttribute("lang")).toBe("en");
    await page.reload();
    await untilHeading(page, "This device");
    expect(errors).toEqual([]);
  });

  test("[UI-130] no screen says anything in English, none is wider than 320 px, and axe finds nothing wrong", async () => {
    const spanish = await catalogueOf("es");
    const same = new Set(textsIn(spanish.screens));
    const english = new Set(textsIn(englishCatalogue.screens).filter((text) => !same.has(text)));
    const { page } = await newPhone({ ...SPANISH, viewport: { width: 320, height: 640 } });
    const show = await atRest(page, address);
    await page.goto(address);
    await press(page, /Echar un vistazo/);
    await sayWho(page);
    const [left, wide, wrong]: [string[], string[], string[]] = [[], [], []];
    for (const path of SCREENS) {
      await show(path);
      const lines = (await page.locator("body").innerText()).split("\n").map((line) => line.trim());
      left.push(...lines.filter((line) => english.has(line)).map((line) => `${path}: ${line}`));
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (over > 0) wide.push(`${path}: ${over}`);
    }
    for (const path of ["/", "/answer/demo-pip/shown", "/holder", "/pairings", "/score"]) {
      await show(path);
      wrong.push(...(await axeFaults(page)).map((fault) => `${path}: ${fault}`));
    }
    expect({ left, wide, wrong }).toEqual({ left: [], wide: [], wrong: [] });
  });
});
