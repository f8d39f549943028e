import type { StoreFailure } from "@pollard/records";
import { useState } from "react";
import { TickIcon } from "../../drawings/icons.tsx";
import { StatusMark } from "../../drawings/marks.tsx";
import { useGround, useScreens } from "../../house/use-house.tsx";
import { Told } from "../frame/told.tsx";

/** How far the last answer has got. `kept` only after the disk said so. */
export type Saving =
  | { readonly state: "nothing" }
  | { readonly state: "saving" }
  | { readonly state: "kept"; readonly time: string }
  | { readonly state: "failed"; readonly why: StoreFailure["code"]; readonly retry: () => void };

/** Makes a backup without leaving the page: what is not saved yet is on it alone. */
function BackupHere() {
  const s = useScreens();
  const { house } = useGround();
  const [made, setMade] = useState<string>();
  const make = async (): Promise<void> => {
    const { makeBackup } = await import("../../house/make-backup.ts");
    setMade(await makeBackup(house));
  };
  return (
    <>
      <button type="button" className="press" onClick={() => void make()}>
        {s.frame.exportNow}
      </button>
      {made !== undefined && <Told>{s.safe.backupMade(made)}</Told>}
    </>
  );
}

/**
 * The one line that says whether the last answer is safe. A failure stays, with what to do about it. `first`: what is said
 * instead as long as nothing is answered.
 */
export function SavedLine(props: {
  readonly saving: Saving;
  readonly last?: string | undefined;
  readonly first?: string | undefined;
}) {
  const s = useScreens();
  const { saving, last } = props;
  if (saving.state === "failed")
    return (
      <div className="stack tight" role="alert">
        <p className="saved alarm">
          <StatusMark status="now" />
          {saving.why === "full" ? s.frame.notSavedFull : s.frame.notSavedUnavailable}
        </p>
        <div className="two">
          <button type="button" className="press" onClick={saving.retry}>
            {s.frame.retry}
          </button>
          <BackupHere />
        </div>
      </div>
    );
  const said =
    saving.state === "kept"
      ? s.frame.saved(saving.time)
      : saving.state === "saving"
        ? s.frame.saving
        : (props.first ?? s.frame.nothingYet);
  return (
    <Told className="saved">
      {saving.state === "kept" && <TickIcon />}
      <span>
        {said}
        {last !== undefined && saving.state === "kept" && <span className="quiet">. {last}</span>}
      </span>
    </Told>
  );
}
