import { day } from "@pollard/base";
import { useEffect, useState } from "react";
import { renderSVG } from "uqr";
import { type HubDevice, hubDevices, type HubRole } from "../../adapters/hub/hub-peer.ts";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { GuestLinks } from "../shown/links.tsx";
import { codeShown, joinAddress, localDay } from "./model.ts";

type Standing =
  | { readonly state: "asking" | "away" | "not-yours" }
  | { readonly state: "told"; readonly devices: readonly HubDevice[]; readonly reach: string | null };

/** The phones of this herd: who may come in, and letting one more in. Asked of the hub; nothing of it is kept here. */
export function PhonesScreen() {
  const s = useScreens();
  const { house } = useGround();
  const { id, token } = house.herd;
  const [standing, setStanding] = useState<Standing>({ state: "asking" });
  const [said, setSaid] = useState<string>();
  const [looked, setLooked] = useState(0);
  useEffect(() => {
    void hubDevices(id, document.baseURI, token)
      .list()
      .then((found) => {
        if (found.ok) setStanding({ state: "told", ...found.value });
        else if (found.error.code === "peer-refused" && found.error.status < 500) setStanding({ state: "not-yours" });
        else setStanding({ state: "away" });
      });
  }, [id, token, looked]);
  const lookAgain = (): void => setLooked(looked + 1);
  const shut = async (phone: HubDevice): Promise<void> => {
    const done = await hubDevices(id, document.baseURI, token).revoke(phone.id);
    setSaid(done.ok ? s.phones.shutNow(phone.name) : s.phones.away);
    lookAgain();
  };
  const letInAgain = async (phone: HubDevice): Promise<void> => {
    const done = await hubDevices(id, document.baseURI, token).letInAgain(phone.id);
    setSaid(done.ok ? s.phones.againNow(phone.name) : s.phones.away);
    lookAgain();
  };
  return (
    <Frame heading={s.phones.title} title={s.phones.title} back="/safe" place="safe">
      <h1 className="in-board">{s.phones.title}</h1>
      <p>{s.phones.intro}</p>
      {standing.state === "away" && <Told>{s.phones.away}</Told>}
      {standing.state === "not-yours" && <Told>{s.phones.notYours}</Told>}
      {said !== undefined && <Told className="card">{said}</Told>}
      {standing.state === "told" && (
        <div className="wide-two">
          <LetIn reach={standing.reach} onCode={lookAgain} />
          <section className="part">
            {standing.devices.length === 0 && <p>{s.phones.none}</p>}
            <ul className="stack">
              {standing.devices.map((phone) => (
                <Phone
                  key={phone.id}
                  phone={phone}
                  onShut={() => void shut(phone)}
                  onAgain={() => void letInAgain(phone)}
                />
              ))}
            </ul>
            <GuestLinks />
          </section>
        </div>
      )}
    </Frame>
  );
}

function Phone(props: { readonly phone: HubDevice; readonly onShut: () => void; readonly onAgain: () => void }) {
  const { phone, onShut, onAgain } = props;
  const s = useScreens();
  const today = useToday();
  const dayOf = (iso: string): string => words.day(day(localDay(iso)), today);
  return (
    <li className="card">
      <h2>{phone.name}</h2>
      <p>
        {s.phones.roles[phone.role]}. {s.phones.joined(dayOf(phone.made))}{" "}
        {phone.seen === undefined ? s.phones.neverSeen : s.phones.seen(dayOf(phone.seen))}
      </p>
      {phone.revoked === undefined ? (
        <button type="button" className="press" aria-label={`${s.phones.shut}: ${phone.name}`} onClick={onShut}>
          {s.phones.shut}
        </button>
      ) : (
        <>
          <StatusChip status="planned" word={s.phones.shutOut} />
          <button type="button" className="press" aria-label={`${s.phones.again}: ${phone.name}`} onClick={onAgain}>
            {s.phones.again}
          </button>
        </>
      )}
    </li>
  );
}

/** How often the list is looked at while a code is shown, so that whoever joins is seen there. */
const WAITING_MS = 4000;

function LetIn({ reach, onCode }: { readonly reach: string | null; readonly onCode: () => void }) {
  const s = useScreens();
  const { house } = useGround();
  const [role, setRole] = useState<HubRole>("keeper");
  const [invite, setInvite] = useState<{ readonly code: string; readonly minutes: number } | "away">();
  if (reach === null)
    return (
      <section className="part">
        <h2>{s.phones.letIn}</h2>
        <p className="say">{s.phones.noReach}</p>
        <p>{s.phones.noReachHow}</p>
      </section>
    );
  const isWaiting = invite !== undefined && invite !== "away";
  useEffect(() => {
    if (!isWaiting) return undefined;
    const timer = setInterval(onCode, WAITING_MS);
    return () => clearInterval(timer);
  }, [isWaiting, onCode]);
  const show = async (): Promise<void> => {
    const made = await hubDevices(house.herd.id, document.baseURI, house.herd.token).invite(role);
    if (!made.ok) {
      setInvite("away");
      return;
    }
    const minutes = Math.max(1, Math.round((Date.parse(made.value.expires) - Date.now()) / 60_000));
    setInvite({ code: made.value.code, minutes });
    onCode();
  };
  return (
    <section className="part">
      <h2>{s.phones.letIn}</h2>
      <Answers
        name="role"
        legend={s.phones.as}
        value={role}
        onAnswer={setRole}
        choices={(["keeper", "helper", "vet"] as const).map((value) => ({
          value,
          label: s.phones.roles[value],
          hint: s.phones.roleHints[value],
        }))}
      />
      <button type="button" className="press main" onClick={() => void show()}>
        {s.phones.show}
      </button>
      {invite === "away" && <Told>{s.phones.away}</Told>}
      {invite !== undefined && invite !== "away" && (
        <div className="card stack tight">
          <h3>{s.phones.code}</h3>
          <output className="typed join-code">{codeShown(invite.code)}</output>
          <p>{s.phones.codeFor(invite.minutes)}</p>
          <p>{s.phones.scan}</p>
          <img className="join-picture" alt={s.phones.qr} src={pictureOf(joinAddress(reach, invite.code))} />
          <p className="quiet">{s.phones.orType(reach)}</p>
        </div>
      )}
    </section>
  );
}

/** A QR code as a picture that needs no request. Medium correction, and the quiet border that the standard asks for. */
const pictureOf = (text: string): string =>
  `data:image/svg+xml,${encodeURIComponent(renderSVG(text, { ecc: "M", border: 4 }))}`;
