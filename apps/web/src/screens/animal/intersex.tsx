import type { AnimalModel } from "@pollard/advice";
import { useScreens, useToday } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import { clearingFact, clearsHer, watchOf } from "./model.ts";

/** Why a goat is watched for intersex; of a doe that is here also what would settle it, each one tap with its undo. */
export function IntersexPart({ model }: { readonly model: AnimalModel }) {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const clears = clearsHer(model, today);
  // Once it is settled the page says no more of it, but the tap that settled it keeps its undo.
  if (!model.intersexWatch) return <DeedLine deeds={deeds} />;
  return (
    <section className="card ask stack tight">
      <p>
        <b>{s.animal.intersexWatch[watchOf(model.ref)]}</b> {s.animal.intersexWatchDo}
      </p>
      {clears.length > 0 && <p>{s.animal.intersexSettles}</p>}
      {clears.length > 0 && (
        <div className="two">
          {clears.map((what) => (
            <button
              key={what}
              type="button"
              className="press"
              onClick={() =>
                void deeds.act(capital(s.animal.traitsSaid[what]), [clearingFact(what, model.ref.id, today)])
              }
            >
              {capital(s.animal.traitsSaid[what])}
            </button>
          ))}
        </div>
      )}
      <DeedLine deeds={deeds} />
    </section>
  );
}
