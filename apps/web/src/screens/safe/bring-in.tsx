import { useId, useState } from "react";
import { Link } from "wouter";
import type { KeptHerd } from "../../adapters/device.ts";
import { useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { takeInBackup } from "../../house/take-in-backup.ts";
import { fileProblemSaid, notTakenSaid } from "./model.ts";

/** Brings a backup file in, and says what came of it. One of another herd is kept apart, and opened only when asked. */
export function BringIn() {
  const s = useScreens();
  const today = useToday();
  const { device, house, openHerd } = useGround();
  const id = useId();
  const [said, setSaid] = useState<readonly string[]>([]);
  const [other, setOther] = useState<KeptHerd>();
  const [isTable, setIsTable] = useState(false);
  const bring = async (file: File): Promise<void> => {
    setOther(undefined);
    setIsTable(false);
    const taken = await takeInBackup(file, device, today, s.frame.unnamed);
    if (!taken.ok) {
      setSaid([notTakenSaid(s, taken.error)]);
      setIsTable(
        taken.error.code === "no-entries" &&
          taken.error.problems.some((problem) => problem.code === "not-a-herd-file" && problem.looks === "csv"),
      );
      return;
    }
    const { herd, added, known, problems, photos } = taken.value;
    const wrong = fileProblemSaid(s, problems);
    const pictures = photos === "no-room" ? s.photo.notAllKept : photos > 0 ? s.photo.broughtIn(photos) : undefined;
    const apart = herd.id === house.herd.id ? undefined : s.safe.otherHerdCame(herd.name);
    setSaid([apart, s.safe.restored(added, known), wrong, pictures].filter((sentence) => sentence !== undefined));
    if (herd.id === house.herd.id) await house.refresh();
    else setOther(herd);
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
      {other !== undefined && (
        <button type="button" className="press" onClick={() => void openHerd(other)}>
          {s.safe.openHerd}: {other.name}
        </button>
      )}
      {isTable && (
        <Link href="/list" className="press">
          {s.lists.title}
        </Link>
      )}
    </>
  );
}
