import { useState } from "react";
import { Link } from "wouter";
import { nowUtc } from "../../adapters/clock.ts";
import { giveFile } from "../../adapters/files/give-file.ts";
import { PrintIcon } from "../../drawings/icons.tsx";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { calendarFile } from "./model.ts";

/** What the season gives to take away: sheets to print, and its days as a calendar file. */
export function PaperPart() {
  const s = useScreens();
  return (
    <section className="part">
      <h2>{s.sheet.title}</h2>
      {(["barn", "gate"] as const).map((kind) => (
        <Link key={kind} href={`/sheet/${kind}`} className="press start">
          <PrintIcon />
          <span>
            {s.sheet.titles[kind]}
            <br />
            <span className="quiet unbold">{s.sheet.hints[kind]}</span>
          </span>
        </Link>
      ))}
      <CalendarPart />
    </section>
  );
}

function CalendarPart() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const items = useAsked((answers) => answers.calendar(today), [today]).value;
  const [told, setTold] = useState<string>();
  if (items === undefined) return null;
  if (items.length === 0)
    return (
      <div className="card">
        <h3>{s.sheet.calendar}</h3>
        <p>{s.sheet.calendarNone}</p>
      </div>
    );
  const give = async (): Promise<void> => {
    const file = calendarFile(items, { herd: house.herd.id, herdName: house.herd.name, today, now: nowUtc() });
    const given = await giveFile(file);
    if (given !== "called-off") setTold(given === "shared" ? s.sheet.shared : s.sheet.kept(file.name));
  };
  return (
    <div className="card">
      <h3>{s.sheet.calendar}</h3>
      <p>
        {s.sheet.calendarSay} <b>{s.sheet.calendarCount(items.filter(({ state }) => state === "stands").length)}.</b>
      </p>
      <p className="quiet">{s.sheet.calendarAgain}</p>
      <button type="button" className="press" onClick={() => void give()}>
        {s.sheet.calendarGive}
      </button>
      {told !== undefined && <Told>{told}</Told>}
    </div>
  );
}
