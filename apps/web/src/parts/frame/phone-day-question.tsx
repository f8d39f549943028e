import type { Day } from "@pollard/base";
import { useState } from "react";
import { madeOn } from "../../adapters/app-update.ts";
import { readDayAsked, writeDayAsked } from "../../adapters/own-settings/phone-day.ts";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { dayDoubt, mayAskDay } from "./phone-day.ts";
import { Told } from "./told.tsx";

/** A day in full, its year with it. */
const inFull = (day: Day): string => words.day(day, "0001-01-01" as Day);

/**
 * "Is this phone's date right?", where it can hardly be and something is entered: once a day, and never in anybody's way.
 * Said to be right, it is not asked again for the same reason.
 */
export function PhoneDayQuestion({ at }: { readonly at: string }) {
  const { house } = useGround();
  if (!mayAskDay(at) || house.herd.sort === "demo" || house.herd.role === "vet") return null;
  return <Question />;
}

function Question() {
  const s = useScreens();
  const today = useToday();
  const [asked, setAsked] = useState(() => readDayAsked(localStorage));
  const [said, setSaid] = useState<"right" | "wrong">();
  const known = useAsked((answers) => answers.lastWritten(), []);
  if (said === "wrong") return <Told>{s.day.putDayRight}</Told>;
  if (said === "right" || known.value === undefined || asked.on === today) return null;
  const { day: lastWritten } = known.value;
  const doubt = dayDoubt(today, { made: madeOn(), lastWritten });
  if (doubt === undefined || (lastWritten !== undefined && asked.rightAfter === lastWritten)) return null;
  const answer = (given: "right" | "wrong"): void => {
    const next = { on: today, rightAfter: given === "right" ? lastWritten : undefined };
    writeDayAsked(localStorage, next);
    setAsked(next);
    setSaid(given);
  };
  return (
    <section className="card" aria-label={s.day.phoneDay}>
      <p className="say">
        <b>{s.day.phoneDay}</b>
      </p>
      <p>
        {s.day.phoneSays(inFull(today))}
        <br />
        {doubt === "before-made" || lastWritten === undefined
          ? s.day.beforeMade
          : s.day.lastWritten(inFull(lastWritten))}
      </p>
      <div className="two">
        <button type="button" className="press" onClick={() => answer("right")}>
          {s.day.dayRight}
        </button>
        <button type="button" className="press" onClick={() => answer("wrong")}>
          {s.day.dayWrong}
        </button>
      </div>
    </section>
  );
}
