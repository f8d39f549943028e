import { useId, useState } from "react";
import { useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { takeInFile } from "../../house/take-in-file.ts";
import { fileProblemSaid, refusalSaid } from "./model.ts";

/** Brings a backup file in, and says in one sentence what came of it. */
export function BringIn() {
  const s = useScreens();
  const today = useToday();
  const { device, house, openHerd } = useGround();
  const id = useId();
  const [said, setSaid] = useState<readonly string[]>([]);
  const bring = async (file: File): Promise<void> => {
    const taken = await takeInFile(await file.text(), device, today, s.frame.unnamed);
    if (!taken.ok) {
      setSaid([taken.error.code === "no-entries" ? refusalSaid(s, taken.error.problems) : s.safe.notKept]);
      return;
    }
    const { herd, added, known, problems } = taken.value;
    const wrong = fileProblemSaid(s, problems);
    setSaid([s.safe.restored(added, known), ...(wrong === undefined ? [] : [wrong])]);
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
          accept=".jsonl,.json,.txt,application/jsonl,application/json"
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
