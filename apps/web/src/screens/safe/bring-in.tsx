import { useId, useState } from "react";
import { useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { takeInBackup } from "../../house/take-in-backup.ts";
import { fileProblemSaid, notTakenSaid } from "./model.ts";

/** Brings a backup file in, and says in one sentence what came of it. */
export function BringIn() {
  const s = useScreens();
  const today = useToday();
  const { device, house, openHerd } = useGround();
  const id = useId();
  const [said, setSaid] = useState<readonly string[]>([]);
  const bring = async (file: File): Promise<void> => {
    const taken = await takeInBackup(file, device, today, s.frame.unnamed);
    if (!taken.ok) {
      setSaid([notTakenSaid(s, taken.error)]);
      return;
    }
    const { herd, added, known, problems, photos } = taken.value;
    const wrong = fileProblemSaid(s, problems);
    const pictures = photos === "no-room" ? s.photo.notAllKept : photos > 0 ? s.photo.broughtIn(photos) : undefined;
    setSaid([s.safe.restored(added, known), wrong, pictures].filter((sentence) => sentence !== undefined));
    if (herd.id === house.herd.id) await house.refresh();
    else await openHerd(herd);
  };
  return (
    <>
      <p>{s.safe.restoreHint}</p>
      <label className="press file-key" htmlFor={id}>
        {s.safe.restore}
        <input
          id={id}
          type="file"
          accept=".jsonl,.json,.txt,.zip,application/jsonl,application/json,application/zip"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (file) void bring(file);
          }}
        />
      </label>
      {said.length > 0 && (
        <output className="card">
          {said.map((sentence) => (
            <span key={sentence}>{sentence}</span>
          ))}
        </output>
      )}
    </>
  );
}
