import { VISIT_SETTINGS } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { useState } from "react";
import { PlusIcon } from "../../drawings/icons.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { ManyAnswers } from "../../parts/answers/answers.tsx";
import { capital } from "../../parts/capital.ts";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Stepper } from "../../parts/answers/stepper.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { VET_NAME } from "../../worker/season-settings.ts";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import { blockedText, headsStep, WEEKDAYS, type Weekday, weekdaysTicked } from "./model.ts";

/** What was tapped and is not answered yet. */
interface Tapped {
  readonly week?: readonly Weekday[];
  readonly most?: number | undefined;
}

/** When the vet can come: weekdays, blocked days, how many heads a visit takes. Each tap is kept at once. */
export function VetWishesScreen() {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const wishes = useAsked((answers) => answers.visitWishes(), []).value;
  const [day, setDay] = useState<Day>();
  // What is tapped shows at once; the herd's answer takes its place when everything tapped is on disk.
  const [tapped, setTapped] = useState<Tapped>({});
  const [answered, setAnswered] = useState(wishes);
  if (wishes !== answered && deeds.saving.state !== "saving") {
    setAnswered(wishes);
    setTapped({});
  }
  const [adding, setAdding] = useState<"open" | "shut">("shut");
  const set = (said: string, key: string, value: string | number): Promise<void> =>
    deeds.act(said, [{ kind: "setting", on: today, body: { key, value } }]);
  const setDays = (said: string, days: readonly Day[]): Promise<void> =>
    set(said, VISIT_SETTINGS.blocked, blockedText(days));
  const most = "most" in tapped ? tapped.most : wishes?.mostHeads;
  const limit = (way: "less" | "more"): void => {
    const next = headsStep(most, way);
    setTapped({ ...tapped, most: next === 0 ? undefined : next });
    void set(s.season.mostNow(next), VISIT_SETTINGS.mostHeads, next);
  };
  const ahead = (wishes?.blocked ?? []).filter((each) => each >= today).toSorted();
  const block = async (): Promise<void> => {
    if (day === undefined) return;
    await setDays(s.season.blockedNow(words.day(day, today)), [...ahead, day]);
    setAdding("shut");
    setDay(undefined);
  };
  return (
    <Frame
      heading={s.season.wishesTitle}
      title={s.season.wishesTitle}
      back="/plan"
      place="plan"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.season.wishesTitle}</h1>
      {wishes !== undefined && (
        <>
          <ManyAnswers<Weekday>
            name="weekdays"
            legend={s.season.weekdays}
            shape="three"
            values={tapped.week ?? weekdaysTicked(wishes.weekdays)}
            choices={WEEKDAYS.map((weekday, i) => ({ value: weekday, label: s.season.weekdayNames[i] ?? weekday }))}
            onAnswers={(days) => {
              const week = WEEKDAYS.filter((each) => days.includes(each));
              setTapped({ ...tapped, week });
              const names = week.map((each) => s.season.weekdayNames[WEEKDAYS.indexOf(each)]);
              void set(s.season.weekdaysNow(names.join(", ")), VISIT_SETTINGS.weekdays, week.join(" "));
            }}
          />
          <p className="quiet">{s.season.everyDay}</p>
          <VetName known={wishes.vet} onName={(vet) => set(vet, VET_NAME, vet)} />
          <section className="part">
            <h2>{s.season.mostHeads}</h2>
            <Stepper label={s.season.mostHeads} value={most ?? s.season.noLimit} onStep={limit} />
          </section>
          <section className="part">
            <h2>{s.season.blocked}</h2>
            {ahead.length === 0 && <p>{s.season.blockedNone}</p>}
            <ul className="rows">
              {ahead.map((each) => (
                <li key={each} className="history-line">
                  <b>{capital(words.day(each, today))}</b>
                  <button
                    type="button"
                    className="press"
                    aria-label={`${s.season.free}: ${words.day(each, today)}`}
                    onClick={() =>
                      void setDays(
                        s.season.freeNow(words.day(each, today)),
                        ahead.filter((other) => other !== each),
                      )
                    }
                  >
                    {s.season.free}
                  </button>
                </li>
              ))}
            </ul>
            {adding === "shut" ? (
              <button type="button" className="press" onClick={() => setAdding("open")}>
                <PlusIcon />
                {s.season.blockDay}
              </button>
            ) : (
              <div className="card">
                <DayChoice legend={s.day.question} today={today} value={day} onDay={setDay} ahead="ahead" />
                <button
                  type="button"
                  className="press main"
                  aria-disabled={day === undefined}
                  onClick={() => void block()}
                >
                  {s.season.blockDay}
                </button>
              </div>
            )}
          </section>
        </>
      )}
    </Frame>
  );
}

/** The vet's name, for the days that are agreed; kept when the key is pressed. */
function VetName(props: { readonly known: string | undefined; readonly onName: (name: string) => Promise<void> }) {
  const s = useScreens();
  const [name, setName] = useState(props.known ?? "");
  const changed = name.trim() !== "" && name.trim() !== props.known;
  return (
    <section className="part">
      <TextField label={s.plan.vetName} value={name} onText={setName} />
      {changed && (
        <button type="button" className="press" onClick={() => void props.onName(name.trim())}>
          {s.season.keepName}
        </button>
      )}
    </section>
  );
}
