import { err, ok } from "@pollard/base";
import { calendarItems, calendarText, herdBreedOf, herdNameOf, sireCandidates, type Situation } from "@pollard/advice";
import { type Animal, type Herd, writeHerdFile } from "@pollard/records";
import { season } from "@pollard/words";
import { type Command, HERD_OPTIONS, OUT_OPTION } from "../command.ts";
import { csvText } from "../csv.ts";
import { answered, openHerd } from "../herd-source.ts";
import { give } from "../giving.ts";
import { wrong } from "../outcome.ts";
import type { World } from "../world.ts";

/** The herd as a file for others: every entry, or a table of its animals. */
export const exportHerd: Command = {
  name: "export",
  takes: ["HERD"],
  about: "the herd as a backup (jsonl), its animals (csv) or its calendar (ics)",
  options: [
    { name: "as", value: "jsonl|csv|ics", about: "which of the three" },
    { name: "guard", about: "csv: an apostrophe before cells that a spreadsheet might run" },
    ...HERD_OPTIONS.filter(({ name }) => name !== "json"),
    OUT_OPTION,
  ],
  async run(args, world) {
    const form = args.value("as");
    if (form !== "jsonl" && form !== "csv" && form !== "ics")
      return wrong("As what? Write --as jsonl for a backup, --as csv for a table of animals, --as ics for a calendar.");
    if (form !== "csv" && args.has("guard")) return wrong("--guard is for --as csv.");
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { entries, situation } = opened.value;
    const { id } = situation.herd;
    const text =
      form === "jsonl"
        ? writeHerdFile(entries, id === undefined ? {} : { herd: id })
        : form === "ics"
          ? calendarOf(situation, world)
          : csvText([HEADINGS, ...animalRows(situation.herd)], args.has("guard") ? "guard" : "as-is");
    const given = await give(text, args, world);
    return given.ok ? ok(answered(opened.value, world)) : given;
  },
};

/** The season as a calendar file; exported again, it updates what a calendar took in before. */
function calendarOf(situation: Situation, world: World): string {
  const { herd, today } = situation;
  const entries = calendarItems(situation).map((item) => ({ ...item, ...season.calendar(item, today) }));
  return calendarText(entries, {
    name: season.calendarName(herdNameOf(herd)),
    herd: herd.id ?? "herd",
    at: world.now(),
  });
}

/** Columns of the table. `sire` names the bucks that may be it by kidding or
 * services, with a stroke between. Days are written YYYY-MM-DD. */
const HEADINGS = [
  "id",
  "name",
  "tag",
  "sex",
  "born",
  "breed",
  "dam",
  "sire",
  "head",
  "grew_left",
  "grew_right",
  "left_herd",
  "why",
];

const animalRows = (herd: Herd): readonly (readonly string[])[] =>
  [...herd.animals.values()].map((animal) => animalRow(herd, animal));

function animalRow(herd: Herd, animal: Animal): readonly string[] {
  const grew = animal.outcomes.at(-1);
  const disbudded = animal.disbuddings.some(({ done }) => done !== "not-done");
  return [
    animal.id,
    animal.name ?? "",
    animal.tag ?? "",
    animal.sex,
    animal.born ?? "",
    animal.breed ?? "",
    animal.dam ?? "",
    sireCandidates(herd, animal, herdBreedOf(herd))
      .flatMap(({ sire }) => sire ?? [])
      .join("|"),
    animal.head?.head ?? (disbudded ? "disbudded" : ""),
    grew?.left ?? "",
    grew?.right ?? "",
    animal.departure?.on ?? (animal.bornAs === "dead" ? (animal.born ?? "") : ""),
    animal.departure?.why ?? (animal.bornAs === "dead" ? "born dead" : ""),
  ];
}
