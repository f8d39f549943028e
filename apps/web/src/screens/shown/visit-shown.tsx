import type { VetListLine, VetListModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { useState } from "react";
import { hubShown } from "../../adapters/hub/hub-shown.ts";
import { useGround, useScreens, weights, words } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import { longDay } from "../../parts/long-day.ts";
import { Told } from "../../parts/frame/told.tsx";
import { forVet } from "../vet-list/for-vet.ts";
import { shownVisit, whyNotShown } from "./model.ts";

/** Shows the list of a visit to the vet's own phone, as it is now; again after it changed; or no longer. */
export function VisitShown({ model, day }: { readonly model: VetListModel; readonly day: Day }) {
  const s = useScreens();
  const { house } = useGround();
  const { id, name, token } = house.herd;
  const [said, setSaid] = useState<string>();
  const [state, setState] = useState<"shown" | "not-said">("not-said");
  // A list is read on another day than it is shown on: no "today" and no "tomorrow" in it.
  const lines = (line: VetListLine): readonly string[] => [
    `${s.animals.sex[line.kid.sex]}, ${s.vetList.ageDays(line.ageOnDay)}`,
    line.weight === undefined
      ? s.vetList.notWeighed
      : s.vetList.weighed(weights.forVet.said(line.weight.kg), longDay(line.weight.on)),
    `${s.vetList.end}: ${longDay(line.end)}`,
    ...line.pressing.filter((code) => code === "very-small-kid").map((code) => words.caution(code)),
    ...forVet(s, line, { day, sayDay: longDay }),
    ...line.notes,
  ];
  const show = async (): Promise<void> => {
    const visit = shownVisit(model, name, {
      name: (line) => words.label(line.kid),
      lines: (line) => lines(line).map(capital),
      caution: (code) => words.caution(code),
    });
    const shown = await hubShown(id, document.baseURI, token).showVisit(day, visit);
    if (shown.ok) setState("shown");
    setSaid(shown.ok ? s.shown.shownNow(visit.kids.length) : s.shown[whyNotShown(shown.error)]);
  };
  const hide = async (): Promise<void> => {
    const hidden = await hubShown(id, document.baseURI, token).hideVisit(day);
    if (hidden.ok) setState("not-said");
    setSaid(hidden.ok ? s.shown.hiddenNow : s.shown[whyNotShown(hidden.error)]);
  };
  return (
    <section className="part">
      <h2>{s.shown.visit}</h2>
      <p>{s.shown.visitHint}</p>
      <button type="button" className="press" onClick={() => void show()}>
        {state === "shown" ? s.shown.showAgain : s.shown.show}
      </button>
      {state === "shown" && (
        <button type="button" className="press" onClick={() => void hide()}>
          {s.shown.hide}
        </button>
      )}
      {said !== undefined && <Told>{said}</Told>}
      <p className="quiet">{s.shown.hasPhone}</p>
    </section>
  );
}
