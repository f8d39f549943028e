import { useScreens } from "../../house/use-house.tsx";
import { SavedLine } from "./saved-line.tsx";
import type { Deeds } from "./use-deed.ts";

/** What the last tap did, that it is kept, and its undo. */
export function DeedLine({ deeds }: { readonly deeds: Deeds }) {
  const s = useScreens();
  if (deeds.saving.state === "nothing") return null;
  return (
    <div className="deed">
      <SavedLine saving={deeds.saving} last={deeds.last?.said} />
      {deeds.last !== undefined && deeds.saving.state === "kept" && (
        <button type="button" className="press" onClick={() => void deeds.undo()}>
          {s.season.undo}
        </button>
      )}
    </div>
  );
}
