import type { PairingsModel } from "@pollard/advice";
import { type KeyboardEvent, useRef, useState } from "react";
import { Link, useLocation } from "wouter";
import { useScreens, words } from "../../house/use-house.tsx";
import { cellAfter, gridOf, OF, type PairCell } from "./model.ts";

const addressOf = (cell: PairCell): string => `/pair/${cell.doe.id}/${cell.buck.id}`;

/**
 * Does by bucks at the desk: a number, a shape and a word in every cell, so that no colour is needed to read it.
 *
 * One stop for Tab; the arrow keys move inside, Enter opens the pair.
 */
export function PairGrid({ model }: { readonly model: PairingsModel }) {
  const s = useScreens();
  const [, go] = useLocation();
  const [at, setAt] = useState({ row: 0, column: 0 });
  const table = useRef<HTMLTableElement>(null);
  const rows = gridOf(model);
  const size = { rows: rows.length, columns: model.bucks.length };
  const move = (event: KeyboardEvent): void => {
    const next = cellAfter(event.key, at, size);
    const here = rows[at.row]?.[at.column];
    if (event.key === "Enter" && here !== undefined) go(addressOf(here));
    if (next === undefined) return;
    event.preventDefault();
    setAt(next);
    table.current?.querySelector<HTMLElement>(`[data-cell="${next.row} ${next.column}"]`)?.focus();
  };
  return (
    <div className="pair-grid-frame">
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-to-interactive-role -- a grid by WAI-ARIA: one Tab stop, arrow keys inside */}
      <table className="pair-grid" role="grid" aria-label={s.pairings.gridName} ref={table}>
        <thead>
          <tr>
            <th scope="col">{s.pairings.doe}</th>
            {model.bucks.map((buck) => (
              <th key={buck.id} scope="col">
                {words.label(buck)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            <tr key={model.does[r]?.id}>
              <th scope="row">
                {model.does[r] && <Link href={`/pairings/${model.does[r].id}`}>{words.label(model.does[r])}</Link>}
              </th>
              {row.map((cell, c) => (
                <td key={cell.buck.id} className={cell.state}>
                  <Link
                    href={addressOf(cell)}
                    data-cell={`${r} ${c}`}
                    tabIndex={r === at.row && c === at.column ? 0 : -1}
                    onFocus={() => setAt({ row: r, column: c })}
                    onKeyDown={move}
                    aria-label={s.pairings.cell(
                      words.label(cell.doe),
                      words.label(cell.buck),
                      cell.horned,
                      cell.state === "open" ? "" : s.pairings.key[cell.state],
                    )}
                  >
                    <Fill horned={cell.horned} />
                    <span className="count">{cell.horned}</span>
                    <StateMark state={cell.state} />
                  </Link>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="key-line" aria-hidden="true">
        {(["chosen", "open", "closed"] as const).map((state) => (
          <span key={state} className={`pair-key ${state}`}>
            <StateMark state={state} />
            {s.pairings.key[state]}
          </span>
        ))}
      </p>
    </div>
  );
}

/** How many of 20 kids are horned, as a bar that fills: read beside its number, never alone. */
function Fill({ horned }: { readonly horned: number }) {
  return (
    <svg className="fill" viewBox="0 0 40 10" width="40" height="10" aria-hidden="true" focusable="false">
      <rect x="1" y="1" width="38" height="8" fill="none" stroke="currentColor" strokeWidth="1.5" />
      <rect x="1" y="1" width={(38 * horned) / OF} height="8" fill="currentColor" />
    </svg>
  );
}

/** A tick, nothing, or a bar across: the same three as the key below the grid. */
export function StateMark({ state }: { readonly state: PairCell["state"] }) {
  return (
    <svg className="drawn" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">
      {state === "chosen" && <path d="M2 9 L6 13 L14 3" fill="none" stroke="currentColor" strokeWidth="2.5" />}
      {state === "closed" && <path d="M2 8 H14" fill="none" stroke="currentColor" strokeWidth="3" />}
      {state === "open" && <circle cx="8" cy="8" r="2" fill="currentColor" />}
    </svg>
  );
}
