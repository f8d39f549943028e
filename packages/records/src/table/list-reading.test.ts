import { day } from "@pollard/base";
import { describe, expect, test } from "vitest";
import calc from "../../published/tables/calc.json";
import { goatList } from "./list.ts";
import { guessedColumns } from "./list-columns.ts";
import { type DayOrder, dayIn, dayOrderIn } from "./list-days.ts";
import { type ListedGoat, listedGoat, type RowProblem } from "./list-row.ts";
import { utf8Bytes } from "./utf8.ts";

const today = day("2026-03-18");
const listOf = (text: string) => goatList(Uint8Array.from(utf8Bytes(text)));

/** What the one row under these headings says, or the codes of what is wrong with it. */
function read(headings: string, cells: string): Partial<ListedGoat> | readonly RowProblem[] {
  const list = listOf(`${headings}\n${cells}\n`);
  if (!list.ok) throw new Error(list.error.code);
  const [row] = list.value.rows;
  if (!row) throw new Error("no row");
  const goat = listedGoat(row, list.value, guessedColumns(list.value.headings), undefined, today);
  if (!goat.ok) return goat.error;
  return Object.fromEntries(Object.entries(goat.value).filter(([key, value]) => value !== undefined && key !== "line"));
}

describe("columns of a list", () => {
  test.each([
    ["Name,Tag,Sex,Born,Dam,Sire,Breed,Horns,Notes,Microchip", "name tag sex born dam sire breed head note chip"],
    ["Nombre;Arete;Sexo;Fecha de nacimiento;Madre;Padre;Raza;Cuernos", "name tag sex born dam sire breed head"],
    ["Nom;N° de boucle;Sexe;Née le;Mère;Père;Race;Puce", "name - sex born dam sire breed chip"],
    ["Ziege;Ohrmarke;Geschlecht;Geb.-Datum;Mutter;Vater;Rasse;Bemerkungen", "name tag sex born dam sire breed note"],
    ["ID,Animal,D.O.B.", "tag name born"],
    ["id,name,tag", "id name tag"],
    ["name,name", "name -"],
  ])("[RE-54] %s", (headings, columns) => {
    const list = listOf(`${headings}\nx;x,x,x\n`);
    expect(
      list.ok &&
        guessedColumns(list.value.headings)
          .map((column) => column ?? "-")
          .join(" "),
    ).toBe(columns);
  });
});

describe("days of a list", () => {
  const cases: readonly (readonly [string, DayOrder | undefined, string])[] = [
    ["2024-03-25", undefined, "2024-03-25"],
    ["2024/3/5", undefined, "2024-03-05"],
    ["25/03/2024", undefined, "2024-03-25"],
    ["3/25/24", undefined, "2024-03-25"],
    ["25.3.98", undefined, "1998-03-25"],
    ["04/03/2024", undefined, "either"],
    ["04/03/2024", "day-month", "2024-03-04"],
    ["04/03/2024", "month-day", "2024-04-03"],
    ["03/03/2024", undefined, "2024-03-03"],
    ["25 March 2024", undefined, "2024-03-25"],
    ["Mar 25, 2024", undefined, "2024-03-25"],
    ["25 de marzo de 2024", undefined, "2024-03-25"],
    ["25 août 2024", undefined, "2024-08-25"],
    ["25. März 2024", undefined, "2024-03-25"],
    ["7 juillet 2024", undefined, "2024-07-07"],
    ["25/03/2024 00:00:00", undefined, "2024-03-25"],
    ["45376", undefined, "number"],
    ["31/02/2024", undefined, "none"],
    ["spring", undefined, "none"],
    ["2024", undefined, "year"],
    ["1899-12-30", undefined, "no-day-set"],
    ["31.12.1899", undefined, "no-day-set"],
    ["1900-01-00", undefined, "no-day-set"],
    ["1/1/1904", undefined, "no-day-set"],
  ];
  test.each(cases)("[RE-55] %s, %s: %s", (cell, order, day) => {
    const found = dayIn(cell, order, today);
    expect(found.read === "day" ? found.day : found.read).toBe(day);
  });

  test("[RE-55] one day above twelve proves the order of all; two that disagree prove nothing", () => {
    expect(dayOrderIn(["04/03/2024", "25/03/2024"], today)).toEqual({ proven: "day-month", open: 1 });
    expect(dayOrderIn(["04/03/2024", "03/25/2024"], today)).toEqual({ proven: "month-day", open: 1 });
    expect(dayOrderIn(["04/03/2024", "25/03/2024", "03/25/2024"], today)).toEqual({ proven: undefined, open: 1 });
    expect(dayOrderIn(["04/03/2024", "2024-03-25"], today)).toEqual({ proven: undefined, open: 1 });
  });
});

