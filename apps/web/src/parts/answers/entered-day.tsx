import type { Day } from "@pollard/base";
import { type ReactNode, useState } from "react";
import { useScreens, words } from "../../house/use-house.tsx";
import { capital } from "../capital.ts";
import { DayChoice } from "./day-choice.tsx";

/** A day, and the time where it is today's. */
interface When {
  readonly on: Day;
  readonly time?: string | undefined;
}

/** When what is about to be stored was seen, with a key to change it; `children` stand below it until the key is pressed. */
export function EnteredDay(props: {
  readonly name: string;
  readonly value: When;
  readonly today: Day;
  readonly onDay: (when: When) => void;
  readonly children?: ReactNode;
}) {
  const { name, value, today, onDay, children } = props;
  const s = useScreens();
  const [changing, setChanging] = useState(false);
  return (
    <>
      <div className="line-with-key">
        <p>
          <span className="quiet">{name}</span>
          <br />
          <b>{capital(words.day(value.on, today))}</b>
          {value.time !== undefined && `, ${value.time}`}
        </p>
        <button
          type="button"
          className="press"
          aria-label={s.frame.changeWhat(name)}
          onClick={() => setChanging(!changing)}
        >
          {s.frame.change}
        </button>
      </div>
      {changing ? (
        <DayChoice
          legend={s.day.question}
          today={today}
          value={value.on}
          onDay={(on) => onDay({ on, time: on === today ? value.time : undefined })}
        />
      ) : (
        children
      )}
    </>
  );
}
