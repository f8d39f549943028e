import { day } from "@pollard/base";
import { useEffect, useState } from "react";
import { type GuestLink, hubShown } from "../../adapters/hub/hub-shown.ts";
import { localMinute } from "../../adapters/clock.ts";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { localDay } from "../phones/model.ts";

/** The papers that guests can see by a link, and ending one of them. */
export function GuestLinks() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const { id, token } = house.herd;
  const [links, setLinks] = useState<readonly GuestLink[]>([]);
  const [said, setSaid] = useState<string>();
  const [looked, setLooked] = useState(0);
  useEffect(() => {
    void hubShown(id, document.baseURI, token)
      .links()
      .then((found) => {
        if (found.ok) setLinks(found.value);
      });
  }, [id, token, looked]);
  const end = async (link: GuestLink): Promise<void> => {
    const ended = await hubShown(id, document.baseURI, token).end(link.id);
    setSaid(ended.ok ? s.shown.endNow(link.title) : s.shown.away);
    setLooked(looked + 1);
  };
  const dayOf = (iso: string): string => words.day(day(localDay(iso)), today);
  return (
    <>
      <h2>{s.shown.links}</h2>
      {said !== undefined && <Told className="card">{said}</Told>}
      {links.length === 0 && <p>{s.shown.noLinks}</p>}
      <ul className="stack">
        {links.map((link) => (
          <li key={link.id} className="card">
            <h3>{link.title}</h3>
            {link.revoked !== undefined ? (
              <p>{s.shown.ended}</p>
            ) : localDay(link.expires) < localMinute().slice(0, 10) ? (
              <p>{s.shown.over(dayOf(link.expires))}</p>
            ) : (
              <>
                <p>{s.shown.good(dayOf(link.expires))}</p>
                <button
                  type="button"
                  className="press"
                  aria-label={`${s.shown.end}: ${link.title}`}
                  onClick={() => void end(link)}
                >
                  {s.shown.end}
                </button>
              </>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