describe("a row of a list", () => {
  test("[RE-56] everything it says is read, and cells stay text", () => {
    expect(
      read(
        "name,tag,chip,sex,born,breed,dam,sire,horns,notes,left,why",
        ' Hazel ,0012,276 000 123 456 789,F,2021-03-04,Saanen,Fern,?,disbudded,"kind, ""loud""",2025-01-02,sold',
      ),
    ).toEqual({
      name: "Hazel",
      tag: "0012",
      chip: "276000123456789",
      sex: "doe",
      born: "2021-03-04",
      breed: "Saanen",
      dam: "Fern",
      head: "disbudded",
      note: 'kind, "loud"',
      left: { on: "2025-01-02", why: "sold" },
    });
  });

  test.each([
    ["polled", "yes", { head: "polled" }],
    ["horns", "yes", { head: "horned" }],
    ["horns", "no", [{ code: "head-open", column: "head", got: "no" }]],
    ["polled", "no", [{ code: "head-open", column: "head", got: "no" }]],
    ["horns", "mocha", { head: "polled" }],
    ["horns", "curly", [{ code: "not-a-head", column: "head", got: "curly" }]],
  ])("[RE-56] %s: %s; a bare no may be a polled head or a disbudded one", (heading, cell, said) => {
    const found = read(`name,${heading}`, `Hazel,${cell}`);
    expect(found).toEqual(Array.isArray(said) ? said : { name: "Hazel", ...said });
  });

  test.each([
    ["name,tag,sex", ",,doe", [{ code: "nameless" }]],
    ["name,sex", "Hazel,goose", [{ code: "not-a-sex", column: "sex", got: "goose" }]],
    ["name,born", "Hazel,03/04/2021", [{ code: "day-either", column: "born", got: "03/04/2021" }]],
    ["name,born", "Hazel,2027-01-01", [{ code: "day-to-come", column: "born", got: "2027-01-01" }]],
    ["name,born", "Hazel,45376", [{ code: "day-is-a-number", column: "born", got: "45376" }]],
    ["name,chip", "Hazel,9.8E+14", [{ code: "not-a-chip", why: "rounded", got: "9.8E+14" }]],
    ["name,tag", "Hazel,2.76E+14", [{ code: "number-rounded", column: "tag", got: "2.76E+14" }]],
    ["name,tag", "Hazel,12,loose", [{ code: "more-cells", cells: 3, headings: 2 }]],
    ["name,status", "Hazel,sold", [{ code: "left-without-day" }]],
    ["name,born,left", "Hazel,2021-01-02,2020-01-02", [{ code: "left-before-born" }]],
    ["name,breed", `Hazel,${"x".repeat(81)}`, [{ code: "too-long", column: "breed", got: `${"x".repeat(40)}…` }]],
  ])("[RE-56] %s: %s", (headings, cells, problems) => {
    expect(read(headings, cells)).toEqual(problems);
  });

  test.each([
    ["2019", "day-is-a-year"],
    ["1899-12-30", "day-not-set"],
  ])("[UI-367] %s is no day that anybody wrote down: the row says so, and no day is made of it", (born, code) => {
    expect(read("name,born", `Hazel,${born}`)).toEqual([{ code, column: "born", got: born }]);
  });

  test("[RE-56] a guarded cell is what it was before", () => {
    expect(read("name,tag", "'=1+1,'-3")).toEqual({ name: "=1+1", tag: "-3" });
  });

  test.each([
    ["Hollow Farm,,\nas of March,,\nname,tag,sex\nHazel,1,f\n", ","],
    ["Hollow Farm\n\nname;tag;sex\nHazel;1;f\n", ";"],
    ['\uFEFF"Goats,\nall of them"\r\nname\ttag\tsex\r\nHazel\t1\tf\r\n', "tabs"],
  ])("[UI-366] lines of one cell above the headings are passed over: %j (%s)", (text) => {
    const list = listOf(text);
    expect(list.ok && list.value.headings).toEqual(["name", "tag", "sex"]);
    expect(list.ok && list.value.rows).toEqual([{ line: 4, cells: ["Hazel", "1", "f"] }]);
  });

  test.each([
    ["name,tag\n", "no-rows"],
    ["\n\n", "empty"],
    ["Hazel\nFern\n", "no-columns"],
    ['name,tag\n"Hazel,1\n', "quotes"],
  ])("[RE-54] %j is no list: %s", (text, code) => {
    const list = listOf(text);
    expect(!list.ok && list.error.code).toBe(code);
  });
});

describe("published", () => {
  test.each(calc.files)("[RE-56] a list that LibreOffice Calc saved as $saved", ({ encoding, bytes }) => {
    const list = goatList(Uint8Array.from(bytes.match(/../g) ?? [], (byte) => Number.parseInt(byte, 16)));
    if (!list.ok) throw new Error(list.error.code);
    expect(list.value.encoding).toBe(encoding);
    const columns = guessedColumns(list.value.headings);
    const goats = list.value.rows.map((row) => listedGoat(row, list.value, columns, undefined, today));
    expect(goats.map((goat) => goat.ok && [goat.value.name, goat.value.tag, goat.value.chip, goat.value.note])).toEqual(
      [
        ["Niña", "0012", "276000123456789", 'two, "quoted"\nlines; and more'],
        ["Müller", "0031", undefined, "– €"],
      ],
    );
  });
});
