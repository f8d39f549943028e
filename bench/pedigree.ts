import { herdBook, situationOf } from "@pollard/advice";
import { day } from "@pollard/base";
import { fold } from "@pollard/records";
import { familyOf } from "../apps/web/src/screens/pedigree/family.ts";
import { layoutOf } from "../apps/web/src/screens/pedigree/layout.ts";
import { tenYears } from "./herds/ten-years.ts";
import { timed } from "./measuring/times.ts";

/** What it costs to work out the herd book of ten years, and to give every symbol of the whole pedigree its place. */
export function bench() {
  const today = day("2026-03-18");
  const situation = situationOf(fold(tenYears(today), today), today);
  situation.openHeads();
  const asked = timed(() => herdBook(situation));
  const drawn = timed(() => {
    const family = familyOf(asked.value, { who: "all" }, new Set());
    return { family, layout: layoutOf(family) };
  });
  const { family, layout } = drawn.value;
  const size = `${asked.value.length} goats`;
  return [
    { what: `herd book (${size})`, value: asked.ms, unit: "ms", note: "beliefs already there" },
    {
      what: `the whole pedigree laid out (${size})`,
      value: drawn.ms,
      unit: "ms",
      note: `${family.symbols.size} symbols, ${layout.rows.length} generations, ${Math.round(layout.width)} wide`,
    },
  ];
}
