import type { AnimalId } from "@pollard/genetics";
import { DAY_ORDERS, LIST_COLUMNS, type ListColumn, PARENT_CHOICES } from "@pollard/records";
import { useId, useState } from "react";
import { Link } from "wouter";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import type { ListPlanShown, ListShown } from "../../worker/list-answers.ts";
import { RowGroupsShown } from "./groups.tsx";
import { callsNobody, firstSaid, type ListSaid, wishesIn, withColumn } from "./model.ts";

/** A list from a spreadsheet: what its columns hold, what each row becomes, and then one tap. Nothing is entered before it. */
export function ListScreen() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const deeds = useDeeds();
  const [list, setList] = useState<ListShown>();
  const [said, setSaid] = useState<ListSaid>(firstSaid([]));
  const [agreed, setAgreed] = useState<readonly AnimalId[]>([]);
  const [told, setTold] = useState<string>();
  const plan = useAsked(
    async (answers) => (list === undefined ? undefined : answers.listPlan(wishesIn(said), today)),
    [list, said, today],
  ).value;

  const take = async (file: File): Promise<void> => {
    setTold(s.lists.reading);
    setList(undefined);
    setAgreed([]);
    const read = await house.answers.takeList(new Uint8Array(await file.arrayBuffer()));
    if (!read.ok) {
      setTold(s.lists.refusal(read.error));
      return;
    }
    setSaid(firstSaid(read.value.columns));
    setList(read.value);
    setTold(`${s.lists.read(read.value.rows)} ${s.lists.encoding[read.value.encoding]}`.trim());
  };
  const changing = agreed.filter((animal) => plan?.changeable.includes(animal));
  const fresh = plan?.groups.new.count ?? 0;
  const bringIn = async (): Promise<void> => {
    const facts = await house.answers.listFacts(wishesIn(said), changing, today);
    setAgreed([]);
    await deeds.act(s.lists.done(fresh + changing.length), facts);
  };
  return (
    <Frame
      heading={s.lists.title}
      title={s.lists.title}
      back="/animals"
      place="animals"
      dock={
        plan === undefined ? undefined : (
          <>
            <DeedLine deeds={deeds} />
            {plan.groups.nothing.count > 0 && <p className="saved">{s.lists.leftBehind(plan.groups.nothing.count)}</p>}
            {fresh + changing.length > 0 ? (
              <button type="button" className="press main" onClick={() => void bringIn()}>
                {s.lists.bringIn(fresh, changing.length)}
              </button>
            ) : (
              <p className="saved">{s.lists.nothing}</p>
            )}
          </>
        )
      }
    >
      <h1 className="in-board">{s.lists.title}</h1>
      <p>
        {s.lists.intro} {s.lists.nothingYet}
      </p>
      <FileKey label={list === undefined ? s.lists.file : s.lists.otherFile} onFile={(file) => void take(file)} />
      {told !== undefined && <Told className="card">{told}</Told>}
      {list !== undefined && (
        <>
          <Columns list={list} said={said} onSaid={setSaid} />
          {plan !== undefined && <Questions plan={plan} said={said} onSaid={setSaid} />}
          {plan !== undefined && <RowGroupsShown plan={plan} agreed={changing} onAgreed={setAgreed} />}
        </>
      )}
      {deeds.last !== undefined && (
        <Link href="/animals" className="press">
          {s.lists.toAnimals}
        </Link>
      )}
    </Frame>
  );
}

function FileKey({ label, onFile }: { readonly label: string; readonly onFile: (file: File) => void }) {
  const id = useId();
  return (
    <label className="press main file-key" htmlFor={id}>
      {label}
      <input
        id={id}
        type="file"
        accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file) onFile(file);
        }}
      />
    </label>
  );
}

interface Saying {
  readonly said: ListSaid;
  readonly onSaid: (said: ListSaid) => void;
}

function Columns({ list, said, onSaid }: Saying & { readonly list: ListShown }) {
  const s = useScreens();
  const id = useId();
  return (
    <section className="part">
      <h2>{s.lists.whatIsWhat}</h2>
      {callsNobody(said.columns) === "nobody" && <p className="lead">{s.lists.nobodyCalled}</p>}
      <div className="list-columns">
        {list.headings.map((heading, at) => (
          // Two columns may have one heading: the place is the name.
          <div key={at} className="field">
            <label htmlFor={`${id}-${at}`}>{heading === "" ? `(${at + 1})` : heading}</label>
            <p id={`${id}-${at}-such`} className="quiet">
              {(list.samples[at] ?? []).length > 0 && s.lists.such((list.samples[at] ?? []).join(", "))}
            </p>
            <select
              id={`${id}-${at}`}
              aria-describedby={`${id}-${at}-such`}
              value={said.columns[at] ?? ""}
              onChange={(event) => {
                const column = LIST_COLUMNS.find((each) => each === event.target.value);
                onSaid({ ...said, columns: withColumn(said.columns, at, column) });
              }}
            >
              <option value="">{s.lists.leaveOut}</option>
              {LIST_COLUMNS.map((column: ListColumn) => (
                <option key={column} value={column}>
                  {s.lists.column[column]}
                </option>
              ))}
            </select>
          </div>
        ))}
      </div>
    </section>
  );
}

/** What only the keeper can say. */
function Questions({ plan, said, onSaid }: Saying & { readonly plan: ListPlanShown }) {
  const s = useScreens();
  const { days } = plan;
  return (
    <>
      {days.open > 0 && (
        <section className="part">
          <p>
            {s.lists.whichWhy(days.open)} {days.proven !== undefined && s.lists.proven}
          </p>
          <Answers
            name="days"
            legend={s.lists.which}
            shape="column"
            value={said.days ?? days.proven}
            onAnswer={(order) => onSaid({ ...said, days: order })}
            choices={DAY_ORDERS.map((order) => ({ value: order, label: s.lists.orders[order] }))}
          />
        </section>
      )}
      {(plan.sexless > 0 || said.otherwise !== "none") && (
        <section className="part">
          <Answers
            name="otherwise"
            legend={s.lists.otherwise}
            shape="column"
            value={said.otherwise}
            onAnswer={(otherwise) => onSaid({ ...said, otherwise })}
            choices={(["doe", "buck", "none"] as const).map((each) => ({
              value: each,
              label: s.lists.otherwiseAnswers[each],
            }))}
          />
        </section>
      )}
      {(plan.parents > 0 || said.parents !== "gone") && (
        <section className="part">
          <Answers
            name="parents"
            legend={s.lists.parents(plan.parents)}
            shape="column"
            value={said.parents}
            onAnswer={(parents) => onSaid({ ...said, parents })}
            choices={PARENT_CHOICES.map((each) => ({ value: each, label: s.lists.parentAnswers[each] }))}
          />
        </section>
      )}
    </>
  );
}
