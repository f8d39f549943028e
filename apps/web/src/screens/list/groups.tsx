import type { AnimalId } from "@pollard/genetics";
import type { PlannedRow } from "@pollard/records";
import type { ReactNode } from "react";
import { StatusMark } from "../../drawings/marks.tsx";
import { TickIcon } from "../../drawings/icons.tsx";
import { useScreens } from "../../house/use-house.tsx";
import type { ListPlanShown } from "../../worker/list-answers.ts";
import { toggled } from "./model.ts";

/** What each row becomes, by sort: first what needs a hand, then what would be entered, then what stays as it is. */
export function RowGroupsShown(props: {
  readonly plan: ListPlanShown;
  readonly agreed: readonly AnimalId[];
  readonly onAgreed: (agreed: readonly AnimalId[]) => void;
}) {
  const s = useScreens();
  const { groups, called, changeable } = props.plan;
  const nameOf = (id: string): string => called.get(id) ?? id;
  const all = props.agreed.length === changeable.length;
  return (
    <section className="part">
      <h2>{s.lists.becomes}</h2>
      <Group becomes="nothing" of={groups.nothing} opened="open" hint={s.lists.groupHints.nothing}>
        {(row) => row.problems.map(s.lists.problem).join(" ")}
      </Group>
      <Group becomes="change" of={groups.change} opened="open" hint={s.lists.groupHints.change}>
        {(row) => {
          const lines = row.differences.map((each) => s.lists.difference(each, nameOf));
          if (row.facts.length === 0) return lines.join("; ");
          return (
            <label className="answer small">
              <input
                type="checkbox"
                checked={props.agreed.includes(row.animal)}
                onChange={() => props.onAgreed(toggled(props.agreed, row.animal))}
              />
              <span>{lines.join("; ")}</span>
              <span className="tick" aria-hidden="true">
                <TickIcon />
              </span>
            </label>
          );
        }}
      </Group>
      {changeable.length > 1 && (
        <button type="button" className="press" onClick={() => props.onAgreed(all ? [] : changeable)}>
          {all ? s.lists.tickNone : s.lists.tickAll}
        </button>
      )}
      <Group becomes="new" of={groups.new} opened="shut">
        {(row) =>
          [
            s.animals.sex[sexIn(row)],
            row.goat.born,
            row.goat.tag,
            row.goat.kidded === "yes" && s.lists.column.kidded,
            ...row.lacks.map(s.lists.lacks),
          ]
            .filter(Boolean)
            .join(", ")
        }
      </Group>
      <Group becomes="same" of={groups.same} opened="shut">
        {() => undefined}
      </Group>
      <Group becomes="repeat" of={groups.repeat} opened="shut">
        {(row) => s.lists.repeats(row.first)}
      </Group>
    </section>
  );
}

/** The sex that a new goat would be entered with. */
function sexIn({ facts }: PlannedRow & { readonly becomes: "new" }) {
  const [first] = facts;
  return first?.kind === "animal" ? first.body.sex : "unsure";
}

function Group<K extends PlannedRow["becomes"]>(props: {
  readonly becomes: K;
  readonly of: ListPlanShown["groups"][K];
  readonly opened: "open" | "shut";
  readonly hint?: string;
  readonly children: (row: PlannedRow & { readonly becomes: K }) => ReactNode;
}) {
  const s = useScreens();
  const { count, first } = props.of as {
    readonly count: number;
    readonly first: readonly (PlannedRow & { readonly becomes: K })[];
  };
  if (count === 0) return null;
  return (
    <details className="why" open={props.opened === "open"}>
      <summary>
        {props.becomes === "nothing" ? (
          <span className="with-mark">
            <StatusMark status="soon" />
            {s.lists.groups.nothing(count)}
          </span>
        ) : (
          s.lists.groups[props.becomes](count)
        )}
      </summary>
      {props.hint !== undefined && <p className="quiet">{props.hint}</p>}
      <ul className="rows">
        {first.map((row) => (
          <li key={row.line} className="list-row">
            <b>{s.lists.line(row.line, row.called)}</b> {props.children(row)}
          </li>
        ))}
      </ul>
      {count > first.length && <p className="quiet">{s.lists.more(count - first.length)}</p>}
    </details>
  );
}
