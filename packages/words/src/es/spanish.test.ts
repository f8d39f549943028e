import { day } from "@pollard/base";
import { POLLED, SHIPPED_LOCI } from "@pollard/genetics";
import { describe, expect, test } from "vitest";
import { englishCatalogue } from "../en/catalogue.ts";
import { sheetWords as englishPaper } from "../en/sheet-words.ts";
import { al, del, el, sayDay, sayTableDay } from "./days.ts";
import { spanishCatalogue } from "./catalogue.ts";
import { textsIn } from "../testing.ts";
import { decimal, list } from "./numbers.ts";
import { sheetWords } from "./sheet-words.ts";

const today = day("2026-03-14");

/** What both languages write alike: names, symbols, figures, and words that are the same. */
const ALIKE =
  /^([^a-z]*|A4|No|Plan|Pollard|PP|Pp|pp|SB|Animal|Error:|Letter|[0-9 to]+|language|UTF-8|[\w-]+( y otros| and others)? \d{4}|.*(University|Extension|Association).*)$/;

describe("Spanish", () => {
  test("[WO-13] a day takes its article, near days take none", () => {
    const [hoy, lejos] = [sayDay(today, today), sayDay(day("2026-03-23"), today)];
    expect([el(hoy), del(hoy), al(hoy)]).toEqual(["hoy", "de hoy", "a hoy"]);
    expect([el(lejos), del(lejos), al(lejos)]).toEqual([
      "el lunes 23 de marzo",
      "del lunes 23 de marzo",
      "al lunes 23 de marzo",
    ]);
    expect(sayDay(day("2027-01-02"), today)).toBe("sábado 2 de enero de 2027");
    expect(sayTableDay(day("2026-03-24"))).toBe("mar 2026-03-24");
  });

  test("[WO-13] decimals take a comma; y becomes e before the sound of an i", () => {
    expect(decimal(4.25, 2)).toBe("4,25");
    expect(decimal(4.5)).toBe("4,5");
    expect(spanishCatalogue.screens.score.breedLater("Alpine", 1.5)).toContain("1,5 días");
    expect(list(["Rook", "Inés"])).toBe("Rook e Inés");
    expect(list(["Rook", "Flint", "Hiedra"])).toBe("Rook, Flint y Hiedra");
    expect(list(["Rook"])).toBe("Rook");
    const words = spanishCatalogue.words((id) => ({
      id,
      name: id,
      tag: undefined,
      mark: undefined,
      sex: "doe",
      damName: undefined,
    }));
    expect(words.named(["Tobias", "Ines"])).toBe("Tobias e Ines");
  });

  test("[WO-14] no text was left in English", () => {
    const english = new Map(textsIn({ ...englishCatalogue, paper: englishPaper }));
    const left = textsIn({ ...spanishCatalogue, paper: sheetWords }).filter(
      ([at, text]) =>
        english.get(at) === text &&
        !at.endsWith(".id") &&
        !at.includes(".sources.") &&
        !at.endsWith(".drawn") &&
        !ALIKE.test(text),
    );
    expect(left).toEqual([]);
    expect(english.size).toBeGreaterThan(900);
  });

  test("[WO-14] the traits that come with Pollard, and what is seen of them, have Spanish words", () => {
    const { name, look } = spanishCatalogue.loci;
    expect(SHIPPED_LOCI.filter((locus) => name(locus) === locus.name)).toEqual([]);
    const looks = SHIPPED_LOCI.flatMap(({ traits = [] }) => traits.flatMap(({ phenotypes }) => phenotypes));
    expect(looks.length).toBeGreaterThan(10);
    const alike = ["normal", ...(POLLED.traits ?? []).flatMap(({ phenotypes }) => phenotypes)]; // heads have screens of their own
    expect(looks.filter((seen) => look(seen) === seen && !alike.includes(seen))).toEqual([]);
    // A keeper's own trait is called what the keeper called it.
    expect(name({ id: "coat", name: "Long coat" })).toBe("Long coat");
  });

  test("[WO-14] the fixed texts of both languages have the same places", () => {
    // A dictionary's words have an order of their own, so they are not matched one by one.
    const places = (words: unknown) =>
      textsIn(words)
        .map(([at]) => at)
        .filter((at) => !/^help\.(terms|pages)\./.test(at))
        .sort();
    expect(places(spanishCatalogue)).toEqual(places(englishCatalogue));
    expect(places(sheetWords)).toEqual(places(englishPaper));
  });
});
