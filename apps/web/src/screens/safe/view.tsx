import { useEffect, useState } from "react";
import { Link } from "wouter";
import type { KeptHerd } from "../../adapters/device.ts";
import { askToKeep, type StorageHealth, storageHealth } from "../../adapters/storage-health.ts";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import type { Safety } from "../../worker/safety.ts";
import { makeBackup } from "../../house/make-backup.ts";
import { sizeSaid, whenSaid } from "./model.ts";
import { BringIn } from "./bring-in.tsx";
import { EraseHerd } from "./erase.tsx";
import { Where } from "./where.tsx";
import { Told } from "../../parts/frame/told.tsx";

/** Where the herd is, and how to keep it safe: on this phone, on the hub, in a file. */
export function SafeScreen() {
  const s = useScreens();
  const { house } = useGround();
  const asked = useAsked((answers) => answers.safety(), []);
  const safety = asked.value?.ok ? asked.value.value : undefined;
  return (
    <Frame heading={s.safe.title} title={s.safe.title} place="safe">
      <h1 className="in-board">{s.safe.title}</h1>
      <p className="lead">{s.safe.calm}</p>
      {house.otherTab && <Told>{s.frame.otherTab}</Told>}
      {asked.value?.ok === false && <p role="alert">{s.frame.notSavedUnavailable}</p>}
      {safety !== undefined && (
        <div className="wide-two">
          <div className="stack">
            <Where safety={safety} />
            <Backup safety={safety} />
          </div>
          <div className="stack">
            <Keeping />
            <Elsewhere />
            <Herds />
            <section className="part">
              {house.herd.sort === "own" && (
                <Link href="/phones" className="press start">
                  {s.safe.phones}
                </Link>
              )}
              <Link href="/tables" className="press start">
                {s.lists.tables}
              </Link>
              <Link href="/list" className="press start">
                {s.lists.title}
              </Link>
              <Link href="/problems" className="press start">
                {s.safe.problems}
              </Link>
              <Link href="/settings" className="press start">
                {s.safe.settings}
              </Link>
            </section>
            <EraseHerd entries={safety.entries} onBackup={() => makeBackup(house)} />
          </div>
        </div>
      )}
    </Frame>
  );
}

function Backup({ safety }: { readonly safety: Safety }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [made, setMade] = useState<string>();
  const [photos, setPhotos] = useState(0);
  useEffect(() => {
    void house.photos.count().then((count) => setPhotos(count.ok ? count.value : 0));
  }, [house, safety]);
  const { backup } = safety;
  return (
    <section className="part">
      <h2>{s.safe.backup}</h2>
      {backup === undefined ? (
        <p className="with-mark">
          <StatusMark status="soon" />
          <b>{s.safe.backupNever}</b>
        </p>
      ) : (
        <p>
          <b>{s.safe.backupLast(whenSaid(`${backup.on}T${backup.time}`, today))}</b>
          <br />
          {s.safe.backupSince(Math.max(0, safety.entries - backup.entries))}
        </p>
      )}
      <p>
        {s.safe.backupHint} {photos > 0 && s.photo.backupHolds(photos)}
      </p>
      <button type="button" className="press main" onClick={() => void makeBackup(house).then(setMade)}>
        {s.safe.backupMake}
      </button>
      {made !== undefined && <Told>{s.safe.backupMade(made)}</Told>}
      <BringIn />
    </section>
  );
}

function Keeping() {
  const s = useScreens();
  const [health, setHealth] = useState<StorageHealth>();
  useEffect(() => {
    void storageHealth(navigator.storage).then(setHealth);
  }, []);
  const [asked, setAsked] = useState<StorageHealth["keeping"]>();
  const ask = async (): Promise<void> => {
    setAsked(await askToKeep(navigator.storage));
    setHealth(await storageHealth(navigator.storage));
  };
  if (health === undefined) return null;
  return (
    <section className="part">
      <h2>{s.safe.keeping}</h2>
      <p>{health.keeping === "kept" ? s.safe.kept : health.keeping === "may-go" ? s.safe.mayGo : s.safe.notTold}</p>
      {health.usedBytes !== undefined && health.quotaBytes !== undefined && (
        <p className="quiet">{s.safe.used(sizeSaid(health.usedBytes), sizeSaid(health.quotaBytes))}</p>
      )}
      {health.keeping !== "kept" && (
        <>
          <p>{s.safe.sevenDays}</p>
          <p>{s.safe.privateWindow}</p>
          <button type="button" className="press" onClick={() => void ask()}>
            {s.safe.askKeep}
          </button>
          {asked !== undefined && asked !== "kept" && <Told>{s.safe.askedNo}</Told>}
        </>
      )}
    </section>
  );
}

function Elsewhere() {
  const s = useScreens();
  return (
    <section className="part">
      <h2>{s.safe.otherDevice}</h2>
      <p>{s.safe.otherDeviceHow}</p>
      <p>{s.safe.otherDeviceSecure}</p>
      <p>{s.safe.otherDeviceFile}</p>
    </section>
  );
}

function Herds() {
  const s = useScreens();
  const { device, house, openHerd } = useGround();
  const [herds, setHerds] = useState<readonly KeptHerd[]>([]);
  useEffect(() => {
    void device.herds().then(setHerds);
  }, [device]);
  return (
    <section className="part">
      <h2>{s.safe.herds}</h2>
      <ul className="rows">
        {herds.map((herd) => (
          <li key={herd.id} className="history-line">
            <span>
              <b>{herd.name}</b>
              {herd.id === house.herd.id && (
                <>
                  <br />
                  {s.safe.isOpen}
                </>
              )}
            </span>
            {herd.id !== house.herd.id && (
              <button
                type="button"
                className="press"
                aria-label={`${s.safe.openHerd}: ${herd.name}`}
                onClick={() => void openHerd(herd)}
              >
                {s.safe.openHerd}
              </button>
            )}
          </li>
        ))}
      </ul>
      <button type="button" className="press" onClick={() => void openHerd(undefined)}>
        {s.safe.otherHerd}
      </button>
    </section>
  );
}
