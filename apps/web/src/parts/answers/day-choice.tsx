import { addDays, type Day } from "@pollard/base";
import { useId, useState } from "react";
import { useScreens, words } from "../../house/use-house.tsx";
import { Answers } from "./answers.tsx";
import { dayFromParts, partsOf } from "./day-parts.ts";
import { Told } from "../frame/told.tsx";
import { capital } from "../capital.ts";

/** A day of the past, nearest first: today, yesterday, the day before, or typed. */
export function DayChoice(props: {
  readonly legend: string;
  readonly name?: string;
  readonly today: Day;
  readonly value: Day | undefined;
  readonly onDay: (day: Day) => void;
  /** Days to come may be chosen as well (a vet day, the end of a pen period). */
  readonly ahead?: "ahead";
  /** A day that is rather left out than made up begins without figures: of a goat's birth often only the year is known. */
  readonly begin?: "blank";
  /** The days to press, where today and the two beside it are not the likely ones. */
  readonly near?: readonly { readonly day: Day; readonly label: string }[];
}) {
  const s = useScreens();
  const id = useId();
  const pressed = props.near ?? besideToday(props.today, props.ahead ? 1 : -1);
  const near = pressed.map(({ day }) => day);
  const isNear = props.value !== undefined && near.includes(props.value);
  const [typing, setTyping] = useState(!isNear && props.value !== undefined);
  return (
    <div className="stack tight">
      <Answers
        name={props.name ?? `day-${id}`}
        legend={props.legend}
        shape="small"
        value={typing ? "other" : props.value}
        choices={[
          ...pressed.map(({ day, label }) => ({ value: day as string, label })),
          { value: "other", label: s.day.other },
        ]}
        onAnswer={(answer) => {
          setTyping(answer === "other");
          if (answer !== "other") props.onDay(answer as Day);
        }}
      />
      {typing && <TypedDay {...props} />}
    </div>
  );
}

const besideToday = (today: Day, step: 1 | -1) =>
  [today, addDays(today, step), addDays(today, 2 * step)].map((day) => ({
    day,
    label: capital(words.day(day, today)),
  }));

const BLANK = { day: "", month: "", year: "" };

/** A day in three fields, month by name or number; nothing jumps by itself. */
function TypedDay({
  value,
  today,
  onDay,
  ahead,
  begin,
}: {
  readonly value: Day | undefined;
  readonly today: Day;
  readonly onDay: (day: Day) => void;
  readonly ahead?: "ahead";
  readonly begin?: "blank";
}) {
  const s = useScreens();
  const [parts, setParts] = useState(() =>
    value === undefined && begin === "blank" ? BLANK : partsOf(value ?? today),
  );
  const id = useId();
  const read = dayFromParts(parts, s.day.months.split(" "));
  const untouched = Object.values(parts).every((part) => part.trim() === "");
  const unread = begin === "blank" ? s.day.wholeOrNone : s.day.notADay;
  const wrong =
    untouched && begin === "blank"
      ? undefined
      : read === undefined
        ? unread
        : !ahead && read > today
          ? s.day.inFuture
          : undefined;
  const type = (part: Partial<typeof parts>): void => {
    const next = { ...parts, ...part };
    setParts(next);
    const day = dayFromParts(next, s.day.months.split(" "));
    if (day !== undefined && (ahead || day <= today)) onDay(day);
  };
  return (
    <div className="stack tight">
      <div className="day-fields">
        {(["day", "month", "year"] as const).map((part) => (
          <div className="field" key={part}>
            <label htmlFor={`${id}-${part}`}>{s.day[part]}</label>
            <input
              id={`${id}-${part}`}
              value={parts[part]}
              inputMode={part === "month" ? "text" : "numeric"}
              autoComplete="off"
              aria-invalid={wrong !== undefined}
              aria-describedby={wrong === undefined ? undefined : `${id}-wrong`}
              onChange={(event) => type({ [part]: event.target.value })}
            />
          </div>
        ))}
      </div>
      {wrong !== undefined && <Told id={`${id}-wrong`}>{wrong}</Told>}
    </div>
  );
}
