import { useRef, useState } from "react";
import { useGround, useScreens } from "../../house/use-house.tsx";

/** The one thing that cannot be taken back, and so the one that asks; a backup is offered first. */
export function EraseHerd({
  entries,
  onBackup,
}: {
  readonly entries: number;
  readonly onBackup: () => Promise<string>;
}) {
  const s = useScreens();
  const { device, house, openHerd } = useGround();
  const dialog = useRef<HTMLDialogElement>(null);
  const [failed, setFailed] = useState(false);
  const erase = async (): Promise<void> => {
    const gone = await house.erase(device);
    if (!gone.ok) {
      setFailed(true);
      return;
    }
    await openHerd(undefined);
  };
  return (
    <section className="part">
      <button type="button" className="press" onClick={() => dialog.current?.showModal()}>
        {s.safe.erase}
      </button>
      <dialog ref={dialog} aria-labelledby="erase-title" className="ask-once">
        <div className="stack">
          <h2 id="erase-title">{s.safe.eraseTitle}</h2>
          <p>{s.safe.eraseSay(entries)}</p>
          {failed && <p role="alert">{s.frame.notSavedUnavailable}</p>}
          <button type="button" className="press main" onClick={() => dialog.current?.close()}>
            {s.safe.eraseNo}
          </button>
          <button type="button" className="press" onClick={() => void onBackup()}>
            {s.safe.eraseBackup}
          </button>
          <button type="button" className="press" onClick={() => void erase()}>
            {s.safe.eraseYes}
          </button>
        </div>
      </dialog>
    </section>
  );
}
