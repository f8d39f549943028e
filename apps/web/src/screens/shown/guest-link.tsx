import type { SheetDocument } from "@pollard/advice";
import { day } from "@pollard/base";
import { useState } from "react";
import { hubShown, type NewLink } from "../../adapters/hub/hub-shown.ts";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { localDay } from "../phones/model.ts";
import { guestAddress, whyNotShown } from "./model.ts";

const DAYS = ["7", "30", "90"] as const;

/** Shows one kid's paper to somebody by a link: what stands on it now, for as long as was chosen. */
export function GuestLink({ kid, sheet }: { readonly kid: string; readonly sheet: SheetDocument }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [days, setDays] = useState<(typeof DAYS)[number]>("30");
  const [made, setMade] = useState<NewLink>();
  const [said, setSaid] = useState<string>();
  const make = async (): Promise<void> => {
    const { id, token } = house.herd;
    const link = await hubShown(id, document.baseURI, token).show(kid, Number(days), sheet);
    setMade(link.ok ? link.value : undefined);
    setSaid(link.ok ? undefined : s.shown[whyNotShown(link.error)]);
  };
  const address = made && guestAddress(made, document.baseURI);
  const copy = async (): Promise<void> => {
    if (address === undefined) return;
    const copied = await navigator.clipboard.writeText(address).then(
      () => true,
      () => false, // not allowed here: the address stands on the page, to be marked by hand
    );
    if (copied) setSaid(s.shown.copied);
  };
  return (
    <section className="part">
      <h2>{s.shown.link}</h2>
      <p>{s.shown.linkHint}</p>
      <Answers
        name="days"
        legend={s.shown.lasts}
        shape="three"
        value={days}
        onAnswer={setDays}
        choices={DAYS.map((value) => ({ value, label: s.shown.days[value] }))}
      />
      <button type="button" className="press" onClick={() => void make()}>
        {s.shown.make}
      </button>
      {said !== undefined && <Told>{said}</Told>}
      {made !== undefined && (
        <div className="card stack tight">
          <h3>{s.shown.made}</h3>
          <output className="guest-link">{address}</output>
          <p>{s.shown.until(words.day(day(localDay(made.expires)), today))}</p>
          {made.reach === null && <p className="quiet">{s.shown.onlyHere}</p>}
          <button type="button" className="press" onClick={() => void copy()}>
            {s.shown.copy}
          </button>
        </div>
      )}
    </section>
  );
}
