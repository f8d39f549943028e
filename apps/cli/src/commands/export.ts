import { err, ok } from "@pollard/base";
import { herdBreedOf, sireCandidates } from "@pollard/advice";
import { type Animal, type Herd, writeHerdFile } from "@pollard/records";
import { type Command, HERD_OPTIONS } from "../command.ts";
import { csvText } from "../csv.ts";
import { answered, openHerd } from "../herd-source.ts";
import { wrong } from "../outcome.ts";

/** The herd as a file for others: every entry, or a table of its animals. */
export const exportHerd: Command = {
  name: "export",
  takes: ["HERD"],
  about: "the herd as a backup (jsonl) or a table of its animals (csv)",
  options: [
    { name: "as", value: "jsonl|csv", about: "which of the two" },
    { name: "guard", about: "csv: an apostrophe before cells that a spreadsheet might run" },
    ...HERD_OPTIONS.filter(({ name }) => name !== "json"),
  ],
  async run(args, world) {
    const form = args.value("as");
    if (form !== "jsonl" && form !== "csv")
      return wrong("As what? Write --as jsonl for a backup or --as csv for a table of animals.");
    if (form === "jsonl" && args.has("guard")) return wrong("--guard is for --as csv.");
    const opened = await openHerd(args, world);
    if (!opened.ok) return err(opened.error);
    const { entries, situation } = opened.value;
    const { id } = situation.herd;
    if (form === "jsonl") world.out(writeHerdFile(entries, id === undefined ? {} : { herd: id }));
    else world.out(csvText([HEADINGS, ...animalRows(situation.herd)], args.has("guard") ? "guard" : "as-is"));
    return ok(answered(opened.value, world));
  },
};

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
