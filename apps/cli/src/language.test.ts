import { describe, expect, test } from "vitest";
import { typed } from "./testing.ts";

describe("the language of a command", () => {
  test("[CL-40] sentences, sheets and calendars are in the language that was asked for, and the next command in its own", async () => {
    const spanish = await typed("today --demo demo --language es");
    expect(spanish.out).toMatch(/Llame al veterinario por Moth/);
    expect((await typed("today --demo demo")).out).toMatch(/Ring the vet about Moth/);
    const sheet = await typed("sheet barn --demo demo --language es");
    expect(sheet.out).toMatch(/<html lang="es"/);
    expect(sheet.out).toMatch(/Tarjeta de establo/);
    const calendar = await typed("export --as ics --demo demo --language es");
    expect(calendar.out).toMatch(/Viene el veterinario|le toca parir/);
  });

  test("[CL-40] what is counted and coded is the same in every language", async () => {
    const [english, spanish] = await Promise.all(
      ["en", "es"].map((language) => typed(`heads --demo demo --json --language ${language}`)),
    );
    expect(spanish?.out).toBe(english?.out);
  });

  test("[CL-40] a language that is not there is told of, with those that are", async () => {
    const { exit, err } = await typed("today --demo demo --language gl");
    expect([exit, err]).toEqual([2, 'There is no language "gl"; there are en and es.\n']);
  });
});
