import { weightIn } from "@pollard/base";
import type { KeptKid } from "@pollard/advice";
import { type ReactNode, useMemo } from "react";
import { Link } from "wouter";
import { useScreens, weights, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { capital } from "../../parts/capital.ts";
import { Named } from "../../parts/lists/lines.tsx";
import { SortedTable } from "../../parts/lists/sorted-table.tsx";
import { KEPT_COLUMNS, KEPT_NUMBERS, type KeptColumn, keptValue } from "./table-model.ts";

/** The young goats as a table at the desk: a row each, sorted by what the keeper looks for. */
export function KeptTable({ kids }: { readonly kids: readonly KeptKid[] }) {
  const s = useScreens();
  const columns = useMemo(
    () =>
      KEPT_COLUMNS.map((key) => ({
        key,
        name: key === "weight" ? s.herdTable.weightIn[weights.unit] : s.kept.columns[key],
        cell: (kid: KeptKid) => <Cell kid={kid} column={key} />,
        value: (kid: KeptKid) => keptValue(kid, key),
        ...(KEPT_NUMBERS.has(key) ? { num: "num" as const } : {}),
      })),
    [s],
  );
  return (
    <SortedTable
      caption={s.kept.caption(kids.length)}
      columns={columns}
      rows={kids}
      keyOf={({ kid }) => kid.id}
      first={{ by: "born", way: "up" }}
    />
  );
}

function Cell({ kid, column }: { readonly kid: KeptKid; readonly column: KeptColumn }): ReactNode {
  const s = useScreens();
  switch (column) {
    case "goat":
      return (
        <Link href={`/animal/${kid.kid.id}`} className="cell-link">
          <Named of={kid.kid} />
        </Link>
      );
    case "born":
      return `${s.season.shortDay(kid.born)} ${kid.born.slice(0, 4)}`;
    case "open":
      return capital(said.uses(kid));
    case "closed":
      return capital(said.closedUses(kid));
    case "genes":
      return kid.genotype === undefined ? s.kept.headUnread : words.genotype(kid.genotype);
    case "inbreeding":
      return words.number(kid.inbreeding, 2);
    case "litter":
      return kid.litter;
    case "dam":
      return kid.dam && words.label(kid.dam);
    case "damKids":
      return kid.dam && kid.damKids;
    case "weight":
      return (
        kid.weight && (
          <>
            {words.number(weightIn(kid.weight.kg, weights.unit), 1)}
            <span className="under quiet">{s.season.shortDay(kid.weight.on)}</span>
          </>
        )
      );
    case "gain":
      return kid.growth && s.kept.gainSaid(weights.gainBetween(kid.growth.gainKgADay), kid.growth.state);
  }
}
