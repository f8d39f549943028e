import type { AnimalLine } from "@pollard/advice";
import { Suspense, useState } from "react";
import { Link } from "wouter";
import { HerdTable } from "../../desk-screens-later.ts";
import { PlusIcon, SearchIcon } from "../../drawings/icons.tsx";
import { useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { type Filter, FILTERS, shownGoats } from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";

/** The herd, as a list on the phone and a table at the desk. */
export function AnimalsScreen() {
  const s = useScreens();
  const today = useToday();
  const wide = useWide();
  const [filter, setFilter] = useState<Filter>("all");
  const asked = useAsked((answers) => answers.goats(today), [today]);
  const goats = asked.value === undefined ? undefined : shownGoats(asked.value, filter, today);
  return (
    <Frame
      heading={s.animals.title}
      title={s.animals.title}
      place="animals"
      dock={
        <div className="two">
          <Link href="/add" className="press">
            <PlusIcon />
            {s.animals.add}
          </Link>
          <Link href="/find" className="press main">
            <SearchIcon />
            {s.find.findShort}
          </Link>
        </div>
      }
    >
      <div className="herd-head">
        {goats === undefined ? (
          <h1 className="in-board">{s.animals.title}</h1>
        ) : (
          <h1>{s.animals.count(goats.length)}</h1>
        )}
        <Answers
          name="filter"
          legend={s.animals.show}
          legendShown="unseen"
          shape="three"
          value={filter}
          onAnswer={setFilter}
          choices={FILTERS.map((each) => ({ value: each, label: s.animals.filters[each] }))}
        />
      </div>
      {wide === "phone" && (
        <div className="ways">
          <Link href="/pedigree" className="cell-link">
            {s.pedigree.linkHerd}
          </Link>
          <Link href="/entries" className="cell-link">
            {s.entries.link}
          </Link>
          <Link href="/list" className="cell-link">
            {s.lists.title}
          </Link>
        </div>
      )}
      {goats === undefined && <Told>{s.frame.working}</Told>}
      {goats?.length === 0 && (
        <p className="card say">{asked.value?.length === 0 ? s.animals.empty : s.animals.emptyFilter}</p>
      )}
      {goats !== undefined && goats.length > 0 && (
        <>
          {wide === "phone" && (
            <Lines>
              {goats.map((goat) => (
                <GoatLine key={goat.ref.id} of={goat.ref} href={`/animal/${goat.ref.id}`}>
                  <HeadSaid goat={goat} /> <ToDo goat={goat} />
                </GoatLine>
              ))}
            </Lines>
          )}
          {wide === "desk" && (
            <Suspense fallback={null}>
              <HerdTable goats={goats} />
            </Suspense>
          )}
        </>
      )}
    </Frame>
  );
}

function HeadSaid({ goat }: { readonly goat: AnimalLine }) {
  const s = useScreens();
  return <span className="quiet">{s.animals.heads[goat.head]}</span>;
}

function ToDo({ goat }: { readonly goat: AnimalLine }) {
  const s = useScreens();
  if (goat.urgency === undefined) return null;
  return <StatusChip status={goat.urgency} word={s.today.groups[goat.urgency]} />;
}
