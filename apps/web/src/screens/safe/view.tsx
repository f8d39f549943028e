import type { EntryId } from "@pollard/records";
import { useEffect, useState } from "react";
import { Link } from "wouter";
import { timeOfDay, today as clockToday } from "../../adapters/clock.ts";
import { writeBackup } from "../../adapters/files/backup-file.ts";
import type { KeptHerd } from "../../adapters/device.ts";
import { askToKeep, type StorageHealth, storageHealth } from "../../adapters/storage-health.ts";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import type { Safety } from "../../worker/herd-answers.ts";
import { backupName, clockSaid, sizeSaid } from "./model.ts";
import { BringIn } from "./bring-in.tsx";
import { EraseHerd } from "./erase.tsx";
import { RefusedEntries } from "./refused.tsx";
import { Told } from "../../parts/told.tsx";

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
            <EraseHerd entries={safety.entries} onBackup={() => makeBackup(house, safety)} />
          </div>
        </div>
      )}
    </Frame>
  );
}

type House = ReturnType<typeof useGround>["house"];

/** Writes the backup into the person's files, and notes that it was made. */
async function makeBackup(house: House, safety: Safety): Promise<string> {
  const photos = await house.photos.all();
  const { blob, ending } = await writeBackup({
    text: await house.answers.backupText(),
    photos: photos.ok ? photos.value : [],
  });
  const today = clockToday();
  const name = backupName(house.herd.name, today, ending);
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  URL.revokeObjectURL(url);
  await house.marks.setBackup({ on: today, time: timeOfDay(), entries: safety.entries });
  await house.refresh();
  return name;
}

function Where({ safety }: { readonly safety: Safety }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [exchange, setExchange] = useState<"idle" | "working" | "away" | "later" | "turned-away" | "not-let-in">(
    "idle",
  );
  const [lines, setLines] = useState<readonly string[]>();
  const ended = exchange === "idle" ? house.lastExchange : exchange;
  const hub = safety.hubAnswered;
  const isDemo = house.herd.sort === "demo";
  const now = async (): Promise<void> => {
    setExchange("working");
    const outcome = await house.exchange();
    setExchange(outcome === "done" ? "idle" : outcome === "not-kept" ? "away" : outcome);
  };
  const name = async (entries: readonly EntryId[]): Promise<void> => {
    const found = await house.answers.lines(entries);
    setLines(found.map((line) => s.problems.entry(s.animal.kinds[line.kind], words.day(line.on, today), line.by)));
  };
  return (
    <section className="part">
      <h2>{s.safe.where}</h2>
      <p className="say">{s.safe.onThisPhone(safety.entries)}</p>
      {isDemo && <p>{s.safe.demoStays}</p>}
      {isDemo ? null : hub === undefined ? (
        <p>{s.safe.hubNever}</p>
      ) : (
        <>
          <p>
            <StatusChip
              status={safety.onlyHere.length === 0 ? "done" : "soon"}
              word={s.safe.onlyHere(safety.onlyHere.length)}
            />
          </p>
          <p>{s.safe.hubLast(whenSaid(hub, today))}</p>
        </>
      )}
      {safety.hubRefused.length > 0 && <RefusedEntries refused={safety.hubRefused} />}
      {safety.photosRefused.room > 0 && <Told>{s.safe.photosNoRoom(safety.photosRefused.room)}</Told>}
      {safety.photosRefused.other > 0 && <Told>{s.safe.photosRefused(safety.photosRefused.other)}</Told>}
      {!isDemo && safety.ownClock !== undefined && <Told>{clockSaid(s, safety.ownClock)}</Told>}
      {!isDemo && safety.drift !== undefined && <Told>{s.safe.drift(safety.drift)}</Told>}
      {exchange === "away" && <Told>{s.safe.hubAway}</Told>}
      {exchange === "later" && <Told>{s.safe.hubLater}</Told>}
      {ended === "turned-away" && <Told>{s.phones.turnedAway}</Told>}
      {ended === "not-let-in" && <Told>{s.phones.notLetIn}</Told>}
      {hub !== undefined && safety.onlyHere.length > 0 && (
        <button type="button" className="press plain start" onClick={() => void name(safety.onlyHere)}>
          {s.safe.list}
        </button>
      )}
      {lines !== undefined && (
        <ul className="named-lines">
          {lines.map((line, at) => (
            // The same thing may be entered twice on one day: the place in the list is its name.
            <li key={at}>{line}</li>
          ))}
        </ul>
      )}
      {!isDemo && (
        <button type="button" className="press" aria-disabled={exchange === "working"} onClick={() => void now()}>
          {exchange === "working" ? s.safe.hubWorking : s.safe.hubNow}
        </button>
      )}
    </section>
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
      <button type="button" className="press main" onClick={() => void makeBackup(house, safety).then(setMade)}>
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
  const ask = async (): Promise<void> => {
    await askToKeep(navigator.storage);
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
          <button type="button" className="press" onClick={() => void ask()}>
            {s.safe.askKeep}
          </button>
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

/** Local day and time, as said. */
function whenSaid(minute: string, today: ReturnType<typeof useToday>): string {
  return `${words.day(minute.slice(0, 10) as typeof today, today)} ${minute.slice(11)}`;
}
