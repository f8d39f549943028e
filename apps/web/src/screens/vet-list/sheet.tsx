import type { VetListLine, VetListModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { useScreens, words } from "../../house/use-house.tsx";
import { forVet } from "./for-vet.ts";

/** The list on paper: one ink, one side, with boxes to tick by hand; the day's cautions below it. */
export function VetSheet(props: {
  readonly model: VetListModel;
  readonly herd: string;
  readonly today: Day;
  readonly asOf: string;
  /** Kids that the list printed before this one lacks. */
  readonly fresh: ReadonlySet<string>;
}) {
  const s = useScreens();
  const { model, today } = props;
  const lines = [...model.list, ...model.lookFirst];
  return (
    <section className="sheet vet-sheet" aria-label={s.vetList.print}>
      <h2 className="sheet-head">{s.vetList.sheetHead(props.herd, words.day(model.day, "0001-01-01" as Day))}</h2>
      <p>
        {model.vet !== undefined && <b>{model.vet}. </b>}
        {s.vetList.page} {s.vetList.asOf(props.asOf)}.
      </p>
      <table>
        <thead>
          <tr>
            {(["kid", "sex", "born", "age", "weight", "horns", "end", "done", "found"] as const).map((column) => (
              <th key={column} scope="col">
                {s.vetList.columns[column]}
              </th>
            ))}
          </tr>
        </thead>
        {lines.map((line) => (
          <tbody key={line.kid.id}>
            <SheetRow line={line} today={today} isNew={props.fresh.has(line.kid.id) ? "new" : "listed"} />
            <tr className="to-know">
              <td colSpan={9}>
                {forVet(s, line, { day: model.day, sayDay: (day) => dateOnly(day, today) }).join(" ")}
                {line.notes.map((note) => (
                  <span key={note}> {note}</span>
                ))}
              </td>
            </tr>
          </tbody>
        ))}
        {lines.length === 0 && (
          <tbody>
            <tr>
              <td colSpan={9}>{s.vetList.nobody}</td>
            </tr>
          </tbody>
        )}
      </table>
      <p className="remarks">{s.forVet.remarks}</p>
      <ul>
        {model.cautions.map((code) => (
          <li key={code}>{words.caution(code)}</li>
        ))}
      </ul>
    </section>
  );
}

function SheetRow({
  line,
  today,
  isNew,
}: {
  readonly line: VetListLine;
  readonly today: Day;
  readonly isNew: "new" | "listed";
}) {
  const s = useScreens();
  const early = line.daysFromDueOnDay !== undefined && line.daysFromDueOnDay !== line.ageOnDay;
  return (
    <tr>
      <th scope="row">
        {words.label(line.kid)}
        {isNew === "new" && <b className="new-mark"> {s.forVet.isNew}</b>}
        {line.kid.tag !== undefined && line.kid.name !== undefined && (
          <>
            <br />
            <span className="tag">{line.kid.tag}</span>
          </>
        )}
      </th>
      <td>{s.animals.sex[line.kid.sex]}</td>
      <td>{dateOnly(line.born, today)}</td>
      <td>
        {s.vetList.ageDays(line.ageOnDay)}
        {early && `; ${s.vetList.fromDue(line.daysFromDueOnDay ?? 0)}`}
      </td>
      <td className="write">
        {line.weight !== undefined && (
          <small>{s.vetList.lastWeight(String(line.weight.kg), dateOnly(line.weight.on, today))}</small>
        )}
      </td>
      <td>
        {line.belief === undefined ? s.vetList.notRead : words.counted(line.belief.counted)}
        {line.why === "undecided" && (
          <>
            <br />
            <small>{s.vetList.whys.undecided}</small>
          </>
        )}
      </td>
      <td>{dateOnly(line.end, today)}</td>
      <td className="boxes">
        <Boxes count={3} />
      </td>
      <td className="boxes">
        <Boxes count={2} />
      </td>
    </tr>
  );
}

const dateOnly = (day: Day, today: Day): string =>
  `${Number(day.slice(8))}.${Number(day.slice(5, 7))}.${day.slice(0, 4) === today.slice(0, 4) ? "" : day.slice(0, 4)}`;

const Boxes = ({ count }: { readonly count: number }) => (
  <>
    {Array.from({ length: count }, (_, at) => (
      <span key={at} className="box" />
    ))}
  </>
);
