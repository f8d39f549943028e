import { present } from "@pollard/base";
import { BUD_AGES, HEAD_ROWS, type HeadRow, type LearntRow } from "@pollard/husbandry";
import { countedOf } from "../counted.ts";
import type { HerdHeads } from "./learnt-heads.ts";
import type { LearntModel, LessonCode } from "./record-models.ts";
import { TRUTHS } from "./truths.ts";

/** What is told of a row of the tables: the share of some of its values. */
const LESSONS: Readonly<Record<LessonCode, { readonly row: HeadRow; readonly values: readonly (string | number)[] }>> =
  {
    "whorls-on-horned": { row: "is-whorl horned", values: ["over-buds"] },
    "whorls-on-polled": { row: "is-whorl polled", values: ["over-buds"] },
    "flat-on-horned": { row: "is-crown horned", values: ["flat"] },
    "flat-on-polled": { row: "is-crown polled", values: ["flat"] },
    "early-bud-buck": { row: "is-bud-age buck", values: BUD_AGES.filter((age) => age <= 3) },
    "early-bud-doe": { row: "is-bud-age doe", values: BUD_AGES.filter((age) => age <= 3) },
    "bump-on-smooth": { row: "see-feel flat", values: ["rounded", "pointed", "tip-through"] },
    "pointed-told": { row: "see-feel pointed-bud", values: ["pointed", "tip-through"] },
  };

/** What the herd's own heads have taught, as counts that a person can picture; before and after stand on one denominator. */
export function learntModel({ learnt, tables, truths }: HerdHeads): LearntModel {
  const rows = new Map(learnt.rows.map((row) => [row.row, row]));
  return {
    kids: learnt.kids,
    truths: TRUTHS.map((from) => ({ from, kids: [...truths.values()].filter((t) => t.from === from).length })),
    lessons: Object.entries(LESSONS).map(([code, { row, values }]) => {
      const { before, after, seen } = present(rows.get(row), row);
      const share = (chances: LearntRow["after"]): number =>
        chances.reduce((sum, chance, i) => (values.includes(present(HEAD_ROWS[row][i], row)) ? sum + chance : sum), 0);
      return {
        code: code as LessonCode,
        before: countedOf(share(before), 20),
        after: countedOf(share(after), 20),
        seen,
      };
    }),
    readers: [...learnt.readers].map(([reader, kids]) => ({ reader, kids })),
    breeds: [...tables.breedDelayDays].map(([breed, days]) => ({ breed, days })),
  };
}
